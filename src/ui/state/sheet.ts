import { pathStrip, type StripBox } from "../../drawing/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import type { Item } from "../../connectivity/index.ts";
import { type Answer, describeItem, type Facts, MAKER_FIRST } from "../../application/index.ts";
import type { Highlighted } from "../graph/harness-graph.ts";
import { isDrawn } from "./drawn-answer.ts";
import type { AppState } from "./app.svelte.ts";
import type { TestPoint } from "./test-point.ts";
import { inspect, type FaceToShow } from "./inspect.ts";
import { litOf } from "./highlighted.ts";
import { isReading } from "./readings.ts";

/** What fits on one printed page; what does not fit is counted. */
export interface Sheet {
  /** What the rows are, where they are not the whole answer. */
  readonly note: string;
  readonly rows: readonly StripBox[];
  readonly rowsLeft: number;
  readonly faces: readonly FaceToShow[];
  readonly points: readonly TestPoint[];
  readonly pointsLeft: number;
  readonly cautions: readonly string[];
  readonly cautionsLeft: number;
  readonly lit: Highlighted | undefined;
}

const MOST = { rows: 22, faces: 2, cautions: 12 };

/** Heights on paper: the column of the table, a row of it, a place to measure with its sentence, and the lines around them. */
const PAPER_MM = { column: 132, row: 5.1, point: 10.5, lines: 24 };

/** How many places to measure have room under so many rows. */
function roomForPoints(rows: number): number {
  const { column, row, point, lines } = PAPER_MM;
  return Math.max(0, Math.floor((column - lines - Math.min(rows, MOST.rows) * row) / point));
}

/**
 * Gathers what the printed page shows of an answer.
 *
 * @param app The page.
 * @param harness The harness of the chosen build.
 * @param answer The answer.
 * @param along The places to measure along the path, where they are known already.
 */
export function sheetOf(app: AppState, harness: Harness, answer: Answer, along: readonly TestPoint[]): Sheet {
  const items = thingsOf(answer);
  const rows = pathStrip(harness, items, answer.kind === "path" ? answer.mustPass : []);
  // A reading tells itself where its leads go.
  const points = isReading(answer) ? [] : answer.kind === "test-points" ? answer.points : along;
  const room = roomForPoints(rows.length);
  const all = "cautions" in answer ? answer.cautions.filter((caution) => caution !== MAKER_FIRST) : [];
  return {
    note: noteOf(answer),
    rows: rows.slice(0, MOST.rows),
    rowsLeft: Math.max(0, rows.length - MOST.rows),
    faces: facesOf(app, harness, items),
    points: points.slice(0, room),
    pointsLeft: Math.max(0, points.length - room),
    cautions: all.slice(0, MOST.cautions),
    cautionsLeft: Math.max(0, all.length - MOST.cautions),
    lit: litOf(harness, answer, undefined),
  };
}

function noteOf(answer: Answer): string {
  if (answer.kind !== "circuit" || !answer.circuits[0]) return "";
  const { serves } = answer.circuits[0];
  return `The circuit of ${serves.id}${answer.circuits.length > 1 ? `, the first of ${answer.circuits.length}` : ""}`;
}

function thingsOf(answer: Answer): readonly Facts[] {
  if (isReading(answer)) return answer.leads.map(({ of }) => of);
  if (!isDrawn(answer)) return [];
  switch (answer.kind) {
    case "path":
      return answer.path;
    case "circuit":
      return answer.circuits[0]?.sides.flatMap((side) => side.ways[0] ?? []) ?? answer.net.items;
    case "common":
      return answer.items;
    case "effect":
      return answer.stopped;
    case "test-points":
      return [answer.of];
    case "no-path":
      return [];
  }
}

/** The faces of the two ends of the path, or of what is selected. */
function facesOf(app: AppState, harness: Harness, items: readonly Item[]): readonly FaceToShow[] {
  const contacts = items.filter((item) => item.type === "contact" || item.type === "wire" || item.type === "connector");
  const wanted = [contacts[0], contacts.length > 1 ? contacts.at(-1) : undefined, app.selection];
  const seen = new Set<string>();
  return wanted
    .flatMap((item) => (item ? (inspect(harness, describeItem(harness, item), app.stateId)?.faces ?? []) : []))
    .filter(({ connector, cavity }) => {
      const key = `${connector.id}:${cavity ?? ""}`;
      return seen.has(key) ? false : seen.add(key);
    })
    .slice(0, MOST.faces);
}

/** The items along the path of an answer at which a person may want to measure. */
export function measuredAlong(answer: Answer): readonly string[] {
  if (isReading(answer) || answer.kind === "test-points") return [];
  return thingsOf(answer)
    .filter(({ type }) => type === "contact" || type === "stud" || type === "splice")
    .slice(0, MOST.rows)
    .map(({ id }) => id);
}

/** The safest place to measure of each answer, the safest of all first. */
export function safestPoints(answers: readonly Answer[]): readonly TestPoint[] {
  const points = answers.flatMap((answer) =>
    answer.kind === "test-points" ? answer.points.filter((point) => point.class !== "P0").slice(0, 1) : [],
  );
  const once = [...new Map(points.map((point) => [point.id, point])).values()];
  return once.toSorted((a, b) => a.class.localeCompare(b.class) || a.minutes - b.minutes);
}

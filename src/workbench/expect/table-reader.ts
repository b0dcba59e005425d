import { readMeter, type QuestionProblem, type Situation } from "../../electrics/index.ts";
import { isContactPermitted, METHODS, type Method } from "../../safety/index.ts";
import { nodeItem } from "../../trace/index.ts";
import { forbiddenTexts } from "../cautions.ts";
import type { Scene } from "../scene.ts";
import { readingFacts, reasonsOf } from "./reading-facts.ts";
import type { TableReading, TableRow } from "./table-answer.ts";

/** What a table reads from: each point once, however many ways pass it. */
export interface TableReader {
  readonly read: (node: number) => TableReading;
  /** The gentlest permitted way to the point itself. */
  readonly reach: (node: number) => TableRow["reach"];
  /** Why there are no figures, each reason once. */
  readonly reasons: () => readonly { readonly code: string; readonly text: string }[];
  readonly problems: () => readonly QuestionProblem[];
}

/** Permitted only with the connector open, which a table has not. */
const OPENS: Method = "front-probe";
const GENTLEST: readonly Method[] = (Object.keys(METHODS) as Method[])
  .filter((method) => METHODS[method].class !== undefined && METHODS[method].meters.includes("volts"))
  .toSorted((a, b) => (METHODS[a].class ?? "").localeCompare(METHODS[b].class ?? ""));

/**
 * Makes a reader for the points of a table.
 *
 * @param scene The machine in its build and state.
 * @param how The situation, where the black lead stays, and the connectors that are unplugged.
 */
export function tableReader(
  scene: Scene,
  how: { readonly situation: Situation; readonly black: string; readonly opened: ReadonlySet<string> },
): TableReader {
  const { harness } = scene;
  const known = new Map<number, TableReading>();
  const reasons = new Map<string, { readonly code: string; readonly text: string }>();
  const problems: QuestionProblem[] = [];
  const readNew = (node: number): TableReading => {
    const at = harness.nodes[node];
    const none = { value: null, unit: "V", low: null, high: null } as const;
    if (!at || forbiddenTexts(harness, [nodeItem(at)]).length > 0) return { kind: "refused", ...none };
    const probe = { kind: "volts", red: at.key, black: how.black } as const;
    const reading = readMeter(harness, { situation: how.situation, probe, compareWith: [] });
    if (reading.kind === "wrong-question") {
      problems.push(...reading.problems);
      return { kind: "refused", ...none };
    }
    const isFigure = reading.kind === "value" || reading.kind === "floating" || reading.kind === "over-range";
    if (!isFigure) for (const { code, text } of reasonsOf(reading)) reasons.set(text, { code, text });
    return readingFacts(reading, "volts");
  };
  return {
    read(node) {
      const before = known.get(node);
      if (before) return before;
      const reading = readNew(node);
      known.set(node, reading);
      return reading;
    },
    reach: (node) => reachOf(scene, node, how.opened),
    reasons: () => [...reasons.values()],
    problems: () => problems,
  };
}

function reachOf({ harness, state }: Scene, node: number, opened: ReadonlySet<string>): TableRow["reach"] {
  const at = harness.nodes[node];
  if (!at || !state) return undefined;
  const isOpen = at.kind === "contact" && opened.has(at.connector.id);
  for (const method of GENTLEST) {
    if (method === OPENS && !isOpen) continue;
    const answer = isContactPermitted(harness, state, { point: at.key, method, meter: "volts" });
    if (answer.kind === "permitted") return { class: answer.class, method };
  }
  return undefined;
}

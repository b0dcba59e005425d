import type { FieldChange, HarnessChange, HarnessComparison } from "../../comparison/index.ts";
import { isKeyOn, nodeAt, sideKey, type Harness } from "../../harness-model/index.ts";
import { nodeItem } from "../../connectivity/index.ts";
import { bandOf, shortReading } from "../expect/meaning.ts";
import { findBlack } from "../expect/place-leads.ts";
import { readConditions } from "../expect/read-conditions.ts";
import { isToldApart } from "../expect/reading-facts.ts";
import { tableReader, type TableReader } from "../expect/table-reader.ts";
import { counted } from "../text/frame.ts";
import { resolveContext } from "../machine-context.ts";
import type { Machine } from "../open-machine.ts";
import type { CompareAnswer } from "./compare-answer.ts";

/** Points that are read in both machines at most, and wires of a machine that is read: a reading needs the whole network solved. */
const MOST_POINTS = 200;
const MOST_WIRES = 5000;

/** A machine with the build and state that were asked for. */
export interface ComparedSide {
  readonly machine: Machine;
  readonly build?: string | undefined;
}

/** A machine whose points can be read. */
interface Readable {
  readonly harness: Harness;
  readonly reader: TableReader;
}

type Readings = Pick<CompareAnswer, "readings" | "notCompared">;

/**
 * Expected readings and permissions to measure that differ, at the points of both machines that are the same, those near changes first.
 *
 * @param sides Both machines.
 * @param comparison How they compare.
 * @param state Id of the state before; the first with the key on if left out.
 */
export function compareReadings(
  sides: readonly [before: ComparedSide, after: ComparedSide],
  comparison: HarnessComparison,
  state: string | undefined,
): Readings {
  const { states } = sides[0].machine.document;
  const chosen = state ?? (states.find(isKeyOn) ?? states[0])?.id;
  const partner = chosen === undefined ? undefined : comparison.partnerOf("state", chosen);
  const none = (why: string): Readings => ({
    readings: { ...(chosen !== undefined && { state: chosen }), compared: 0, differ: [] },
    notCompared: [`Expected readings and test points are not compared: ${why}`],
  });
  if (chosen !== undefined && partner === undefined) return none(`there is no state ${chosen} in both.`);
  const before = readable(sides[0], chosen);
  const after = readable(sides[1], partner);
  if (typeof before === "string") return none(before);
  if (typeof after === "string") return none(after);
  const points = [
    ...movedPoints(before.harness, after.harness, comparison.changes),
    ...samePoints(before.harness, after.harness, comparison),
  ];
  const near = nearChanges(comparison.changes);
  const sorted = [...points.filter(({ at }) => near.has(at)), ...points.filter(({ at }) => !near.has(at))];
  const differ = sorted.slice(0, MOST_POINTS).flatMap((point) => differenceAt(before, after, point));
  const problems = [...before.reader.problems(), ...after.reader.problems()].map(({ text }) => text);
  const left = sorted.length - MOST_POINTS;
  const builds = sides.flatMap(({ machine, build }, at) =>
    build === undefined && machine.document.builds.length > 1 ? [[before, after][at]?.harness.build.id ?? ""] : [],
  );
  const alone =
    Math.max(before.harness.nodes.filter(isRead).length, after.harness.nodes.filter(isRead).length) - points.length;
  return {
    readings: {
      ...(chosen !== undefined && { state: chosen }),
      compared: Math.min(sorted.length, MOST_POINTS),
      differ,
    },
    notCompared: [
      ...new Set(problems),
      ...(left > 0 ? [`${counted(left, "more point")}: not read; those at changed connectors came first.`] : []),
      ...(alone > 0 ? [`${counted(alone, "point")} with a wire in one of the two only: not read.`] : []),
      ...[...new Set(builds)].map((build) => `Readings of other builds than ${build} are not compared.`),
      ...(chosen === undefined ? [] : ["Readings of other states are not compared."]),
    ],
  };
}

/** The machine ready to be read, or why it is not. */
function readable({ machine, build }: ComparedSide, state: string | undefined): Readable | string {
  const { wires, about } = machine.document;
  if (wires.length > MOST_WIRES) return `${about.machine} has more than ${MOST_WIRES} wires.`;
  const context = resolveContext(machine, {
    ...(build !== undefined && { build }),
    ...(state !== undefined && { state }),
  });
  if (!context.ok) return context.error.text;
  const understood = readConditions(context.value, {});
  const black = findBlack(context.value, undefined, "dc-voltage");
  if (!understood.ok || !black.ok) return `${about.machine} has no negative supply terminal to measure against.`;
  const { operatingConditions, opened } = understood.value;
  const reader = tableReader(context.value, { black: black.value.at, operatingConditions, opened });
  return { harness: context.value.harness, reader };
}

interface SamePoint {
  /** Connector, splice or stud it belongs to, by its id after. */
  readonly at: string;
  readonly before: number;
  readonly after: number;
}

/** Points of both that are partners; of a mated contact pair the side that wires come to. */
function samePoints(before: Harness, after: Harness, { partnerOf }: HarnessComparison): readonly SamePoint[] {
  return before.nodes.flatMap((node, number): readonly SamePoint[] => {
    if (node.kind === "splice" || node.kind === "stud") {
      const id = partnerOf(node.kind, node.key);
      const other = id === undefined ? undefined : after.nodeNumbers.get(id);
      return other === undefined ? [] : [{ at: id ?? "", before: number, after: other }];
    }
    if (node.kind !== "contact" || !isRead(node)) return [];
    const id = partnerOf("connector", node.connector.id);
    const sideId = partnerOf("side", `${node.connector.id}.${node.side.id}`);
    const connector = after.fitted.connectors.get(id ?? "");
    const side = connector?.sides.find((each) => `${connector.id}.${each.id}` === sideId);
    const cavity = partnerOf("cavity", `${node.connector.id}:${node.cavity.id}`);
    if (!connector || !side || cavity === undefined) return [];
    const other = after.nodeNumbers.get(`${sideKey(connector, side)}:${cavity.slice(connector.id.length + 1)}`);
    return other === undefined ? [] : [{ at: connector.id, before: number, after: other }];
  });
}

/** Points that are told apart for a person: of the two sides of a part's connector that of the harness. */
function isRead(node: Harness["nodes"][number]): boolean {
  return node.kind === "splice" || node.kind === "stud" || (node.kind === "contact" && node.side.id !== "device");
}

/** Where a wire ended and where it ends now: the same signal is measured there. */
function movedPoints(before: Harness, after: Harness, changes: readonly HarnessChange[]): readonly SamePoint[] {
  const endAt = (harness: Harness, address: FieldChange["before"]): number | undefined =>
    typeof address === "string" ? nodeAt(harness, address) : undefined;
  return changes.flatMap(({ item, fields, connectors: [at = ""] }) => {
    const ends = item === "wire" ? fields.find(({ field }) => field === "ends") : undefined;
    const [one, two] = [endAt(before, ends?.before), endAt(after, ends?.after)];
    return one === undefined || two === undefined ? [] : [{ at, before: one, after: two }];
  });
}

function nearChanges(changes: readonly HarnessChange[]): ReadonlySet<string> {
  return new Set(changes.flatMap(({ connectors, after = "" }) => [...connectors, after]));
}

function differenceAt(before: Readable, after: Readable, point: SamePoint): CompareAnswer["readings"]["differ"] {
  const [node, other] = [before.harness.nodes[point.before], after.harness.nodes[point.after]];
  if (!node || !other) return [];
  const reads = [before.reader.read(point.before), after.reader.read(point.after)] as const;
  const [one, two] = [
    before.reader.judge({ item: nodeItem(node), nodes: [point.before] }),
    after.reader.judge({ item: nodeItem(other), nodes: [point.after] }),
  ];
  const isOther = isToldApart(...reads);
  if (!isOther && one.access === two.access) return [];
  const text = (reading: (typeof reads)[number]): string =>
    [shortReading(reading), bandOf(reading)].filter(Boolean).join(", ");
  return [
    {
      before: node.key,
      after: other.key,
      ...(isOther && { reads: { before: text(reads[0]), after: text(reads[1]) } }),
      ...(one.access !== two.access && { testPoint: { before: one.text, after: two.text } }),
    },
  ];
}

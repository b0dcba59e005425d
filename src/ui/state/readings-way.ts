import { formatQuantity } from "../../base/index.ts";
import type { Item } from "../../connectivity/index.ts";
import type { ProfileItem } from "../../drawing/index.ts";
import {
  type Answer,
  type CircuitAnswer,
  type Conditions,
  type ExpectMeter,
  type Facts,
  type LeadFacts,
  type LeadReach,
  type OpenSetting,
  type PathReading,
  type VoltsOnPath,
} from "../../application/index.ts";
import type { AppState } from "./app.svelte.ts";
import { Asked } from "./asked.svelte.ts";
import { ACCESS_WORDS, faultsOn } from "./readings.ts";
import { methodName, PROBE_CLASSES } from "./words.ts";

type Circuit = CircuitAnswer["circuits"][number];

/** Build and state of the page; undefined before a build is chosen. */
function settingOf({ build, state }: AppState): OpenSetting | undefined {
  return build === undefined ? undefined : { build, ...(state !== undefined && { state }) };
}

/**
 * The readings of a path with the faults that are switched on, and with what else differs from the document; none for a path of nothing.
 * Has to be called while a component is made.
 */
export function askPathReadings(
  app: AppState,
  path: () => readonly Facts[],
  more: () => Conditions = () => ({}),
): Asked<"path-readings"> {
  return new Asked(
    "path-readings",
    () => {
      const [setting, items] = [settingOf(app), path()];
      if (!setting || items.length === 0) return undefined;
      return [{ setting, path: items, conditions: { ...more(), faults: faultsOn(app.faults) } }];
    },
    { doing: "working out the readings of a path" },
  );
}

/** The voltages of a circuit diagram with the faults that are switched on; none unless wanted. Has to be called while a component is made. */
export function askDiagramMarks(app: AppState, of: () => Item, isWanted: () => boolean): Asked<"diagram-marks"> {
  return new Asked(
    "diagram-marks",
    () => {
      const setting = settingOf(app);
      if (!setting || !isWanted()) return undefined;
      return [{ setting, of: of(), options: DIAGRAM_OPTIONS, conditions: { faults: faultsOn(app.faults) } }];
    },
    { doing: "working out the voltages of a diagram" },
  );
}

/** How diagrams are drawn on the screen. */
export const DIAGRAM_OPTIONS = { roleWords: true } as const;

/** A voltage as it is written on the path. */
export function voltText(volt: number): string {
  return formatQuantity(volt, "V");
}

/** What is written at an item of the path: its voltage, or the voltage drop in it. */
export function readingText({ item }: PathReading, read: VoltsOnPath): string {
  if (read.kind === "refused") return "no value here";
  if (read.kind === "floating") return "floating, not 0 V";
  const { inVolt, outVolt, dropVolt } = read;
  if (item.type === "wire" || item.type === "element")
    return dropVolt === null ? "one end floating" : `drop ${voltText(Math.abs(dropVolt))}`;
  if (inVolt === null || outVolt === null) return `${voltText(inVolt ?? outVolt ?? 0)}, other side floating`;
  if (voltText(inVolt) === voltText(outVolt)) return voltText(inVolt);
  return `${voltText(inVolt)} → ${voltText(outVolt)}`;
}

/** The lines of the voltage profile: first the machine as it is asked about, then, with faults, the one without. From the higher end down. */
export function profilePaths(stops: readonly PathReading[]): readonly (readonly ProfileItem[])[] {
  const first = stops.find(({ now }) => now.inVolt !== null)?.now.inVolt ?? 0;
  const last = stops.findLast(({ now }) => now.outVolt !== null)?.now.outVolt ?? 0;
  const isUp = (stops[0]?.normal?.inVolt ?? first) < (stops.at(-1)?.normal?.outVolt ?? last);
  const line = (pick: (stop: PathReading) => VoltsOnPath | undefined): readonly ProfileItem[] =>
    (isUp ? stops.toReversed() : stops).map((stop) => {
      const { inVolt = null, outVolt = null } = pick(stop) ?? {};
      return isUp ? { id: stop.item.id, inVolt: outVolt, outVolt: inVolt } : { id: stop.item.id, inVolt, outVolt };
    });
  const now = line((stop) => stop.now);
  return stops.some((stop) => stop.normal) ? [now, line((stop) => stop.normal)] : [now];
}

/** Whether a lead may go to a point, told beside a suggestion and under a field. */
export interface ReachMark {
  readonly isGood: boolean;
  /** Sign, class and method: `● P1 probe on exposed terminal`. */
  readonly short: string;
  readonly text: string;
  /** The nearest points where it may go, where it may not go here. */
  readonly instead: readonly LeadFacts["ways"][number][];
}

/** Whether a lead may go on each of several points. Has to be called while a component is made. */
export function askReach(
  app: AppState,
  points: () => readonly string[],
  meter: () => ExpectMeter,
): Asked<"lead-reach"> {
  return new Asked(
    "lead-reach",
    () => {
      const [setting, wanted] = [settingOf(app), points()];
      if (!setting || wanted.every((point) => point.trim() === "")) return undefined;
      const conditions = { ...app.draft.conditions, faults: faultsOn(app.faults) };
      return [{ setting, points: wanted, meter: meter(), conditions }];
    },
    { doing: "looking where a lead may go", isQuick: true },
  );
}

/** Marks a point for a lead; undefined for what is no single point. */
export function reachMark(reach: LeadReach | undefined): ReachMark | undefined {
  if (!reach) return undefined;
  const { sign, title } = ACCESS_WORDS[reach.access];
  const [way] = reach.ways;
  if (reach.access !== "permitted" || !way)
    return { isGood: false, short: `${sign} ${title}`, text: reach.text, instead: reach.ways };
  const mark = PROBE_CLASSES.get(way.class)?.mark ?? sign;
  return { isGood: true, short: `${mark} ${way.class} ${methodName(way.method)}`, text: reach.text, instead: [] };
}

/** The path of a circuit from its supply through what it serves down to ground, as far as it has one. */
export function circuitWay(circuit: Circuit | undefined): readonly Facts[] {
  if (!circuit) return [];
  const feed =
    circuit.sides.find(({ role }) => role === "supply") ?? circuit.sides.find(({ role }) => role === "module");
  const back = circuit.sides.find((side) => side !== feed && (side.role === "ground" || side.role === "module"));
  return [...(feed?.ways[0] ?? []).toReversed(), circuit.serves, ...(back?.ways[0] ?? [])];
}

/** The path of an answer along which readings are written; nothing where it has none. */
export function pathOf(answer: Answer | undefined): readonly Facts[] {
  if (answer?.kind === "path") return answer.path;
  return answer?.kind === "circuit" ? circuitWay(answer.circuits[0]) : [];
}

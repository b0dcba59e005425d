import { formatQuantity } from "../../base/index.ts";
import type { ProfileItem } from "../../drawing/index.ts";
import {
  leadReach,
  readingsAlongPath,
  type Answer,
  type Conditions,
  type ExpectMeter,
  type Facts,
  type LeadFacts,
  type OpenSetting,
  type PathReading,
  type PathReadings,
  type CircuitAnswer,
  type VoltsOnPath,
} from "../../application/index.ts";
import type { AppState } from "./app.svelte.ts";
import { ACCESS_WORDS, faultsOn } from "./readings.ts";
import { methodName, PROBE_CLASSES } from "./words.ts";

type Circuit = CircuitAnswer["circuits"][number];

/** Build and state of the page; undefined before a build is chosen. */
function settingOf({ build, state }: AppState): OpenSetting | undefined {
  return build === undefined ? undefined : { build, ...(state !== undefined && { state }) };
}

/**
 * The readings of a path with the faults that are switched on, and with what else differs from the document; undefined while none are
 * wanted.
 */
export function wayReadings(app: AppState, path: readonly Facts[], more: Conditions = {}): PathReadings | undefined {
  const setting = settingOf(app);
  if (!app.machine || !setting || path.length === 0) return undefined;
  return readingsAlongPath(app.machine, setting, { path, conditions: { ...more, faults: faultsOn(app.faults) } });
}

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

/** Marks a point for a lead; undefined for what is no single point. */
export function reachMark(app: AppState, point: string, meter: ExpectMeter): ReachMark | undefined {
  const setting = settingOf(app);
  if (!app.machine || !setting || point.trim() === "") return undefined;
  const conditions = { ...app.draft.conditions, faults: faultsOn(app.faults) };
  const reach = leadReach(app.machine, setting, { point, meter, conditions });
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

/** What is expected along the path of an answer, by the ids of its items; undefined where the answer has no path or no values. */
export function wayTexts(app: AppState, answer: Answer): ReadonlyMap<string, string> | undefined {
  const path =
    answer.kind === "path" ? answer.path : answer.kind === "circuit" ? circuitWay(answer.circuits[0]) : undefined;
  const readings = path && wayReadings(app, path);
  if (readings?.kind !== "readings") return undefined;
  return new Map(readings.stops.map((stop) => [stop.item.id, readingText(stop, stop.now)]));
}

import { readingsAlong, type NodeVolts, type ReadingsAlong, type OperatingConditions } from "../../simulation/index.ts";
import { resolveItem, type Item } from "../../connectivity/index.ts";
import { forbiddenTexts } from "../cautions.ts";
import type { Machine } from "../open-machine.ts";
import type { Conditions, OpenSetting } from "../question.ts";
import { resolveContext, type MachineContext } from "../machine-context.ts";
import type { ExpectedReadingAnswer } from "./expected-answer.ts";
import { readConditions } from "./read-conditions.ts";

/** Voltages at one thing of a way, against the negative supply terminal. No meter is held anywhere. */
export interface VoltsOnPath {
  /** `refused`: an airbag or high-voltage circuit, for which no figure is given. */
  readonly kind: "dc-voltage" | "floating" | "refused";
  /** Volt where the way comes in; null where it has none of its own. */
  readonly inVolt: number | null;
  /** Volt where the way goes out. */
  readonly outVolt: number | null;
  /** Volt from in to out, positive where the voltage falls on the way; null next to what floats. */
  readonly dropVolt: number | null;
}

/** The voltages at one thing of a way; with faults also those of the machine without them. */
export interface PathReading {
  readonly item: Item;
  readonly now: VoltsOnPath;
  readonly normal?: VoltsOnPath;
  /** Only with faults: the two differ by more than a hand meter's last digits. */
  readonly isChanged?: boolean;
}

/** Readings of a way, thing by thing in its order; or why there are none. */
export type PathReadings =
  | {
      readonly kind: "readings";
      readonly faults: ExpectedReadingAnswer["faults"];
      readonly stops: readonly PathReading[];
    }
  | { readonly kind: "no-readings"; readonly text: string };

/** Voltages that differ by less are called the same, in volt: the second decimal of a hand meter. */
const SAME_VOLT = 0.01;

/**
 * The voltages along a way, at each contact, splice and stud, and what is lost in each wire and part of it, healthy or faulty.
 *
 * @param machine The machine.
 * @param setting Build and state the readings shall hold for.
 * @param way The things of the way in order, as a `path` or `circuit` answer lists them, and what differs from the document.
 * @returns One entry a thing, in the same order; or a sentence that says why there is no figure.
 */
export function readingsAlongPath(
  machine: Machine,
  setting: OpenSetting,
  way: { readonly path: readonly Item[]; readonly conditions?: Conditions },
): PathReadings {
  const context = resolveContext(machine, setting);
  if (!context.ok) return none(context.error.text);
  const understood = readConditions(context.value, way.conditions ?? {});
  if (!understood.ok) {
    const { error } = understood;
    return none(error.kind === "wrong-question" ? error.problems.map(({ text }) => text).join(" ") : error.text);
  }
  const { operatingConditions, normal, facts } = understood.value;
  const now = voltsAlong(context.value, way.path, operatingConditions);
  if (!Array.isArray(now)) return none(whyNone(now));
  const whole = normal && voltsAlong(context.value, way.path, normal);
  const stops = way.path.map(({ type, id }, at): PathReading => {
    const read = now[at] ?? FLOATING;
    const before = Array.isArray(whole) ? whole[at] : undefined;
    return {
      item: { type, id },
      now: read,
      ...(before && { normal: before, isChanged: isChanged(read, before) }),
    };
  });
  return { kind: "readings", faults: facts.faults, stops };
}

function none(text: string): PathReadings {
  return { kind: "no-readings", text };
}

type NoReadings = Exclude<ReadingsAlong, { readonly kind: "readings" }>;

function whyNone(why: NoReadings): string {
  if (why.kind === "contradictory")
    return `No values. Ideal sources that contradict each other: ${why.sources.join(", ") || "without resistance"}.`;
  if (why.kind === "no-steady-state")
    return `No values. These switch on and off and never settle: ${why.noOperatingPoint.join(", ")}.`;
  return why.problems.map(({ text }) => text).join(" ");
}

const FLOATING: VoltsOnPath = { kind: "floating", inVolt: null, outVolt: null, dropVolt: null };

function voltsAlong(
  context: MachineContext,
  path: readonly Item[],
  operatingConditions: OperatingConditions,
): VoltsOnPath[] | NoReadings {
  const { harness } = context;
  const ends = pathEnds(path.map((item) => resolveItem(harness, item)?.groups.flat() ?? []));
  const read = readingsAlong(harness, operatingConditions, { nodes: ends.flat() });
  if (read.kind !== "readings") return read;
  const { stops } = read;
  return path.map((item, at): VoltsOnPath => {
    if (forbiddenTexts(harness, [item]).length > 0) return { ...FLOATING, kind: "refused" };
    const [inVolt, outVolt] = [voltOf(stops[2 * at]?.at), voltOf(stops[2 * at + 1]?.at)];
    const isFloating = inVolt === null && outVolt === null;
    const dropVolt = inVolt === null || outVolt === null ? null : inVolt - outVolt;
    return { kind: isFloating ? "floating" : "dc-voltage", inVolt, outVolt, dropVolt };
  });
}

function voltOf(at: NodeVolts | undefined): number | null {
  return at?.kind === "dc-voltage" ? at.volt : null;
}

/** Where a way comes into each of its things and where it goes out: the nodes a thing shares with its neighbours. */
function pathEnds(nodes: readonly (readonly number[])[]): readonly (readonly [number, number])[] {
  return nodes.map((own, at) => {
    const [before, after] = [nodes[at - 1] ?? [], nodes[at + 1] ?? []];
    const first = own.find((node) => before.includes(node));
    const last = own.find((node) => node !== first && after.includes(node)) ?? own.find((node) => after.includes(node));
    const other = (than: number | undefined): number => own.find((node) => node !== than) ?? than ?? -1;
    return [first ?? other(last), last ?? other(first)];
  });
}

function isChanged(one: VoltsOnPath, other: VoltsOnPath): boolean {
  if (one.kind !== other.kind) return true;
  const pairs = [
    [one.inVolt, other.inVolt],
    [one.outVolt, other.outVolt],
    [one.dropVolt, other.dropVolt],
  ] as const;
  return pairs.some(([a, b]) => (a === null || b === null ? a !== b : Math.abs(a - b) >= SAME_VOLT));
}

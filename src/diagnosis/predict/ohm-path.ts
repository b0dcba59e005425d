import { keptFor, keptIn } from "../../base/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import {
  applyFaults,
  settle,
  voltsOfUnitCurrent,
  type OperatingPoint,
  type Part,
  type PartList,
} from "../../simulation/index.ts";
import type { TestSetup } from "../checks/check.ts";
import { normalMachine } from "./normal-circuit.ts";

/** Where the healthy way has so many times less, a reading may as well go through what hides in control units: the way is open. */
const OPEN_FACTOR = 30;
const OPEN_OHM = { least: 1000, most: 10_000 } as const;

/**
 * Ohms above which a reading counts as an open line. Common practice, no source.
 *
 * @param normalOhm What the healthy machine shows; Infinity for a line that must stand alone.
 */
export function openLineOhm(normalOhm: number): number {
  return Math.min(OPEN_OHM.most, Math.max(OPEN_OHM.least, OPEN_FACTOR * normalOhm));
}

function isModule(harness: Harness, id: string): boolean {
  const component = harness.fitted.components.get(id);
  return component?.kind === "module" || component?.needs !== undefined;
}

function componentOf(owner: string): string {
  return owner.split(".")[0] ?? owner;
}

/** The parts of a machine without what hides in control units and active sensors, as an ohmmeter is answered for. */
export function withoutHidden(list: PartList): PartList {
  return { ...list, parts: list.parts.map((part) => (isHiding(part) ? { ...part, asleepOhm: Infinity } : part)) };
}

/** Whether a part is no resistor to an ohmmeter, whatever current it draws when it has volts. */
function isHiding({ asleepOhm }: Part): boolean {
  return asleepOhm !== Infinity;
}

/** Through what the current of an ohmmeter goes between two points of the healthy machine. */
export type OhmPath =
  /** Conductors and at most two known parts. */
  | "known"
  /** A control unit or an active sensor carries a share of it: the reading says nothing. */
  | "electronics"
  /** So many parts beside each other that the reading is the sum of the machine. */
  | "many-parts"
  /** No current flows: a line that must stand alone. */
  | "none";

/** Share of the current above which a part counts as being in the way. */
const IN_THE_WAY = 0.02;
const MOST_PARTS_IN_THE_WAY = 2;

const rested = keptFor((_: Harness) => new Map<string, OperatingPoint | undefined>());

/** Through what an ohmmeter's current goes between two points, in a state without volts with some connectors unplugged. */
export function ohmPath(harness: Harness, setup: TestSetup, ends: readonly [string, string]): OhmPath {
  const at = keptIn(rested(harness), `${setup.state}|${setup.unplugged.join()}`, () => atRest(harness, setup));
  if (!at) return "electronics";
  const { list, solved } = at;
  const [red = -1, black = -1] = ends.map((name) => numberOf(list).get(name) ?? -1);
  if (red < 0 || black < 0) return "electronics";
  if (red === black || solved.islands[red] !== solved.islands[black]) return red === black ? "known" : "none";
  const volts = voltsOfUnitCurrent(solved, red, black);
  const inTheWay = list.parts.filter((part, each) => {
    const ohm = at.values.ohm[each] ?? Infinity;
    if (part.group === "wire" || part.group === "joint" || !(ohm > 0) || ohm === Infinity) return false;
    const [from, to] = [list.shape.from[each] ?? 0, list.shape.to[each] ?? 0];
    return Math.abs((volts[from] ?? 0) - (volts[to] ?? 0)) / ohm > IN_THE_WAY;
  });
  if (inTheWay.some((part) => isHiding(part) || isModule(harness, componentOf(part.owner)))) return "electronics";
  const components = new Set(inTheWay.map(({ owner }) => componentOf(owner)));
  return components.size > MOST_PARTS_IN_THE_WAY ? "many-parts" : "known";
}

function atRest(harness: Harness, { state, unplugged }: TestSetup): OperatingPoint | undefined {
  const normal = normalMachine(harness, state);
  if (!normal) return undefined;
  const opened = applyFaults(
    harness,
    normal.list,
    unplugged.map((of) => ({ kind: "unplugged", of })),
  );
  const settled = opened.ok ? settle(opened.value) : undefined;
  return settled?.kind === "settled" ? settled : undefined;
}

const numberOf = keptFor((list: PartList) => new Map(list.nodeKeys.map((key, number) => [key, number])));

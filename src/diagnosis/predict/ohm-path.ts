import { keptFor, keptIn } from "../../base/index.ts";
import type { Component, Element, Harness } from "../../harness-model/index.ts";
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

/**
 * Ohm that an unpowered control unit or active sensor is taken for where its share of the current is asked: some tens of kilohm. Common
 * practice, no source. No reading is foretold with it.
 */
const HIDDEN_OHM = 22_000;
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

/** What holds the electronics of a component: to an ohmmeter it is no resistor, whatever current it draws when it has volts. */
function isHidden({ kind, elements, needs }: Component, element: Element): boolean {
  if (element.kind === "divider" || element.kind === "driver") return true;
  const isActive =
    kind === "module" ||
    needs !== undefined ||
    elements.some((each) => each.kind === "driver" || (each.kind === "source" && each.role === "regulator"));
  return isActive && (element.kind === "load" || element.kind === "source");
}

const hiddenElements = keptFor((harness: Harness): ReadonlySet<string> => {
  const keys = harness.edges.flatMap((edge) =>
    edge.kind === "element" && isHidden(edge.component, edge.element)
      ? [`${edge.component.id}.${edge.element.id}`]
      : [],
  );
  return new Set(keys);
});

function isModule(harness: Harness, id: string): boolean {
  const component = harness.fitted.components.get(id);
  return component?.kind === "module" || component?.needs !== undefined;
}

function componentOf(owner: string): string {
  return owner.split(".")[0] ?? owner;
}

/** The parts of a machine without what hides in control units and active sensors, as an ohmmeter is answered for. */
export function withoutHidden(harness: Harness, list: PartList): PartList {
  const hidden = hiddenElements(harness);
  return { ...list, parts: list.parts.map((part) => (hidden.has(part.owner) ? { ...part, present: false } : part)) };
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
  const used = new Set<string>();
  let hasElectronics = false;
  list.parts.forEach(({ group, owner }, each) => {
    const ohm = at.values.ohm[each] ?? Infinity;
    if (group === "wire" || group === "joint" || !(ohm > 0) || ohm === Infinity) return;
    const [from, to] = [list.shape.from[each] ?? 0, list.shape.to[each] ?? 0];
    const share = Math.abs((volts[from] ?? 0) - (volts[to] ?? 0)) / ohm;
    if (share <= IN_THE_WAY) return;
    used.add(componentOf(owner));
    hasElectronics ||= hiddenElements(harness).has(owner) || isModule(harness, componentOf(owner));
  });
  if (hasElectronics) return "electronics";
  return used.size > MOST_PARTS_IN_THE_WAY ? "many-parts" : "known";
}

function atRest(harness: Harness, { state, unplugged }: TestSetup): OperatingPoint | undefined {
  const normal = normalMachine(harness, state);
  if (!normal) return undefined;
  const hidden = hiddenElements(harness);
  const shown = (part: Part): Part => {
    if (hidden.has(part.owner)) return { ...part, present: true, ohm: HIDDEN_OHM, volt: 0, ...FREE };
    return part.group === "bias" ? { ...part, volt: 0, ...FREE } : part;
  };
  const list = { ...normal.list, parts: normal.list.parts.map(shown) };
  const opened = applyFaults(
    harness,
    list,
    unplugged.map((of) => ({ kind: "unplugged", of })),
  );
  const settled = opened.ok ? settle(opened.value) : undefined;
  return settled?.kind === "settled" ? settled : undefined;
}

/** Follows nothing. */
const FREE = { control: undefined, module: undefined } as const;

const numberOf = keptFor((list: PartList) => new Map(list.nodeKeys.map((key, number) => [key, number])));

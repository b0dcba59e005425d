import type { Harness } from "../../harness-model/index.ts";
import { applyFaults } from "../faults/apply-faults.ts";
import type { Fault } from "../faults/fault.ts";
import { findPoint, findTarget } from "../faults/find-target.ts";
import { liveSources } from "../meters/read-meter.ts";
import { ohmsBetween } from "../meters/ohms-between.ts";
import { HAND_METER, type MeterSpec } from "../meters/reading.ts";
import { connectorOf } from "../network/part-draft.ts";
import type { PartList, OperatingConditions } from "../network/part.ts";
import { reduceList } from "../network/reduce-list.ts";
import { settle, type OperatingPoint } from "../network/settle.ts";
import { solveCircuit } from "../network/solve-circuit.ts";
import { resistanceBetween } from "../solver/solve-network.ts";

/** A pair of points in a table. */
export interface TablePair {
  readonly kind: "dc-voltage" | "resistance";
  readonly red: string;
  readonly black: string;
}

/** Readings of many faults at many points in many states. */
interface TableQuestion {
  /** What is the same in all of them: build settings, quantities, unplugged connectors. Its state and faults are not looked at. */
  readonly operatingConditions: OperatingConditions;
  readonly states: readonly string[];
  /** Each entry is a set of faults at once; an empty one is the healthy machine. */
  readonly faultSets: readonly (readonly Fault[])[];
  readonly pairs: readonly TablePair[];
  readonly meter?: MeterSpec;
  /** Above so many parts everything outside the circuit is reduced first; 3000 when left out. */
  readonly reduceAbove?: number;
}

/** What stands in a cell of the table. */
export const TABLE_KINDS = [
  "value",
  "floating",
  "overload",
  "refused",
  "contradictory",
  "no-steady-state",
  "wrong-question",
] as const;

/** The table: for state s, fault set f and pair p the cell is `(s * faultSets + f) * pairs + p`. */
export interface ReadingTable {
  /** Volt or ohm; 0 where the kind is not `value`. */
  readonly values: Float64Array;
  /** Position in `TABLE_KINDS`. */
  readonly kinds: Uint8Array;
}

const KIND = { value: 0, floating: 1, overRange: 2, refused: 3, contradictory: 4, unsteady: 5, wrong: 6 };
const REDUCE_ABOVE = 3000;

/**
 * Fills a table of readings with one solution for each state and fault set, the meter on volts worked out from the resistance behind each
 * pair. No bands; a meter that would itself open or close a diode is not looked at (`readMeter` does). In a machine above `reduceAbove`
 * parts, relays and modules that have nothing to do with the circuit stay as in the healthy machine.
 *
 * @param question States, fault sets, pairs.
 */
export function readingTable(harness: Harness, question: TableQuestion): ReadingTable {
  const { states, faultSets, pairs } = question;
  const cells = states.length * faultSets.length * pairs.length;
  const table = { values: new Float64Array(cells), kinds: new Uint8Array(cells).fill(KIND.wrong) };
  states.forEach((state, s) => {
    const { faults: _, ...rest } = question.operatingConditions;
    const normal = solveCircuit(harness, { ...rest, state });
    const start = s * faultSets.length * pairs.length;
    if (normal.kind === "wrong-question") return;
    if (normal.kind !== "settled") {
      const kind = normal.kind === "contradictory" ? KIND.contradictory : KIND.unsteady;
      table.kinds.fill(kind, start, start + faultSets.length * pairs.length);
      return;
    }
    const list = circuitOf(harness, normal, question);
    faultSets.forEach((faults, f) => fillRow(table, start + f * pairs.length, { harness, list, faults, question }));
  });
  return table;
}

function circuitOf(harness: Harness, normal: OperatingPoint, question: TableQuestion): PartList {
  const { list } = normal;
  if (list.parts.length <= (question.reduceAbove ?? REDUCE_ABOVE)) return list;
  const points = question.pairs.flatMap(({ red, black }) => [
    findPoint(harness, list, red) ?? list.reference,
    findPoint(harness, list, black) ?? list.reference,
  ]);
  const touched = question.faultSets.flat().flatMap((fault) => nodesOfFault(harness, list, fault));
  return reduceList(normal, [...points, ...touched]);
}

interface Row {
  readonly harness: Harness;
  readonly list: PartList;
  readonly faults: readonly Fault[];
  readonly question: TableQuestion;
}

function fillRow(table: ReadingTable, start: number, { harness, list, faults, question }: Row): void {
  const { pairs, meter = HAND_METER } = question;
  const faulty = applyFaults(harness, list, faults);
  if (!faulty.ok) return;
  const operatingPoint = settle(faulty.value);
  if (operatingPoint.kind !== "settled") {
    const kind = operatingPoint.kind === "contradictory" ? KIND.contradictory : KIND.unsteady;
    table.kinds.fill(kind, start, start + pairs.length);
    return;
  }
  const scratch = new Float64Array(operatingPoint.solved.planned.clusters.count);
  pairs.forEach((pair, p) => {
    const red = findPoint(harness, list, pair.red);
    const black = findPoint(harness, list, pair.black);
    if (red === undefined || black === undefined) return;
    const cell = readCell({ operatingPoint, pair, red, black, scratch, meter });
    table.kinds[start + p] = cell.kind;
    table.values[start + p] = cell.value;
  });
}

interface Cell {
  readonly operatingPoint: OperatingPoint;
  readonly pair: TablePair;
  readonly red: number;
  readonly black: number;
  readonly scratch: Float64Array;
  readonly meter: MeterSpec;
}

function readCell({ operatingPoint, pair, red, black, scratch, meter }: Cell): {
  readonly kind: number;
  readonly value: number;
} {
  const { islands, volts, planned, factor } = operatingPoint.solved;
  if (pair.kind === "resistance" && liveSources(operatingPoint, red, black).length > 0)
    return { kind: KIND.refused, value: 0 };
  if (islands[red] !== islands[black])
    return { kind: pair.kind === "dc-voltage" ? KIND.floating : KIND.overRange, value: 0 };
  if (pair.kind === "dc-voltage") {
    const { ofNode } = planned.clusters;
    const ohm = resistanceBetween(factor, [ofNode[red] ?? 0, ofNode[black] ?? 0], scratch);
    const open = (volts[red] ?? 0) - (volts[black] ?? 0);
    return { kind: KIND.value, value: (open * meter.inputOhm) / (meter.inputOhm + ohm) };
  }
  const between = ohmsBetween(operatingPoint, [red, black], meter);
  if (between.kind !== "known") return { kind: between.kind === "hidden" ? KIND.refused : KIND.overRange, value: 0 };
  const highest = meter.ohms.ranges.at(-1)?.[0] ?? Infinity;
  return between.ohm > highest ? { kind: KIND.overRange, value: 0 } : { kind: KIND.value, value: between.ohm };
}

/** The nodes a fault touches, so that they can be kept when the rest of the machine is reduced. */
function nodesOfFault(harness: Harness, list: PartList, fault: Fault): readonly number[] {
  return namesOf(harness, fault).flatMap((name) => {
    const ofParts = (findTarget(harness, list, name) ?? []).flatMap((at) => [
      list.shape.from[at] ?? 0,
      list.shape.to[at] ?? 0,
    ]);
    return [...ofParts, ...wiresAt(harness, list, fault, name)];
  });
}

function namesOf(harness: Harness, fault: Fault): readonly string[] {
  switch (fault.kind) {
    case "bridge":
      return fault.between;
    case "cross-wired":
      return fault.cavities;
    case "short":
      return [fault.of, fault.to];
    case "unplugged": {
      const connector = harness.fitted.connectors.get(connectorOf(harness, fault.of) ?? "");
      return connector?.cavities.map((cavity) => `${connector.id}:${cavity.id}`) ?? [];
    }
    case "open":
    case "high-resistance":
    case "blown":
    case "stuck-open":
    case "stuck-closed":
    case "stuck-on":
    case "stuck-off":
    case "drift":
    case "loose-terminal":
      return [fault.of];
  }
}

/** The node of a point; where wires change places also the far ends of those wires. */
function wiresAt(harness: Harness, list: PartList, fault: Fault, name: string): readonly number[] {
  const node = findPoint(harness, list, name);
  if (node === undefined) return [];
  if (fault.kind !== "cross-wired") return [node];
  return list.parts.flatMap((part, at) => {
    const ends = [list.shape.from[at] ?? 0, list.shape.to[at] ?? 0];
    return part.group === "wire" && ends.includes(node) ? ends : [];
  });
}

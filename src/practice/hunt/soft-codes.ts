import { readMeter, solveCircuit, type Fault, type Settled, type Situation } from "../../electrics/index.ts";
import type { Code, Harness } from "../../model/index.ts";
import { waysThrough } from "../../trace/index.ts";
import type { FaultyMachine } from "./faulty-machine.ts";

/** A signal or a supply of a sensor below this share of its healthy swing or voltage counts as lost. Common practice, no source. */
const LOST_SHARE = 0.6;
/** A resistance between two points that is off by more than this share is noticed. Common practice, no source. */
const CHANGED_SHARE = 0.25;
/** Ohms along a line of the bus above which, and across the bus below which, no message arrives. Common practice, no source. */
const LINE_OHM = 50;
const ACROSS_OHM = 20;
/** Share of the nominal voltage, and of the ratio of two signals, by which an implausible value is off. */
const OFF_SHARE = 0.2;

/** No pulses: the sensor has lost its supply, cannot pull its line, or its winding or wires are open, shorted or swapped. */
export function isSignalLost(machine: FaultyMachine, code: Code): boolean {
  const { harness, faults, live } = machine;
  const outputs = outputsOn(harness, code);
  if (outputs.length === 0) return isWayChanged(machine, code);
  const first = live[0];
  const point = code.points[0];
  if (!first || point === undefined) return false;
  return outputs.some(({ component, element }) => {
    const swing = (list: readonly Fault[]): number => {
      const read = (is: "on" | "off"): number =>
        voltsAt(
          harness,
          { state: first.state.id, faults: list, settings: [{ of: `${component}.${element}`, is }] },
          point,
        );
      return Math.abs(read("off") - read("on"));
    };
    return swing(faults) < LOST_SHARE * swing([]) || isStarved(machine, component);
  });
}

/** The resistance between the points of a code is not what it should be; a bus with a terminator too few or too many. */
export function isWayChanged({ harness, faults }: FaultyMachine, code: Code): boolean {
  const off = harness.document.states.find(({ conditions }) => conditions.includes("isolated"));
  const [red, black] = code.points;
  if (!off || red === undefined || black === undefined) return false;
  const [healthy, now] = [[], faults].map((list) => ohms(harness, { state: off.id, faults: list }, [red, black]));
  if (healthy === undefined || now === undefined) return false;
  return healthy === Infinity ? now !== Infinity : Math.abs(now - healthy) > CHANGED_SHARE * healthy;
}

/** No messages: another control unit on the bus is dead, a line to it is open, or the lines touch. */
export function isMessageLost({ harness, faults, dead }: FaultyMachine, code: Code): boolean {
  const off = harness.document.states.find(({ conditions }) => conditions.includes("isolated"));
  if (!off) return false;
  const situation = { state: off.id, faults };
  const [first, second] = code.points;
  if (first !== undefined && second !== undefined && (ohms(harness, situation, [first, second]) ?? 0) < ACROSS_OHM)
    return true;
  return code.points.some((point) =>
    pinsOnNet(harness, point, code.module).some(
      ({ module, key }) => dead.has(module) || (ohms(harness, situation, [point, key]) ?? Infinity) > LINE_OHM,
    ),
  );
}

/** Signals that do not fit each other, or a voltage far from where it should be. */
export function isImplausible({ harness, live }: FaultyMachine, code: Code): boolean {
  const { nominalVolt } = harness.document.system;
  const points = code.points.flatMap((point) => nodeOf(harness, point) ?? []);
  return live.some(({ healthy, now }) => {
    const before = points.map((node) => volts(healthy, node));
    const after = points.map((node) => volts(now, node));
    if (before.every((volt) => Math.abs(volt) < nominalVolt / 2) && points.length > 1) {
      const [a = 0, b = 0] = before;
      const [c = 0, d = 0] = after;
      return Math.abs(a * d - b * c) > OFF_SHARE * Math.max(Math.abs(a * d), Math.abs(b * c), 0.01);
    }
    return before.some((volt, at) => Math.abs((after[at] ?? 0) - volt) > OFF_SHARE * nominalVolt);
  });
}

/** Open-collector outputs of sensors on the nets of a code. */
function outputsOn(harness: Harness, code: Code): readonly { readonly component: string; readonly element: string }[] {
  const { ofNode } = waysThrough(harness, "conductors").components;
  const nets = new Set(code.points.flatMap((point) => ofNode[nodeOf(harness, point) ?? -1] ?? []));
  return harness.edges.flatMap((edge, number) => {
    if (edge.kind !== "element" || edge.element.kind !== "driver" || edge.component.kind === "module") return [];
    const isOnNet = nets.has(ofNode[harness.index.from[number] ?? -1] ?? -1);
    return isOnNet ? [{ component: edge.component.id, element: edge.element.id }] : [];
  });
}

/** Whether what feeds the inside of a sensor is missing. */
function isStarved({ harness, live }: FaultyMachine, component: string): boolean {
  const first = live[0];
  if (!first) return false;
  return harness.edges.some((edge, number) => {
    if (edge.kind !== "element" || edge.component.id !== component || edge.element.kind !== "load") return false;
    const across = (settled: Settled): number =>
      Math.abs(volts(settled, harness.index.from[number] ?? 0) - volts(settled, harness.index.to[number] ?? 0));
    return across(first.now) < LOST_SHARE * across(first.healthy);
  });
}

/** Pins of other control units that the healthy net of a point reaches. */
function pinsOnNet(
  harness: Harness,
  point: string,
  own: string | undefined,
): readonly { module: string; key: string }[] {
  const { ofNode } = waysThrough(harness, "conductors").components;
  const net = ofNode[nodeOf(harness, point) ?? -1];
  return harness.nodes.flatMap((node, number) => {
    const module = node.kind === "contact" && node.half.id === "device" ? node.connector.component : undefined;
    if (module === undefined || module === own || ofNode[number] !== net) return [];
    return harness.fitted.components.get(module)?.kind === "module" ? [{ module, key: node.key }] : [];
  });
}

function nodeOf(harness: Harness, address: string): number | undefined {
  const colon = address.lastIndexOf(":");
  const inside = `${address.slice(0, colon)}.device${address.slice(colon)}`;
  return harness.nodeNumbers.get(inside) ?? harness.nodeNumbers.get(address);
}

function volts({ solved, list }: Settled, node: number): number {
  if (solved.islands[node] !== solved.islands[list.reference]) return 0;
  return (solved.volts[node] ?? 0) - (solved.volts[list.reference] ?? 0);
}

function voltsAt(harness: Harness, situation: Situation, point: string): number {
  const settled = solveCircuit(harness, situation);
  const node = nodeOf(harness, point);
  return settled.kind === "settled" && node !== undefined ? volts(settled, node) : 0;
}

/** Ohms between two points; Infinity where nothing joins them, undefined where there is no reading. */
function ohms(harness: Harness, situation: Situation, [red, black]: readonly [string, string]): number | undefined {
  const probe = { kind: "ohms" as const, red, black };
  const reading = readMeter(harness, { situation, probe, compareWith: [] });
  if (reading.kind === "over-range") return Infinity;
  return reading.kind === "value" ? reading.value : undefined;
}

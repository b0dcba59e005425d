import { keptFor } from "../../base/index.ts";
import { complaintEvidence, normalMachine } from "../../diagnosis/index.ts";
import {
  readMeter,
  solveCircuit,
  type Fault,
  type OperatingPoint,
  type OperatingConditions,
} from "../../simulation/index.ts";
import {
  isKeyOn,
  mainTerminals,
  makeFitting,
  type Code,
  type Harness,
  type HarnessEdge,
  type State,
} from "../../harness-model/index.ts";
import { waysThrough } from "../../connectivity/index.ts";

/** A function that a driver finds wrong: nothing works, works weakly, works when it should not, or a switch that is not noticed. */
export interface FunctionSign {
  readonly component: string;
  readonly what: "dead" | "weak" | "on" | "unseen";
  /** The first state in which it shows. */
  readonly state: string;
}

/** What shows of a fault without any tool but a code reader. */
export interface Signs {
  readonly codes: readonly string[];
  readonly functions: readonly FunctionSign[];
  /** Control units that are dead; their codes cannot be read. */
  readonly deadModules: readonly string[];
}

/** Below this share of its healthy voltage a consumer does nothing, below the other it is weak. Common practice, no source. */
const DEAD_SHARE = 0.5;
const WEAK_SHARE = 0.88;
/** A share of the nominal voltage that counts as on. */
const ON_SHARE = 0.3;

/**
 * Works out from the solver what a driver and a code reader find: codes as the prediction of the diagnosis has them, functions by the
 * voltage across each consumer in each state, control units without supply.
 *
 * @param faults What is wrong; an unplugged connector counts as a fault here.
 * @returns The signs; undefined where the machine has no steady state with these faults.
 */
export function findSigns(harness: Harness, faults: readonly Fault[]): Signs | undefined {
  if (faults.length === 0) return { codes: [], functions: [], deadModules: [] };
  const functions = new Map<string, FunctionSign>();
  const dead = new Set<string>();
  const live: FaultyMachine["live"][number][] = [];
  for (const state of liveStates(harness)) {
    const normal = normalMachine(harness, state.id);
    const now = solveCircuit(harness, { state: state.id, faults });
    if (now.kind !== "settled") return undefined;
    if (!normal) continue;
    live.push({ state, normal, now });
    for (const id of now.modes.units.keys()) {
      if (normal.modes.units.has(id)) continue;
      dead.add(id);
      functions.set(id, functions.get(id) ?? { component: id, what: "dead", state: state.id });
    }
    for (const watched of findObservedVoltages(harness)) {
      const what = judge(harness, watched, { normal, now });
      const known = functions.get(watched.component);
      if (what && (!known || (known.what === "weak" && what === "dead")))
        functions.set(watched.component, { component: watched.component, what, state: state.id });
    }
  }
  return {
    codes: codesSet({ harness, faults, dead, live }),
    functions: [...functions.values()],
    deadModules: [...dead],
  };
}

/** Whether nothing at all shows. */
export function isSilent({ codes, functions }: Signs): boolean {
  return codes.length === 0 && functions.length === 0;
}

/** States in which functions are tried: those with the key on. */
export function liveStates({ document }: Harness): readonly State[] {
  return document.states.filter(isKeyOn);
}

function judge(
  harness: Harness,
  { kind, from, to }: ObservedVoltage,
  { normal, now }: { readonly normal: OperatingPoint; readonly now: OperatingPoint },
): FunctionSign["what"] | undefined {
  const before = Math.abs(voltAcross(normal, from, to));
  const after = Math.abs(voltAcross(now, from, to));
  const on = ON_SHARE * harness.document.system.nominalVolt;
  if (kind === "input") return Math.abs(after - before) > on ? "unseen" : undefined;
  if (before < on) return after > DEAD_SHARE * harness.document.system.nominalVolt ? "on" : undefined;
  if (after < DEAD_SHARE * before) return "dead";
  return after < WEAK_SHARE * before ? "weak" : undefined;
}

/** Volts across two nodes; none where one of them hangs on nothing. */
function voltAcross({ solved }: OperatingPoint, from: number, to: number): number {
  if (solved.islands[from] !== solved.islands[to]) return 0;
  return (solved.volts[from] ?? 0) - (solved.volts[to] ?? 0);
}

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
function isSignalLost(machine: FaultyMachine, code: Code): boolean {
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
function isWayChanged({ harness, faults }: FaultyMachine, code: Code): boolean {
  const off = harness.document.states.find(({ conditions }) => conditions.includes("battery-disconnected"));
  const [red, black] = code.points;
  if (!off || red === undefined || black === undefined) return false;
  const [normal, now] = [[], faults].map((list) => ohms(harness, { state: off.id, faults: list }, [red, black]));
  if (normal === undefined || now === undefined) return false;
  return normal === Infinity ? now !== Infinity : Math.abs(now - normal) > CHANGED_SHARE * normal;
}

/** No messages: another control unit on the bus is dead, a line to it is open, or the lines touch. */
function isMessageLost({ harness, faults, dead }: FaultyMachine, code: Code): boolean {
  const off = harness.document.states.find(({ conditions }) => conditions.includes("battery-disconnected"));
  if (!off) return false;
  const operatingConditions = { state: off.id, faults };
  const [first, second] = code.points;
  if (
    first !== undefined &&
    second !== undefined &&
    (ohms(harness, operatingConditions, [first, second]) ?? 0) < ACROSS_OHM
  )
    return true;
  return code.points.some((point) =>
    pinsOnNet(harness, point, code.module).some(
      ({ module, key }) =>
        dead.has(module) || (ohms(harness, operatingConditions, [point, key]) ?? Infinity) > LINE_OHM,
    ),
  );
}

/** Signals that do not fit each other, or a voltage far from where it should be. */
function isImplausible({ harness, live }: FaultyMachine, code: Code): boolean {
  const { nominalVolt } = harness.document.system;
  const points = code.points.flatMap((point) => nodeOf(harness, point) ?? []);
  return live.some(({ normal, now }) => {
    const before = points.map((node) => volts(normal, node));
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
    const across = (operatingPoint: OperatingPoint): number =>
      Math.abs(
        volts(operatingPoint, harness.index.from[number] ?? 0) - volts(operatingPoint, harness.index.to[number] ?? 0),
      );
    return across(first.now) < LOST_SHARE * across(first.normal);
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
    const module = node.kind === "contact" && node.side.id === "device" ? node.connector.component : undefined;
    if (module === undefined || module === own || ofNode[number] !== net) return [];
    return harness.fitted.components.get(module)?.kind === "module" ? [{ module, key: node.key }] : [];
  });
}

function nodeOf(harness: Harness, address: string): number | undefined {
  const colon = address.lastIndexOf(":");
  const inside = `${address.slice(0, colon)}.device${address.slice(colon)}`;
  return harness.nodeNumbers.get(inside) ?? harness.nodeNumbers.get(address);
}

function volts({ solved, list }: OperatingPoint, node: number): number {
  if (solved.islands[node] !== solved.islands[list.reference]) return 0;
  return (solved.volts[node] ?? 0) - (solved.volts[list.reference] ?? 0);
}

function voltsAt(harness: Harness, operatingConditions: OperatingConditions, point: string): number {
  const operatingPoint = solveCircuit(harness, operatingConditions);
  const node = nodeOf(harness, point);
  return operatingPoint.kind === "settled" && node !== undefined ? volts(operatingPoint, node) : 0;
}

/** Ohms between two points; Infinity where nothing joins them, undefined where there is no reading. */
function ohms(
  harness: Harness,
  operatingConditions: OperatingConditions,
  [red, black]: readonly [string, string],
): number | undefined {
  const probe = { kind: "resistance" as const, red, black };
  const reading = readMeter(harness, { operatingConditions, probe, compareWith: [] });
  if (reading.kind === "overload") return Infinity;
  return reading.kind === "value" ? reading.value : undefined;
}

/** Two nodes whose voltage shows whether a part does its work: across a consumer, or at the input a switch is read by. */
interface ObservedVoltage {
  readonly component: string;
  readonly kind: "consumer" | "input";
  readonly from: number;
  readonly to: number;
}

/** A consumer with this share or less of what its part draws most is no function of its own, such as a sensor cell beside a coil. */
const LEAST_SHARE = 0.05;

/** Everything whose work a driver notices: loads, lamps, coils of valves and the like, and switches that a control unit reads. */
export const findObservedVoltages = keptFor((harness: Harness): readonly ObservedVoltage[] => [
  ...consumers(harness),
  ...inputs(harness),
]);

function consumers(harness: Harness): readonly ObservedVoltage[] {
  const found = harness.edges.flatMap((edge, number) => {
    const siemens = conductance(edge);
    if (edge.kind !== "element" || siemens <= 0) return [];
    const isCoil = edge.element.kind === "coil";
    return [{ component: edge.component.id, number, siemens, isCoil }];
  });
  const most = new Map<string, number>();
  for (const { component, siemens } of found) most.set(component, Math.max(most.get(component) ?? 0, siemens));
  return found
    .filter(({ component, siemens, isCoil }) => isCoil || siemens > LEAST_SHARE * (most.get(component) ?? 0))
    .map(({ component, number }) => ({
      component,
      kind: "consumer",
      from: harness.index.from[number] ?? 0,
      to: harness.index.to[number] ?? 0,
    }));
}

function conductance(edge: HarnessEdge): number {
  if (edge.kind !== "element") return 0;
  const { component, element } = edge;
  if (["module", "sensor", "relay", "distribution", "terminator", "alternator"].includes(component.kind)) return 0;
  if (element.kind === "load" || element.kind === "coil") return 1 / Math.max(element.resistanceOhm, 1e-6);
  return element.kind === "lamp" ? element.powerWatt / element.voltageVolt ** 2 : 0;
}

/** Module pins with a pull resistor that hang on one net with a switch. */
function inputs(harness: Harness): readonly ObservedVoltage[] {
  const { ofNode } = waysThrough(harness, "conductors").components;
  const { negative } = mainTerminals(harness);
  if (negative === undefined) return [];
  const pins = new Map<number, number>();
  harness.edges.forEach((edge, number) => {
    if (edge.kind !== "element" || edge.element.kind !== "bias" || edge.component.kind !== "module") return;
    for (const end of [harness.index.from[number] ?? -1, harness.index.to[number] ?? -1])
      if (harness.nodes[end]?.kind === "contact") pins.set(ofNode[end] ?? -1, end);
  });
  return harness.edges.flatMap((edge, number): ObservedVoltage[] => {
    if (edge.kind !== "element" || edge.element.kind !== "switch") return [];
    const ends = [harness.index.from[number] ?? -1, harness.index.to[number] ?? -1];
    const pin = ends.map((end) => pins.get(ofNode[end] ?? -1)).find((each) => each !== undefined);
    return pin === undefined ? [] : [{ component: edge.component.id, kind: "input", from: pin, to: negative }];
  });
}

/**
 * The codes that control units set with these faults. Codes that a voltage or an open or shorted line sets are told as the diagnosis
 * predicts them; codes for missing or implausible signals by rules of their own, because there the static model stands for pulses and
 * messages. Codes of dead control units are left out: nobody can read them.
 */
function codesSet(machine: FaultyMachine): readonly string[] {
  const { harness, faults, dead } = machine;
  const isFitted = makeFitting(harness.build);
  const codes = harness.document.codes.filter(
    (code) => isFitted(code.when) && (code.module === undefined || !dead.has(code.module)),
  );
  const hard = codes.filter(isHard);
  const all = { codes: new Map(hard.map(({ id }) => [id, "active" as const])), symptoms: new Map<string, "bad">() };
  const evidence = new Map(
    complaintEvidence(harness, all, [[], faults]).map((each) => [each.key, each.likelihoods[0]]),
  );
  return codes
    .filter((code) => (isHard(code) ? (evidence.get(`code ${code.id}`) ?? 0) > 0.5 : isSoftSet(machine, code)))
    .map((code) => code.id);
}

function isHard({ failure }: Code): boolean {
  return failure === "voltage-high" || failure === "voltage-low" || failure === "open" || failure === "short";
}

function isSoftSet(machine: FaultyMachine, code: Code): boolean {
  const { failure } = code;
  if (failure === "no-signal")
    return isOnBus(machine.harness, code) ? isMessageLost(machine, code) : isSignalLost(machine, code);
  if (failure === "erratic") return isWayChanged(machine, code);
  return failure === "implausible" && isImplausible(machine, code);
}

/** Whether the points of a code are lines of a data bus. */
function isOnBus(harness: Harness, { points }: Code): boolean {
  const [first = ""] = points;
  const colon = first.lastIndexOf(":");
  return harness.edges.some((edge) => {
    if (edge.kind !== "wire" || harness.nets.get(edge.wire.net ?? "")?.kind !== "data-bus") return false;
    return edge.wire.ends.some(
      (end) => end === first || end === `${first.slice(0, colon)}.harness${first.slice(colon)}`,
    );
  });
}

/** The machine with some faults, as far as codes look at it. */
interface FaultyMachine {
  readonly harness: Harness;
  readonly faults: readonly Fault[];
  /** Control units without supply. */
  readonly dead: ReadonlySet<string>;
  /** The states with the key on, healthy and with the faults. */
  readonly live: readonly { readonly state: State; readonly normal: OperatingPoint; readonly now: OperatingPoint }[];
}

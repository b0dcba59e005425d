import { formatQuantity, keptFor, keptIn, unreachable } from "../../base/index.ts";
import type { Component, Harness } from "../../harness-model/index.ts";
import { findPoint, unknownTarget } from "../faults/find-target.ts";
import { branchAmpere, drivenAmpere, islandName } from "../network/node-volts.ts";
import { controlledParts, type PartList, type OperatingConditions } from "../network/part.ts";
import { findInconsistent, voltAcross } from "../network/modes.ts";
import { reasonOf, settle, withTestLoad, withTestLoadSolved, type OperatingPoint } from "../network/settle.ts";
import { solveCircuit } from "../network/solve-circuit.ts";
import { ohmBetween, type SolvedNetwork } from "../solver/solve-network.ts";
import { FILAMENT, LEAST_ASLEEP_OHM } from "../tables/typical-parts.ts";
import { makeBand, ohmSpread, voltSpread, type ToleranceRange } from "./band.ts";
import { ohmsBetween } from "./ohms-between.ts";
import {
  HAND_METER,
  meterLimit,
  type Because,
  type Leads,
  type MeterSpec,
  type PlainReading,
  type Probe,
  type Reading,
} from "./reading.ts";

/** What is measured, in which situation, with what. */
interface MeterQuestion {
  readonly operatingConditions: OperatingConditions;
  readonly probe: Probe;
  /** The meter; a usual hand meter when left out. */
  readonly meter?: MeterSpec;
  /** States to compare with, by id; all of the machine when left out, none with an empty list. */
  readonly compareWith?: readonly string[];
}

/**
 * What a meter shows at these points in this situation.
 *
 * @param question Situation, probe, meter.
 * @returns A value with its band and the reasons for both; or that the point is floating, the reading over range, the measurement refused,
 *   the machine without a steady state, its sources contradictory, or the question wrong. Never a made-up number.
 */
export function readMeter(harness: Harness, question: MeterQuestion): Reading {
  const { operatingConditions } = question;
  const reading = readOnce(harness, question, true);
  const states = question.compareWith ?? harness.document.states.map((state) => state.id);
  if (!("because" in reading)) return { ...reading, holdsIn: [] };
  const holdsIn = states.filter((state) => {
    if (state === operatingConditions.state) return true;
    const other = keptIn(siblings(operatingConditions), state, () => ({ ...operatingConditions, state }));
    return isSame(reading, readOnce(harness, { ...question, operatingConditions: other }, false));
  });
  return { ...reading, holdsIn };
}

// The same situation in another state, kept so that what is worked out for it is found again.
const siblings = keptFor((_: OperatingConditions) => new Map<string, OperatingConditions>());

function isSame(reading: PlainReading, other: PlainReading): boolean {
  if (reading.kind === "value")
    return other.kind === "value" && other.value >= reading.low && other.value <= reading.high;
  if (reading.kind === "floating") return other.kind === "floating" && other.island === reading.island;
  return reading.kind === other.kind;
}

function readOnce(
  harness: Harness,
  { operatingConditions, probe, meter = HAND_METER }: MeterQuestion,
  isBandWanted: boolean,
): PlainReading {
  const operatingPoint = solveCircuit(harness, operatingConditions);
  if (operatingPoint.kind !== "settled") return operatingPoint;
  const reading = readSettled({ harness, operatingPoint, meter, isBandWanted }, probe);
  const blown = operatingPoint.list.assumptions.filter(({ code }) => code === "blown");
  if (blown.length === 0 || !("because" in reading)) return reading;
  return { ...reading, because: [...blown.map(({ text }): Because => ({ code: "blown", text })), ...reading.because] };
}

function readSettled(context: MeasurementContext, probe: Probe): PlainReading {
  const { harness, operatingPoint } = context;
  if (probe.kind === "dc-current") return readAmps(context, probe);
  const [red, black] = [probe.red, probe.black].map((name) => findPoint(harness, operatingPoint.list, name));
  if (red === undefined || black === undefined) {
    const lost = [...(red === undefined ? [probe.red] : []), ...(black === undefined ? [probe.black] : [])];
    return { kind: "wrong-question", problems: lost.map((name) => unknownTarget(harness, name, "point")) };
  }
  const pair = { red, black };
  switch (probe.kind) {
    case "dc-voltage":
    case "voltage-drop":
      return readVolts(context, probe, pair);
    case "resistance":
      return readOhms(context, probe, pair);
    case "loaded":
      return readLoaded(context, probe, pair);
    case "duty-cycle":
      return readDuty(context, pair);
    default:
      return unreachable(probe);
  }
}

/** From this resistance on what is behind a point shows on a meter, in ohm. */
const WEAK_OHM = 100e3;
/** A way that carries less than this is without load, in ampere. */
const LEAST_LOAD_AMPERE = 0.001;

/** What a voltmeter shows between two points. */
function readVolts(
  context: MeasurementContext,
  probe: Extract<Probe, { kind: "dc-voltage" | "voltage-drop" }>,
  { red, black }: PointPair,
): PlainReading {
  const { meter } = context;
  const held = holdMeter(context, red, black);
  if (held.kind !== "settled") return held;
  const { operatingPoint, solved } = held;
  if (operatingPoint.solved.islands[red] !== operatingPoint.solved.islands[black])
    return floating(operatingPoint, red, black);
  const ohm = ohmBetween(operatingPoint.solved, red, black);
  const scale = meter.inputOhm / (meter.inputOhm + ohm);
  const value = withoutRounding(scale * voltAcross(operatingPoint.solved, red, black));
  const limit = meterLimit(meter.volts, value);
  if (!limit) return { kind: "overload", unit: "V", because: [] };
  if (!context.isBandWanted) return { kind: "value", value, unit: "V", low: value, high: value, because: [] };
  // What a part does to the reading goes by what flows with the meter in place.
  const spread = voltSpread({ ...operatingPoint, solved }, red, black);
  const band = makeBand({ operatingPoint, unit: "V", value, spread, meter: { name: meter.name, ...limit }, scale });
  const because = [...band.because];
  if (ohm >= WEAK_OHM) {
    const text = `The source resistance of this point is ${formatQuantity(ohm, "Ω")} or more. Another meter or a damp connector shows another voltage`;
    because.push({ code: "weak-source", text });
  }
  if (probe.kind === "voltage-drop") because.push(loadOf(operatingPoint, spread, ohm));
  return { kind: "value", value, unit: "V", low: band.low, high: band.high, because };
}

/** Less than any meter could show, and made by rounding. */
function withoutRounding(volt: number): number {
  return Math.abs(volt) < 1e-12 ? 0 : volt;
}

interface SolvedWithTestLoad {
  readonly kind: "settled";
  /** As it stands with the meter in place, solved without it. */
  readonly operatingPoint: OperatingPoint;
  /** Solved with it. */
  readonly solved: SolvedNetwork;
}

/** The meter itself may decide whether a diode conducts; where it does, the machine is settled again with the meter in place. */
function holdMeter(
  { operatingPoint, meter }: MeasurementContext,
  red: number,
  black: number,
): SolvedWithTestLoad | Exclude<ReturnType<typeof settle>, OperatingPoint> {
  const testLoad = { red, black, ohm: meter.inputOhm };
  const { list, modes, values } = operatingPoint;
  const held = withTestLoadSolved(operatingPoint.solved, testLoad);
  const { solved } = held;
  const hasDiode = controlledParts(list).some((at) => list.parts[at]?.control?.kind === "diode");
  if (!hasDiode || red === black || findInconsistent(list, modes, { values, ...held }).length === 0)
    return { kind: "settled", operatingPoint, solved };
  const again = settle(list, { modes, testLoad });
  return again.kind === "settled"
    ? { kind: "settled", operatingPoint: again, solved: withTestLoadSolved(again.solved, testLoad).solved }
    : reasonOf(again);
}

function floating(operatingPoint: OperatingPoint, red: number, black: number): PlainReading {
  const { list, solved } = operatingPoint;
  const isRedHome = solved.islands[red] === solved.islands[list.reference];
  const lost = isRedHome ? black : red;
  const island = islandName(operatingPoint, lost);
  const text = `Nothing holds ${list.nodeKeys[lost] ?? ""}. The reading is unstable near 0 V. It is not 0 V`;
  return { kind: "floating", island, because: [{ code: "floating", text }] };
}

/** The current in what stands in series between the leads, by which a drop means something. */
function loadOf(operatingPoint: OperatingPoint, spread: ToleranceRange, ohm: number): Because {
  const { list, values } = operatingPoint;
  let ampere = 0;
  for (const { at } of spread.parts) {
    const [from, to] = [list.shape.from[at] ?? 0, list.shape.to[at] ?? 0];
    const resistance = values.ohm[at] ?? Infinity;
    const share = Math.abs((spread.unitVolts[from] ?? 0) - (spread.unitVolts[to] ?? 0)) / resistance;
    if (share < 0.5) continue;
    ampere = Math.max(ampere, Math.abs(drivenAmpere(operatingPoint, at)));
  }
  if (ampere >= LEAST_LOAD_AMPERE)
    return {
      code: "current",
      text: `${formatQuantity(ampere, "A")} flow through ${formatQuantity(ohm, "Ω")} between the leads`,
    };
  return {
    code: "no-load",
    text: "No current flows here. A voltage drop of 0 V is inconclusive. Switch the load on and measure again",
  };
}

/** The usual lamp for a loaded test, in watt at the nominal voltage. */
const USUAL_LAMP_WATT = 21;
/**
 * What a voltmeter shows across a test lamp that is held between two points. The lamp is taken at its rated, hot resistance; a dim
 * lamp has less, so the band goes down to what a cold one gives.
 */
function readLoaded(
  context: MeasurementContext,
  probe: Extract<Probe, { kind: "loaded" }>,
  { red, black }: PointPair,
): PlainReading {
  const { harness, operatingPoint, meter } = context;
  const watt = probe.lampWatt ?? USUAL_LAMP_WATT;
  const ratedVolt = harness.document.system.nominalVolt;
  const hotOhm = ratedVolt ** 2 / watt;
  const hot = settle(withTestLoad(operatingPoint.list, [red, black], hotOhm));
  if (hot.kind !== "settled") return reasonOf(hot);
  const value = voltAcross(hot.solved, red, black);
  if (!context.isBandWanted) return { kind: "value", value, unit: "V", low: value, high: value, because: [] };
  const cold = settle(withTestLoad(operatingPoint.list, [red, black], FILAMENT.coldShare * hotOhm));
  if (cold.kind !== "settled") return reasonOf(cold);
  const limit = meterLimit(meter.volts, value);
  if (!limit) return { kind: "overload", unit: "V", because: [] };
  const spread = voltSpread(hot, red, black);
  const band = makeBand({
    operatingPoint: hot,
    unit: "V",
    value,
    spread,
    meter: { name: meter.name, ...limit },
    scale: 1,
  });
  const coldValue = voltAcross(cold.solved, red, black);
  const because: Because[] = [
    { code: "current", text: `The test lamp draws ${formatQuantity(Math.abs(value) / hotOhm, "A")}` },
    {
      code: "lamp",
      text: `${watt} W test lamp, assumed hot with ${formatQuantity(hotOhm, "Ω")}. A dim lamp has less, and the reading goes down to ${formatQuantity(coldValue, "V")}`,
    },
    ...band.because,
  ];
  const low = Math.min(band.low, coldValue - limit.limit);
  const high = Math.max(band.high, coldValue + limit.limit);
  return { kind: "value", value, unit: "V", low, high, because };
}

/** Less than this between points, in volt, is none. */
const NO_VOLT = 1e-6;
/** A source whose voltage all stands at its terminals gives no current. */
const NO_SHARE = 1e-9;

/**
 * The sources that make an ohm reading between two points void: those that drive current anywhere in the part of the machine the points
 * belong to, and if a point has voltage any source there. An isolated battery whose negative is on the frame is none.
 *
 * @returns Numbers of the parts; empty where the points are dead.
 */
export function liveSources(operatingPoint: OperatingPoint, red: number, black: number): readonly number[] {
  const { list, solved, values } = operatingPoint;
  const islands = new Set([solved.islands[red], solved.islands[black]]);
  const hasVolt =
    Math.abs(voltAcross(solved, red, black)) > NO_VOLT ||
    [red, black].some((node) => Math.abs(voltAcross(solved, node, list.reference)) > NO_VOLT);
  return list.parts.flatMap((part, at) => {
    const from = list.shape.from[at] ?? 0;
    const volt = values.volt[at] ?? 0;
    if (volt === 0 || values.ohm[at] === Infinity || part.control?.kind === "diode") return [];
    if (!islands.has(solved.islands[from])) return [];
    const driving = volt - voltAcross(solved, list.shape.to[at] ?? 0, from);
    return hasVolt || Math.abs(driving) > NO_SHARE * Math.abs(volt) ? [at] : [];
  });
}

/** The component that a part of the network is in. */
function componentOf(harness: Harness, { list }: OperatingPoint, at: number): Component | undefined {
  const owner = list.parts[at]?.owner ?? "";
  return harness.fitted.components.get(owner.slice(0, owner.indexOf(".")));
}

/** What to take off so that sources are out of the way, in words: a control unit is unplugged, a battery isolated. */
function whatToDisconnect(
  harness: Harness,
  operatingPoint: OperatingPoint,
  sources: readonly number[],
): readonly string[] {
  const owners = new Map<string, string>();
  for (const at of sources) {
    const component = componentOf(harness, operatingPoint, at);
    if (!component) continue;
    const { id } = component;
    const plugs = [...harness.fitted.connectors.values()]
      .filter((each) => each.component === id)
      .map((each) => each.id);
    const how =
      plugs.length > 0
        ? `disconnect ${plugs.join(" and ")}`
        : component.kind === "battery"
          ? "open the isolator or disconnect the negative cable"
          : "switch it off";
    owners.set(id, `${id} (${component.label}): ${how}`);
  }
  return [...owners.values()];
}

/**
 * Below this, in ohm, a resistance reading is no evidence that a way carries its load.
 *
 * Source: leads of 0.2 to 0.5 ohm and counts of 0.1 ohm in instrument manuals.
 */
export const OHMS_NO_EVIDENCE = 0.5;

/** Leads where nothing is said: 0.3 ohm, taken off the reading beforehand. Typical, instrument manuals name 0.1 to 0.5 ohm. */
const USUAL_LEADS: Leads = { ohm: 0.3, subtracted: true };
/** How much of the resistance of leads stays uncertain, as a share: their contact differs each time. Common practice, no source. */
const LEAD_SHARE = 0.3;

/** What an ohmmeter shows between two points; refused on anything that is not dead. */
function readOhms(
  context: MeasurementContext,
  probe: Extract<Probe, { kind: "resistance" }>,
  { red, black }: PointPair,
): PlainReading {
  const { harness, operatingPoint, meter } = context;
  const live = liveSources(operatingPoint, red, black);
  if (live.length > 0) {
    const text =
      "Do not measure resistance on a live circuit. The reading has no meaning and the meter can be damaged. Disconnect the supply first";
    const disconnect = whatToDisconnect(harness, operatingPoint, live);
    return { kind: "refused", disconnect, because: [{ code: "live", text }] };
  }
  const seen = ohmsBetween(operatingPoint, [red, black], meter);
  if (seen.kind === "apart") return { kind: "overload", unit: "Ω", because: [] };
  if (seen.kind === "hidden") {
    const owners = [...new Set(seen.parts.map((at) => componentOf(harness, operatingPoint, at)?.id ?? ""))];
    const text = `The path goes through electronics that sleep (${owners.filter((id) => id !== "").join(", ")}). What they hide is not known: ${formatQuantity(LEAST_ASLEEP_OHM, "Ω")} or more. The reading has no meaning. Disconnect them first`;
    const disconnect = whatToDisconnect(harness, operatingPoint, seen.parts);
    return { kind: "refused", disconnect, because: [{ code: "hidden", text }] };
  }
  const leads = probe.leads ?? USUAL_LEADS;
  const value = seen.ohm + (leads.subtracted ? 0 : leads.ohm);
  const limit = meterLimit(meter.ohms, value);
  if (!limit) {
    const text = `${formatQuantity(seen.ohm, "Ω")} between the points, more than the highest range`;
    return { kind: "overload", unit: "Ω", because: [{ code: "meter", text }] };
  }
  if (!context.isBandWanted) return { kind: "value", value, unit: "Ω", low: value, high: value, because: [] };
  const spread = ohmSpread(operatingPoint, red, black);
  const leadLimit = LEAD_SHARE * leads.ohm;
  const known = { name: meter.name, limit: Math.hypot(limit.limit, leadLimit), count: limit.count };
  const band = makeBand({ operatingPoint, unit: "Ω", value, spread, meter: known, scale: 1 });
  const because: Because[] = [...band.because, leadsText(leads)];
  if (seen.ohm < OHMS_NO_EVIDENCE) {
    const text = `Below ${OHMS_NO_EVIDENCE} Ω a meter cannot show whether a path is good or bad. Switch the load on and measure the voltage drop from ${probe.red} to ${probe.black}`;
    because.push({ code: "ohms-no-evidence", text });
  }
  if (passesDiode(operatingPoint, spread, seen.ohm)) {
    const text = "There is a diode in the path. Assumed: it blocks. With the leads exchanged the meter can show less";
    because.push({ code: "polarity", text });
  }
  const low = Math.max(0, band.low - seen.hiddenOhm);
  return { kind: "value", value, unit: "Ω", low, high: band.high, because };
}

function leadsText(leads: Leads): Because {
  const text = leads.subtracted
    ? `Lead resistance of ${formatQuantity(leads.ohm, "Ω")} is nulled. Hold the probes together and null the meter first`
    : `Lead resistance of ${formatQuantity(leads.ohm, "Ω")} is in the reading`;
  return { code: "leads", text };
}

/** Whether a blocking diode has a good part of the meter's own voltage across it. */
function passesDiode({ list }: OperatingPoint, { unitVolts }: ToleranceRange, ohm: number): boolean {
  return list.parts.some((part, at) => {
    if (part.control?.kind !== "diode") return false;
    const across = (unitVolts[list.shape.from[at] ?? 0] ?? 0) - (unitVolts[list.shape.to[at] ?? 0] ?? 0);
    return Math.abs(across) > 0.05 * ohm;
  });
}

/** A meter counts pulses from about this height on, in volt. Common practice, no source. */
const LEAST_PULSE_VOLT = 1;

/** Share of the time the red point is high against the black one, in percent; refused where no pulsed driver moves it. */
function readDuty(context: MeasurementContext, { red, black }: PointPair): PlainReading {
  const { operatingPoint, meter } = context;
  const { list } = operatingPoint;
  for (const [at, part] of list.parts.entries()) {
    if (part.control?.kind !== "duty" || operatingPoint.values.ohm[at] === Infinity) continue;
    const [on, off] = [true, false].map((present) => {
      const fixed = settle(withPart(list, at, present));
      return fixed.kind === "settled" ? voltAcross(fixed.solved, red, black) : undefined;
    });
    if (on === undefined || off === undefined || Math.abs(on - off) < LEAST_PULSE_VOLT) continue;
    const { share } = part.control;
    const value = 100 * (on > off ? share : 1 - share);
    const { limit } = meterLimit(meter.duty, value) ?? { limit: 1 };
    const text = `${part.owner} has a duty cycle of ${Math.round(100 * share)} % and pulls the point ${on > off ? "up" : "down"}`;
    const because = [{ code: "average", text } as const];
    return {
      kind: "value",
      value,
      unit: "%",
      low: Math.max(0, value - limit),
      high: Math.min(100, value + limit),
      because,
    };
  }
  const text = "No driver pulses this point in this state. A duty cycle has no meaning here";
  return { kind: "refused", disconnect: [], because: [{ code: "no-figure", text }] };
}

function withPart(list: PartList, at: number, present: boolean): PartList {
  return {
    ...list,
    parts: list.parts.map((part, number) => (number === at ? { ...part, present, control: undefined } : part)),
  };
}

/** What a clamp around a wire shows, positive from the first end of the wire to its second. */
function readAmps(context: MeasurementContext, probe: Extract<Probe, { kind: "dc-current" }>): PlainReading {
  const { harness, operatingPoint, meter } = context;
  const { list, values } = operatingPoint;
  const at = list.parts.findIndex((part) => part.key === probe.wire && part.group === "wire");
  if (at < 0) return { kind: "wrong-question", problems: [unknownTarget(harness, probe.wire, "wire")] };
  const value = branchAmpere(operatingPoint, at);
  if (value === undefined) {
    const text = `${probe.wire} has no conductor size or length in the data. Its current cannot be calculated`;
    return { kind: "refused", disconnect: [], because: [{ code: "no-figure", text }] };
  }
  const limit = meterLimit(meter.clampAmps, value);
  if (!limit) return { kind: "overload", unit: "A", because: [] };
  if (!context.isBandWanted) return { kind: "value", value, unit: "A", low: value, high: value, because: [] };
  const ohm = values.ohm[at] ?? Infinity;
  const known = { name: meter.name, ...limit };
  if (ohm === Infinity || ohm === 0) {
    const because = [{ code: "meter", text: `Meter (${meter.name})` } as const];
    return { kind: "value", value, unit: "A", low: value - limit.limit, high: value + limit.limit, because };
  }
  const whole = voltSpread(operatingPoint, list.shape.from[at] ?? 0, list.shape.to[at] ?? 0);
  // More resistance in the wire itself raises the voltage along it and yet lowers its current.
  const parts = whole.parts.map((part) => {
    if (part.at !== at) return part;
    const perWhole = part.perWhole - value * ohm;
    return { ...part, perWhole, byOhm: perWhole * (list.parts[at]?.tolerance ?? 0) };
  });
  const spread = { ...whole, parts };
  const band = makeBand({ operatingPoint, unit: "A", value, spread, meter: known, scale: 1 / ohm });
  return { kind: "value", value, unit: "A", ...band };
}

/** A settled circuit with the meter that is held to it. */
interface MeasurementContext {
  readonly harness: Harness;
  readonly operatingPoint: OperatingPoint;
  readonly meter: MeterSpec;
  /** False where only the value is looked at, as when states are compared: no band and no reasons are worked out. */
  readonly isBandWanted: boolean;
}

/** The nodes of both leads. */
interface PointPair {
  readonly red: number;
  readonly black: number;
}

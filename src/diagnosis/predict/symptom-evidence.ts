import type { Fault } from "../../simulation/index.ts";
import { isKeyOn, makeFitting, type Code, type Harness, type State } from "../../harness-model/index.ts";
import type { CodeStatus, JobFacts } from "../../job-records/index.ts";
import { circuitsOf, mainTerminals, resolve, type Circuit } from "../../connectivity/index.ts";
import type { Evidence } from "../belief/evidence.ts";
import { FLOATING, fromScale, OVER_RANGE, UNKNOWN } from "../belief/meter-scale.ts";
import type { Scope } from "../candidates/find-scope.ts";
import { statesToMeasure } from "./normal-circuit.ts";
import { localPoints, pointsOfFaults, type LocalPoints } from "./local-circuit.ts";
import { makeReadingStore, type ReadingStore } from "./reading-store.ts";

/** How well codes and functions tell. Common practice, no source. */
const TRUST = {
  /** A code that the fault should set is set; one that it should not set is set all the same. */
  set: 0.95,
  setWithoutCause: 0.02,
  /** The same where the code is judged by an effect the static model cannot follow, such as missing pulses. */
  softSet: 0.7,
  softWithoutCause: 0.06,
  /** How surely a code is set and noticed if the fault should set it, when nobody said that it is absent. */
  notMentioned: 0.7,
  bad: 0.93,
  badWithoutCause: 0.03,
} as const;

/**
 * Turns codes and functions into evidence: for each, how likely it is under each set of faults. Codes of a module that gave other codes
 * count as absent, weakly.
 *
 * @param faultSets Sets of faults; the first is the healthy machine and gets no likelihood of its own.
 * @param scope The part of the machine that the faults lie in; the rest is reduced then, which is quicker.
 * @returns One piece of evidence each, none where nothing on the circuit can be read; likelihoods in the order of the sets after the first,
 *   and one more for "something else".
 */
export function complaintEvidence(
  harness: Harness,
  facts: Pick<JobFacts, "codes" | "symptoms">,
  faultSets: readonly (readonly Fault[])[],
  scope?: Scope,
): readonly Evidence[] {
  const isFitted = makeFitting(harness.build);
  const codes = harness.document.codes.filter((code) => isFitted(code.when));
  const reporting = new Set(codes.filter(({ id }) => isPresent(facts.codes.get(id))).map(({ module }) => module));
  const watched = codes.filter(
    (code) => facts.codes.has(code.id) || (reporting.has(code.module) && isHard(code) && isCheap(code)),
  );
  // Where no supply, ground or consumer is known nothing can be predicted, and a code or function parts nothing.
  const probesOfCode = new Map(
    watched
      .map((code) => [code, codeProbes(harness, code, !facts.codes.has(code.id))] as const)
      .filter(([, own]) => own.length > 0),
  );
  const items = [...facts.symptoms]
    .map(([name, is]) => ({ name, is, probes: functionProbes(harness, circuitsServed(harness, name)) }))
    .filter((item) => item.probes.length > 0);
  const probes = [...probesOfCode.values(), ...items.map((item) => item.probes)].flat();
  const measured = [...pointsOfFaults(harness, faultSets), ...probes.flatMap(({ red, black }) => [red, black])];
  const points = scope && localPoints(harness, scope, { points: measured, connectors: [] });
  const read = makeReader(harness, { probes, faultSets, ...(points ? { points } : {}) });
  const fromCodes = [...probesOfCode].map(([code, own]): Evidence => {
    const shown = shownShares(harness, code, { probes: own, read });
    const status = facts.codes.get(code.id);
    return toEvidence(`code ${code.id}`, likelihoodOfCode(shown, status), isPresent(status));
  });
  const fromThings = items.map(({ name, is, probes: own }): Evidence => {
    const shown = functionShares(own, read);
    return toEvidence(`function ${name}`, is === "bad" ? shown : shown.map((share) => 1 - share), is === "bad");
  });
  return [...fromCodes, ...fromThings];
}

/** For each code and each thing a share for every fault set: near 1 where it sets the code or disturbs the function, near 0 where not. */
interface SignShares {
  readonly codes: ReadonlyMap<Code, Float64Array>;
  readonly items: ReadonlyMap<string, Float64Array>;
}

/** Codes and things that are asked about. */
interface AskedSigns {
  readonly codes: readonly Code[];
  /** Names of parts or circuits whose function may be disturbed. */
  readonly items: readonly string[];
}

/**
 * Whether fault sets set codes and disturb functions.
 *
 * @param faultSets Sets of faults; the first is the healthy machine.
 * @returns One share for each set after the first.
 */
export function signShares(
  harness: Harness,
  { codes, items }: AskedSigns,
  faultSets: readonly (readonly Fault[])[],
): SignShares {
  const ofCode = new Map(codes.map((code) => [code, codeProbes(harness, code)]));
  const ofItem = new Map(items.map((name) => [name, functionProbes(harness, circuitsServed(harness, name))]));
  const probes = [...ofCode.values(), ...ofItem.values()].flat();
  const read = makeReader(harness, { probes, faultSets });
  return {
    codes: new Map([...ofCode].map(([code, own]) => [code, shownShares(harness, code, { probes: own, read })])),
    items: new Map([...ofItem].map(([name, own]) => [name, functionShares(own, read)])),
  };
}

function functionShares(probes: readonly ComplaintProbe[], read: Reader): Float64Array {
  return effectShares(probes, read, [TRUST.bad, TRUST.badWithoutCause]);
}

function isPresent(status: CodeStatus | undefined): boolean {
  return status === "active" || status === "previously-active";
}

function isHard({ failure }: Code): boolean {
  return failure === "voltage-high" || failure === "voltage-low" || failure === "open" || failure === "short";
}

/** Of codes that nobody mentioned only those are looked at that show with the key on. */
function isCheap({ failure, points }: Code): boolean {
  return failure !== "short" && points.length === 1;
}

function likelihoodOfCode(shown: Float64Array, status: CodeStatus | undefined): Float64Array {
  switch (status) {
    case "active":
      return shown;
    case "previously-active":
      // It was set once, perhaps by something else.
      return shown.map((share) => 0.3 + 0.7 * share);
    case "not-present":
      return shown.map((share) => 1 - share);
    case undefined:
      return shown.map((share) => 1 - TRUST.notMentioned * share);
  }
}

function toEvidence(key: string, likelihoods: Float64Array, isBad: boolean): Evidence {
  // "Something else" may show in any way, but like every fault it leaves most things alone.
  const even = isBad ? 0.3 : 0.9;
  return { key, likelihoods: Float64Array.of(...likelihoods, even), even };
}

/** Readings of a probe under every set, the healthy one first. */
interface Reader {
  readonly row: (probe: ComplaintProbe) => Float64Array;
  /** Number of sets after the healthy one: each gets a share, also where there is no probe. */
  readonly setCount: number;
}

interface ReaderQuestion {
  readonly probes: readonly ComplaintProbe[];
  readonly faultSets: readonly (readonly Fault[])[];
  readonly points?: LocalPoints;
}

function makeReader(harness: Harness, { probes, faultSets, points }: ReaderQuestion): Reader {
  const sets = faultSets.map((_, index) => index);
  const stores = new Map<
    string,
    { readonly rows: ReadonlyMap<ComplaintProbe, number>; readonly store: ReadingStore }
  >();
  for (const state of new Set(probes.map((probe) => probe.state))) {
    const pairs = probes.filter((probe) => probe.state === state);
    const question = { setup: { state, unplugged: [] }, pairs, faultSets, ...(points ? { points } : {}) };
    const rows = new Map(pairs.map((pair, index) => [pair, index]));
    stores.set(state, { rows, store: makeReadingStore(harness, question) });
  }
  const row = (probe: ComplaintProbe): Float64Array => {
    const of = stores.get(probe.state);
    return of ? of.store.row(of.rows.get(probe) ?? -1, sets) : new Float64Array(sets.length).fill(UNKNOWN);
  };
  return { row, setCount: Math.max(0, sets.length - 1) };
}

function codeProbes(harness: Harness, code: Code, isBrief = false): readonly ComplaintProbe[] {
  const { off, on, live } = usefulStates(harness);
  const ground = groundOf(harness);
  const points = pointsOfCode(harness, code);
  if (ground === undefined) return [];
  const volts = (states: readonly { readonly id: string }[]): readonly ComplaintProbe[] =>
    states.flatMap(({ id }) =>
      points.map((red): ComplaintProbe => ({ state: id, kind: "dc-voltage", red, black: ground })),
    );
  const ohms = (pairs: readonly (readonly [string, string])[]): readonly ComplaintProbe[] =>
    off ? pairs.map(([red, black]): ComplaintProbe => ({ state: off.id, kind: "resistance", red, black })) : [];
  const [first = ""] = points;
  const between = points.slice(1).map((point): readonly [string, string] => [first, point]);
  switch (code.failure) {
    case "voltage-high":
    case "voltage-low":
      return volts(on ? [on] : live.slice(0, 1));
    case "open":
      return points.length > 1 ? ohms(between) : volts(isBrief && on ? [on] : live);
    case "short":
      return [...ohms(points.map((point) => [point, ground])), ...volts(points.length > 1 ? [] : live)];
    case "erratic":
    case "implausible":
    case "no-signal":
    case "other": {
      const circuits = circuitsServed(harness, code.id);
      return [...functionProbes(harness, circuits.slice(0, 6)), ...ohms(between)];
    }
  }
}

interface Shown {
  readonly probes: readonly ComplaintProbe[];
  readonly read: Reader;
}

function shownShares(harness: Harness, code: Code, { probes, read }: Shown): Float64Array {
  if (!isHard(code)) return effectShares(probes, read, [TRUST.softSet, TRUST.softWithoutCause]);
  const rows = probes.map((probe) => ({ probe, row: read.row(probe) }));
  const nominal = harness.document.system.nominalVolt;
  return Float64Array.from({ length: read.setCount }, (_, index) => {
    const isSet = rows.some(({ probe, row }) => {
      const [normal, now] = [row[0] ?? UNKNOWN, row[index + 1] ?? UNKNOWN];
      return now !== UNKNOWN && judge(harness, code, { probe, normal, now, nominal });
    });
    return isSet ? TRUST.set : TRUST.setWithoutCause;
  });
}

interface Judged {
  readonly probe: ComplaintProbe;
  readonly normal: number;
  readonly now: number;
  readonly nominal: number;
}

/** Limits of signals on a 5 V pin: above 95 % and below 6 % of the supply no healthy sensor of this kind reads. */
const HIGH_VOLT = 4.75;
const LOW_VOLT = 0.3;
/** Ohms to ground below which a line counts as shorted, and above which a loop counts as open. */
const SHORT_OHM = 20;
const OPEN_OHM = 100;

function judge(harness: Harness, code: Code, { probe, normal, now, nominal }: Judged): boolean {
  const volt = now === FLOATING ? 0 : fromScale(now, "V");
  const normalVolt = normal === FLOATING ? 0 : fromScale(normal, "V");
  if (probe.kind === "resistance") {
    const [ohm, normalOhm] = [fromScale(now, "Ω"), fromScale(normal, "Ω")];
    return code.failure === "short"
      ? ohm < SHORT_OHM && normalOhm > 3 * SHORT_OHM
      : now === OVER_RANGE || ohm > Math.max(OPEN_OHM, 3 * normalOhm);
  }
  if (code.failure === "voltage-high") return volt >= (normalVolt > 5.3 ? 1.2 * normalVolt : HIGH_VOLT);
  if (code.failure === "voltage-low") {
    return volt < (isSupplyPin(harness, probe.red) ? 0.92 * normalVolt : Math.min(LOW_VOLT, 0.6 * normalVolt));
  }
  if (code.failure === "open") {
    return (now === FLOATING && normal !== FLOATING) || (normalVolt > 0.5 * nominal && volt < 0.3 * normalVolt);
  }
  return volt > normalVolt + 0.3 * nominal;
}

/** A pin that a source inside the module feeds. */
function isSupplyPin(harness: Harness, point: string): boolean {
  const number = harness.nodeNumbers.get(point);
  return harness.edges.some(
    (edge, index) => edge.kind === "element" && edge.element.kind === "source" && harness.index.from[index] === number,
  );
}

/** A change that a person or a module notices: an eighth of a voltage, a third of a resistance. */
const NOTICED_VOLT = 0.12;
const NOTICED_OHM = 0.35;

function effectShares(
  probes: readonly ComplaintProbe[],
  read: Reader,
  [high, low]: readonly [number, number],
): Float64Array {
  const rows = probes.map((probe) => ({ probe, row: read.row(probe) }));
  return Float64Array.from({ length: read.setCount }, (_, index) =>
    rows.some(({ probe, row }) => isNoticed(probe, row[0] ?? UNKNOWN, row[index + 1] ?? UNKNOWN)) ? high : low,
  );
}

function isNoticed({ kind }: ComplaintProbe, normal: number, now: number): boolean {
  if (now === UNKNOWN || normal === UNKNOWN) return false;
  if (!Number.isFinite(normal) || !Number.isFinite(now)) return !Object.is(normal, now) && !isBothNearZero(normal, now);
  if (kind === "resistance") return Math.abs(now - normal) > NOTICED_OHM;
  const [volt, normalVolt] = [fromScale(now, "V"), fromScale(normal, "V")];
  return Math.max(Math.abs(volt), Math.abs(normalVolt)) > 0.3 && Math.abs(now - normal) > NOTICED_VOLT;
}

/** A floating consumer has no voltage, just as one that is off. */
function isBothNearZero(normal: number, now: number): boolean {
  const volts = [normal, now].map((point) => (point === FLOATING ? 0 : fromScale(point, "V")));
  return volts.every((volt) => Math.abs(volt) < 0.3);
}

/** One reading that a code or a function is judged by. */
interface ComplaintProbe {
  readonly state: string;
  readonly kind: "dc-voltage" | "resistance";
  readonly red: string;
  readonly black: string;
}

/** States of a machine by what they are good for. */
interface UsefulStates {
  /** Supply isolated, for ohms. */
  readonly off: State | undefined;
  /** Key on and nothing else. */
  readonly on: State | undefined;
  /** All states with the key on. */
  readonly live: readonly State[];
}

/** Sorts the states of a machine. */
function usefulStates({ document: { states } }: Harness): UsefulStates {
  const live = states.filter(isKeyOn);
  return {
    off: states.find(({ conditions }) => conditions.includes("battery-disconnected")),
    on: live.find(({ conditions }) => conditions.length === 1 && conditions[0] === "key-on"),
    live,
  };
}

/** The main negative terminal, as an address. */
function groundOf(harness: Harness): string | undefined {
  return harness.nodes[mainTerminals(harness).negative ?? -1]?.key;
}

/** Points of a code as its module sees them: the device side of the contact where there is one. */
function pointsOfCode(harness: Harness, code: Code): readonly string[] {
  return code.points.map((address) => {
    const colon = address.lastIndexOf(":");
    const inside = `${address.slice(0, colon)}.device${address.slice(colon)}`;
    return colon > 0 && harness.nodeNumbers.has(inside) ? inside : address;
  });
}

/** The circuits that a named thing serves or, where it serves none, belongs to. */
function circuitsServed(harness: Harness, name: string): readonly Circuit[] {
  const resolution = resolve(harness, name);
  if (resolution.kind !== "one") return [];
  const circuits = circuitsOf(harness, resolution.item);
  const own = circuits.filter(
    ({ component, serves }) => component === resolution.item.id || serves.id === resolution.item.id,
  );
  return own.length > 0 ? own : circuits;
}

/**
 * Readings that show whether some circuits do their work: volts across the consumer in every live state worth measuring in, volts at the
 * module pins they end at, and ohms between those pins.
 */
function functionProbes(harness: Harness, circuits: readonly Circuit[]): readonly ComplaintProbe[] {
  const { off } = usefulStates(harness);
  const edges = new Set(circuits.flatMap((circuit) => [...circuit.edges]));
  const live = statesToMeasure(harness, edges).filter(({ conditions }) => !conditions.includes("battery-disconnected"));
  const ground = groundOf(harness);
  const probes = new Map<string, ComplaintProbe>();
  const add = (probe: ComplaintProbe): void => {
    probes.set(Object.values(probe).join(" "), probe);
  };
  const keyOf = (node: number | undefined): string => harness.nodes[node ?? -1]?.key ?? "";
  for (const circuit of circuits) {
    for (const { id } of live) {
      for (const edge of circuit.ownEdges) {
        const [red, black] = [keyOf(harness.index.from[edge]), keyOf(harness.index.to[edge])];
        add({ state: id, kind: "dc-voltage", red, black });
      }
      for (const pin of modulePins(circuit))
        if (ground !== undefined) add({ state: id, kind: "dc-voltage", red: keyOf(pin), black: ground });
    }
    // Between two pins lies the consumer itself; with more of them the inside of the module would be measured.
    const [first, second, ...more] = modulePins(circuit);
    if (off && first !== undefined && second !== undefined && more.length === 0) {
      add({ state: off.id, kind: "resistance", red: keyOf(first), black: keyOf(second) });
    }
  }
  return [...probes.values()].filter(({ red, black }) => red !== "" && black !== "" && red !== black);
}

function modulePins({ sides }: Circuit): readonly number[] {
  return [...new Set(sides.flatMap(({ role, ends }) => (role === "module" ? ends : [])))].slice(0, 8);
}

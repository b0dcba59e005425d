import { islandsOf, writeDeck, type Circuit, type Resistor } from "./circuit.ts";
import type { Fault } from "./fault.ts";
import type { HarnessFile, StateRow } from "./harness-file.ts";
import type { Ngspice } from "./ngspice.ts";
import { circuitOf, isElectronics, momentsOf, partsOf, type Part, type Setting } from "./parts.ts";
import { relaysIn, settle, type Settled, type Solver, type VoltsOf } from "./settle.ts";
import { AT_REST, type Standing } from "./standing.ts";
import { FaultBook, Points, wiringOf, type Made, type World } from "./wiring.ts";

/** Resistance of a meter on volts. Usual in instrument manuals. */
const METER_OHM = 1e7;
/** What an ohmmeter puts on its leads. */
const OHMMETER_VOLT = 0.5;
/** Ohm above which a meter shows over range: 60 Mohm, usual for 6000 counts; common practice, no source. */
const OVER_RANGE_OHM = 6e7;
/** Volts between the leads above which a part counts as powered, so that ohms tell nothing. */
const POWERED_VOLT = 0.05;

/** The state in which the key is on and nothing else is done. */
const KEY_ON = "KOEO";

/** Where the leads are, and how the machine is while the meter is read. */
export interface MeterSetting {
  readonly meter: "volts" | "ohms";
  readonly state: string;
  readonly red: string;
  readonly black: string;
  readonly unplugged: readonly string[];
}

/** What a meter reads: a number of volts or ohms, over range, or nothing that can be trusted because volts are there. */
export type Reading = number | "over range" | "powered";

/** A state at one moment of its pulses, what is off, and the meter across two points. */
interface Situation {
  readonly state: string;
  readonly moment: number;
  readonly unplugged: readonly string[];
  readonly meter: readonly Resistor[];
}

interface Share {
  readonly share: number;
  readonly moment: number;
  readonly settled: Settled;
}

/** Which machine: its build, what is wrong with it, and how it differs from its document. */
export interface Wanted {
  readonly build: string;
  readonly faults: readonly Fault[];
  readonly world?: World | undefined;
}

/** One machine with its faults, as it really is. */
/** Ends the name of what is no resistor to an ohmmeter. A coil beside a chip in one housing is one all the same. */
const ELECTRONIC = " (electronics)";

function nameInPath(part: Part): string {
  const isElectronic = part.component.needs !== undefined || isElectronics(part);
  return isElectronic ? `${part.component.id}${ELECTRONIC}` : part.component.id;
}

export class TrueMachine {
  readonly #made: Made;
  readonly #parts: readonly Part[];
  readonly #solve: Solver;
  readonly #kept = new Map<string, readonly Share[]>();
  #start: Standing = AT_REST;

  constructor(machine: HarnessFile, { build, faults, world }: Wanted, ngspice: Ngspice) {
    const options = machine.builds.find(({ id }) => id === build)?.options;
    if (options === undefined) throw new Error(`The machine has no build ${build}`);
    const points = new Points(machine, options);
    this.#made = { machine, options, points, book: new FaultBook(faults, world) };
    this.#parts = partsOf(machine, options, points);
    this.#solve = (circuit) => {
      const { text, nameOf } = writeDeck(circuit, "G2-");
      const volts = ngspice.operatingPoint(text);
      return (point) => volts.get(nameOf(point) ?? "") ?? 0;
    };
    if (faults.some(({ kind }) => kind !== "open" && kind !== "blown" && kind !== "stuck")) this.#burnFuses();
  }

  /** What a meter reads. */
  read(setting: MeterSetting): Reading {
    const { meter, state, unplugged } = setting;
    const [red, black] = [this.#made.points.onWire(setting.red), this.#made.points.onWire(setting.black)];
    const volts = this.#volts(state, unplugged, red, black);
    if (meter === "volts") return volts;
    return Math.abs(volts) > POWERED_VOLT ? "powered" : this.#ohms(state, unplugged, red, black);
  }

  /** Volts of a point against battery minus, without a meter. */
  voltsAt(state: string, point: string): number {
    const at = this.#made.points.onWire(point);
    return this.#settled(state, []).reduce((sum, { share, settled }) => sum + share * settled.volts(at), 0);
  }

  /** Volts by which a point moves against another with the pulses of a state. */
  swing(state: string, point: string, against: string): number {
    const volts = this.#settled(state, []).map(({ settled }) => settled.volts(point) - settled.volts(against));
    return Math.max(...volts) - Math.min(...volts);
  }

  /** Control units that are awake, by id. */
  awake(state: string): readonly string[] {
    const [first] = this.#settled(state, []);
    return [...(first?.settled.standing.units ?? [])].filter(([, way]) => way === "awake").map(([id]) => id);
  }

  /** Relay contacts whose coil has pulled in. */
  relaysIn(state: string): readonly string[] {
    const [first] = this.#settled(state, []);
    return first === undefined ? [] : relaysIn(this.#parts, this.#way(state, first.moment, first.settled.standing));
  }

  /** Watts in a part, at the first moment of the pulses of a state; 0 where it is open. */
  watts(state: string, key: string): number {
    const part = this.#parts.find((each) => each.key === key);
    const [first] = this.#settled(state, []);
    if (part === undefined || first === undefined || this.#made.book.isOpen(key)) return 0;
    const volt = first.settled.volts(part.from) - first.settled.volts(part.to);
    return volt ** 2 / this.#made.book.ohm(key, part.element.resistanceOhm ?? Infinity);
  }

  /** Fuses that the faults have burnt through. */
  blown(): readonly string[] {
    return [...this.#start.blown];
  }

  #state(id: string): StateRow {
    const state = this.#made.machine.states.find((row) => row.id === id);
    if (state === undefined) throw new Error(`The machine has no state ${id}`);
    return state;
  }

  #way(state: string, moment: number, standing: Standing): Setting {
    return { state: this.#state(state), moment, book: this.#made.book, standing };
  }

  /** A machine with a meter in it or not, let come to rest from where it stands. */
  #settleWith({ state, moment, unplugged, meter }: Situation, from: Standing): Settled {
    const wiring = [...wiringOf(this.#made, unplugged), ...meter];
    return settle(
      this.#parts,
      (standing) => {
        const way = this.#way(state, moment, standing);
        return { way, circuit: circuitOf(this.#parts, wiring, way) };
      },
      this.#solve,
      from,
    );
  }

  #settled(state: string, unplugged: readonly string[]): readonly Share[] {
    const key = JSON.stringify([state, [...unplugged].sort()]);
    const kept = this.#kept.get(key);
    if (kept !== undefined) return kept;
    const moments = momentsOf(this.#state(state));
    // The key is turned on before anything else is done.
    const isKeyOn = this.#state(state).conditions?.includes("key-on") === true;
    const before = isKeyOn && state !== KEY_ON ? this.#settled(KEY_ON, unplugged)[0]?.settled.standing : undefined;
    let from = before ?? this.#start;
    const shares = moments.slice(0, -1).map((begin, at) => {
      const end = moments[at + 1] ?? 1;
      const moment = (begin + end) / 2;
      const settled = this.#settleWith({ state, moment, unplugged, meter: [] }, from);
      from = settled.standing;
      return { share: end - begin, moment, settled };
    });
    this.#kept.set(key, shares);
    return shares;
  }

  #volts(state: string, unplugged: readonly string[], red: string, black: string): number {
    const meter = [{ key: "meter", a: red, b: black, ohm: METER_OHM }];
    let sum = 0;
    for (const { share, moment, settled } of this.#settled(state, unplugged)) {
      const { volts } = this.#settleWith({ state, moment, unplugged, meter }, settled.standing);
      sum += share * (volts(red) - volts(black));
    }
    return sum;
  }

  /** Components whose insides carry the current of an ohmmeter, with their share of it; volts at the leads where the machine drives a current itself. */
  ohmPaths(setting: MeterSetting): ReadonlyMap<string, number> | "powered" {
    const { state, unplugged } = setting;
    const [red, black] = [this.#made.points.onWire(setting.red), this.#made.points.onWire(setting.black)];
    if (Math.abs(this.#volts(state, unplugged, red, black)) > POWERED_VOLT) return "powered";
    const circuit = this.#atRest(state, unplugged);
    const made = ohmmeterOn(circuit, red, black, this.#solve);
    const shares = new Map<string, number>();
    if (made === undefined) return shares;
    const componentOf = new Map(this.#parts.filter(isInside).map((part) => [part.key, nameInPath(part)]));
    for (const { key, a, b, ohm } of circuit.resistors) {
      const component = componentOf.get(key.replace(/\/suppressor$/u, ""));
      if (component === undefined) continue;
      const share = Math.abs((made.volts(a) - made.volts(b)) / ohm / made.ampere);
      shares.set(component, Math.max(share, shares.get(component) ?? 0));
    }
    return shares;
  }

  /** What is no resistor to an ohmmeter, as it stands among the ways of ohms: control units, and the electronics in other parts. */
  electronics(): ReadonlySet<string> {
    return new Set(this.#parts.map(nameInPath).filter((name) => name.endsWith(ELECTRONIC)));
  }

  /** The machine as a circuit as it stands in a state, at the first moment of its pulses. */
  #atRest(state: string, unplugged: readonly string[]): Circuit {
    const [first] = this.#settled(state, unplugged);
    if (first === undefined) throw new Error(`State ${state} has no moment`);
    return circuitOf(
      this.#parts,
      wiringOf(this.#made, unplugged),
      this.#way(state, first.moment, first.settled.standing),
    );
  }

  #ohms(state: string, unplugged: readonly string[], red: string, black: string): Reading {
    if (red === black) return 0;
    const made = ohmmeterOn(this.#atRest(state, unplugged), red, black, this.#solve);
    if (made === undefined || made.ampere <= 0) return "over range";
    const ohm = (made.volts(red) - made.volts(black)) / made.ampere;
    return ohm > OVER_RANGE_OHM ? "over range" : Math.max(0, ohm);
  }

  /** Fuses that burn in any state stay burnt in all. */
  #burnFuses(): void {
    for (let known = -1; this.#start.blown.size > known;) {
      known = this.#start.blown.size;
      this.#kept.clear();
      for (const { id } of this.#made.machine.states)
        for (const { settled } of this.#settled(id, []))
          this.#start = { ...AT_REST, blown: new Set([...this.#start.blown, ...settled.standing.blown]) };
    }
  }
}

/** Whether a part is the inside of its component: not a fuse, a bar, a switch or a contact; a pull resistor is a resistor like any other. */
const isInside = ({ element }: Part): boolean => !["fuse", "bar", "switch", "contact", "bias"].includes(element.kind);

/** A circuit with an ohmmeter on it: 0.5 V at the leads and the current that flows; undefined where nothing joins the leads. */
function ohmmeterOn(
  circuit: Circuit,
  red: string,
  black: string,
  solve: Solver,
): { readonly ampere: number; readonly volts: VoltsOf } | undefined {
  const islands = islandsOf(circuit);
  if (islands.of(red) !== islands.of(black)) return undefined;
  const leadOhm = 1;
  const tip = "judge-tip";
  const volts = solve({
    ...circuit,
    resistors: [...circuit.resistors, { key: "lead", a: tip, b: red, ohm: leadOhm }],
    emfs: [...circuit.emfs, { key: "ohmmeter", plus: tip, minus: black, volt: OHMMETER_VOLT, ohm: 1e-3 }],
  });
  return { ampere: (volts(tip) - volts(red)) / leadOhm, volts };
}

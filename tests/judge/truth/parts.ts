import type { Circuit, Emf, Follower, Resistor } from "./circuit.ts";
import { isThere, type ComponentRow, type ElementRow, type HarnessFile, type StateRow } from "./harness-file.ts";
import type { Standing } from "./standing.ts";
import type { FaultBook, Points } from "./wiring.ts";

// What each part of the machine is in a circuit, as it stands.

/** Ohm between the rails of electronics that sleep, as an ohmmeter of 0.5 V meets them. Common practice, no source. */
export const SLEEPING_OHM = 22_000;
/** A copper bar for which the document gives no ohm. */
const BAR_OHM = 1e-5;
/** What a battery takes between its resting and its charging volts, as a resistance behind the resting volts. From memory, confidence low. */
const RESTING_OHM = 1;

/** The driver with which a control unit pulls its own main relay: the one it works before its feed is there. */
const MAIN_RELAY_DRIVERS: ReadonlySet<string> = new Set(["A1.drv-K2"]);

/** An element with the component that holds it and its ends. */
export interface Part {
  readonly key: string;
  readonly element: ElementRow;
  readonly component: ComponentRow;
  readonly from: string;
  readonly to: string;
  /** Output of a sensor cell. */
  readonly tap: string | undefined;
}

/** All elements that are there in one build. */
export function partsOf(machine: HarnessFile, options: readonly string[], points: Points): readonly Part[] {
  return machine.components
    .filter(({ when }) => isThere(when, options))
    .flatMap((component) =>
      component.elements
        .filter(({ when }) => isThere(when, options))
        .map((element) => ({
          key: `${component.id}.${element.id}`,
          element,
          component,
          from: points.onDevice(element.between[0], component.id),
          to: points.onDevice(element.between[1], component.id),
          tap: element.tap === undefined ? undefined : points.onDevice(element.tap, component.id),
        })),
    );
}

/** Whether a part is electronics that draw current only when they have volts: an input, a cell, the inside of a control unit. */
export function isElectronics({ element, component }: Part): boolean {
  if (element.kind === "divider") return true;
  if (element.kind !== "load") return false;
  return component.elements.some(({ kind, role }) => kind === "driver" || role === "regulator");
}

/** Whether a part is the consumption of a control unit itself. */
export const isUnitLoad = ({ element, component }: Part): boolean =>
  component.needs !== undefined && element.kind === "load" && element.between[0] === component.needs.positive;

/** The setting of a state for a thing, at one moment of its pulses (0 to 1): on or off, open or closed. */
function setting(state: StateRow, key: string, moment: number): string | undefined {
  const is = state.settings.find(({ of }) => of === key)?.is;
  if (is === undefined || typeof is === "string") return is;
  return is.dutyPercent / 100 > moment ? "on" : "off";
}

/** Shares of the time between which a pulsed driver of this state changes, from 0 to 1. */
export function momentsOf(state: StateRow): readonly number[] {
  const shares = state.settings.flatMap(({ is }) => (typeof is === "string" ? [] : [is.dutyPercent / 100]));
  return [...new Set([0, ...shares, 1])].sort((a, b) => a - b);
}

/** What a part of a machine is put into a circuit with. */
export interface Setting {
  readonly state: StateRow;
  /** Moment of the pulses, 0 to 1. */
  readonly moment: number;
  readonly book: FaultBook;
  readonly standing: Standing;
}

const quantity = (state: StateRow, name: string | undefined): number => {
  const found = state.quantities.find((row) => row.name === name);
  if (found === undefined) throw new Error(`State ${state.id} does not say ${name ?? "a quantity"}`);
  return found.value;
};

/** A straight line through two rows of a table, flat outside of it. */
function onLine(rows: readonly (readonly [number, number])[], at: number): number {
  const [first, last] = [rows[0], rows.at(-1)];
  if (first === undefined || last === undefined) throw new Error("A table without rows");
  const share = Math.min(1, Math.max(0, (at - first[0]) / (last[0] - first[0])));
  return first[1] + share * (last[1] - first[1]);
}

const KELVIN = 273.15;

/** Resistance of a thermistor by the beta equation. */
function thermistorOhm(element: ElementRow, celsius: number): number {
  if (element.curve === undefined) throw new Error(`Thermistor ${element.id} has no curve`);
  const { referenceOhm, referenceC, betaK } = element.curve;
  return referenceOhm * Math.exp(betaK * (1 / (celsius + KELVIN) - 1 / (referenceC + KELVIN)));
}

/** Whether a switch, a relay contact or a driver lets current through. */
export function isClosed(part: Part, { state, moment, book, standing }: Setting): boolean {
  const { key, element, component } = part;
  const stuck = book.stuck(key);
  if (stuck !== undefined) return stuck === "closed";
  if (element.kind === "switch") return (setting(state, key, moment) ?? element.rest) === "closed";
  if (element.kind === "contact") return standing.pulledIn.has(`${component.id}.${element.of ?? ""}`);
  if (setting(state, key, moment) !== "on") return false;
  if (component.needs === undefined) return standing.alive.has(`${component.id}.supply`);
  if (MAIN_RELAY_DRIVERS.has(key)) return standing.ready.has(component.id);
  return standing.units.get(component.id) === "awake";
}

/** A part as it stands, added to a circuit. */
function addPart(part: Part, way: Setting, into: { resistors: Resistor[]; emfs: Emf[]; followers: Follower[] }): void {
  const { key, element, component, from, to } = part;
  const { book, standing, state } = way;
  const resistor = (ohm: number, name = key): void => {
    into.resistors.push({ key: name, a: from, b: to, ohm });
  };
  const suppressor = element.suppressor?.resistanceOhm;
  if (suppressor !== undefined) resistor(suppressor, `${key}/suppressor`);
  if (book.isOpen(key) || standing.blown.has(key)) return;
  const ownOhm =
    element.resistanceByState?.find((row) => row.state === state.id)?.resistanceOhm ?? element.resistanceOhm;
  switch (element.kind) {
    case "source":
      addSource(part, way, into);
      return;
    case "divider":
      addCell(part, way, into);
      return;
    case "ntc":
      resistor(book.ohm(key, thermistorOhm(element, quantity(state, element.quantity))));
      return;
    case "switch":
    case "contact":
    case "driver":
      if (isClosed(part, way)) resistor(book.ohm(key, ownOhm ?? BAR_OHM));
      return;
    case "load": {
      const works = isUnitLoad(part)
        ? (standing.units.get(component.id) ?? "asleep") !== "asleep"
        : !isElectronics(part) || standing.alive.has(key);
      resistor(book.ohm(key, works ? (ownOhm ?? BAR_OHM) : SLEEPING_OHM));
      return;
    }
    case "bias":
    case "resistor":
    case "coil":
    case "fuse":
    case "bar":
      resistor(book.ohm(key, ownOhm ?? BAR_OHM));
      return;
    default:
      throw new Error(`The judge knows no ${element.kind} (${key})`);
  }
}

function addSource(part: Part, way: Setting, into: { resistors: Resistor[]; emfs: Emf[] }): void {
  const { key, element, component, from, to } = part;
  const [fault] = way.book.ofKind("source").filter(({ of }) => of === key);
  const volt = fault?.emf ?? element.voltageVolt ?? 0;
  const ohm = fault?.ohm ?? way.book.ohm(key, element.resistanceOhm ?? 0);
  const emf = (emfVolt: number, emfOhm: number): void => {
    into.emfs.push({ key, plus: from, minus: to, volt: emfVolt, ohm: emfOhm });
  };
  if (element.role === "battery") {
    const source = way.standing.sources.get(key) ?? "gives";
    if (source === "gives") emf(volt, ohm);
    else if (source === "rests" || element.whenCharging === undefined) emf(volt, RESTING_OHM);
    else
      emf(
        element.whenCharging.voltageVolt,
        element.whenCharging.resistanceOhm + Math.max(0, ohm - (element.resistanceOhm ?? 0)),
      );
    return;
  }
  const on = setting(way.state, key, way.moment) === "on" && fault?.off !== true;
  const source = way.standing.sources.get(key) ?? "gives";
  if (element.role === "alternator") {
    if (on && source !== "shut") emf(volt, ohm);
    return;
  }
  const awake = on && way.standing.units.get(component.id) === "awake";
  if (!awake || source === "shut") into.resistors.push({ key, a: from, b: to, ohm: SLEEPING_OHM });
  else emf(volt, source === "folds back" ? (element.foldBack?.resistanceOhm ?? ohm) : ohm);
}

function addCell(part: Part, way: Setting, into: { resistors: Resistor[]; followers: Follower[] }): void {
  const { key, element, component, from, to, tap } = part;
  if (tap === undefined) throw new Error(`Sensor ${component.id} has no output`);
  if (!way.standing.alive.has(key)) {
    into.resistors.push({ key, a: from, b: to, ohm: SLEEPING_OHM }, { key, a: tap, b: to, ohm: SLEEPING_OHM });
    return;
  }
  if (element.ratio === undefined) throw new Error(`Sensor ${component.id} has no table`);
  const [drift] = way.book.ofKind("drift").filter(({ of }) => of === key);
  const share =
    onLine(element.ratio, quantity(way.state, element.quantity)) * (drift?.factor ?? 1) + (drift?.plus ?? 0);
  into.followers.push({ key, tap, plus: from, minus: to, share, ohm: element.sourceOhm ?? 1 });
  if (element.supplyAmpere !== undefined) into.resistors.push({ key, a: from, b: to, ohm: 5 / element.supplyAmpere });
}

/** The whole machine as a circuit, as it stands. */
export function circuitOf(parts: readonly Part[], wiring: readonly Resistor[], way: Setting): Circuit {
  const into = { resistors: [...wiring], emfs: [] as Emf[], followers: [] as Follower[] };
  for (const part of parts) addPart(part, way, into);
  return into;
}

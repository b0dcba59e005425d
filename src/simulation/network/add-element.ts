import { keptFor, unreachable } from "../../base/index.ts";
import type { Component, Element } from "../../harness-model/index.ts";
import { thermistorOhm, valueAt } from "../tables/thermistor.ts";
import {
  ASLEEP_OHM,
  FILAMENT,
  JUNCTION_VOLT,
  LIFE_VOLT,
  REGULATOR_SHARE,
  SENSOR_SUPPLY_VOLT,
  SUPPLY_VOLT_PER_12,
  TYPICAL_DIODE,
} from "../tables/typical-parts.ts";
import { copperFactor } from "../tables/wire-resistance.ts";
import { quantityOf, type PartDraft, type ResolvedConditions } from "./part-draft.ts";
import { dutyOf, isOn, type Control, type Part, type PlacedElement } from "./part.ts";

/** Adds what an element is in the situation. */
export function addElement(draft: PartDraft, around: ResolvedConditions, placed: PlacedElement): void {
  const { key, component, element, from, to } = placed;
  const elementState = around.elementStates.get(key);
  const own = { key, owner: key };
  const module = component.needs ? component.id : undefined;
  switch (element.kind) {
    case "resistor": {
      const tolerance = (element.tolerancePercent ?? 5) / 100;
      return draft.add(from, to, { ...own, group: "resistor", ohm: element.resistanceOhm, tolerance });
    }
    case "ntc": {
      const celsius = quantityOf(draft, around, { name: element.quantity, key, instead: around.temperatureC });
      return draft.add(from, to, { ...own, group: "sensor", ohm: thermistorOhm(element.curve, celsius) });
    }
    case "coil":
      return addCoil(draft, around, { ...placed, element });
    case "contact":
    case "switch":
    case "driver":
      return addSwitching(draft, around, { ...placed, element });
    case "fuse":
      return draft.add(from, to, { ...own, group: "fuse", ohm: element.resistanceOhm });
    case "source":
      return addSource(draft, around, { ...placed, element });
    case "bias": {
      const volt = element.towardVolt ?? 0;
      // A plain resistor stays one in a module without supply; one with a voltage of its own does not.
      const needs = element.towardVolt === undefined ? undefined : module;
      return draft.add(to, from, { ...own, group: "bias", ohm: element.resistanceOhm, volt, module: needs });
    }
    case "divider":
      return addDivider(draft, around, { ...placed, element });
    case "load":
      return addLoad(draft, around, { ...placed, element });
    case "lamp": {
      const hot = element.voltageVolt ** 2 / element.powerWatt;
      const ohm = around.isDead ? FILAMENT.coldShare * hot : hot;
      const text = around.isDead
        ? `${key}: assumed cold resistance of the filament ${ohm.toPrecision(2)} Ω; alight it has ${hot.toPrecision(3)} Ω`
        : `${key}: assumed hot resistance of the lamp ${ohm.toPrecision(3)} Ω, also where it is dim`;
      draft.assume("model", key, text);
      return draft.add(from, to, {
        ...own,
        group: "load",
        ohm,
        present: elementState === undefined || isOn(elementState),
        ...(around.isDead ? { tolerance: FILAMENT.coldTolerance } : {}),
      });
    }
    case "diode": {
      const diode = { volt: -element.forwardVolt, voltTolerance: JUNCTION_VOLT, control: { kind: "diode" as const } };
      return draft.add(from, to, { ...own, group: "diode", ohm: element.resistanceOhm, ...diode });
    }
    case "bar":
      return draft.add(from, to, { ...own, group: "bar", ohm: element.resistanceOhm ?? 0 });
    default:
      return unreachable(element);
  }
}

/**
 * The supply that what is inside a component works with: that of its `needs`; else, in a sensor or another part with an output of its own,
 * that of the load which shares its rail. What a control unit needs is in its document, or not known.
 */
export const supplyOf = keptFor(({ kind, needs, elements }: Component): Component["needs"] => {
  if (needs !== undefined || kind === "module") return needs;
  const rails = new Set(elements.flatMap((each) => (each.kind === "driver" ? [each.between[1]] : [])));
  const cell = elements.find((each) => each.kind === "load" && each.between.some((end) => rails.has(end)));
  return cell && { positive: cell.between[0], negative: cell.between[1], leastVolt: LIFE_VOLT };
});

/** Whether a component has electronics in it, which are no resistors. */
const isElectronic = keptFor(
  (component: Component) =>
    supplyOf(component) !== undefined ||
    component.elements.some((each) => each.kind === "divider" || (each.kind === "source" && each.role === "regulator")),
);

/** What a load is besides a resistance: the own consumption of electronics, an input that works with volts only, or nothing. */
function asElectronics(component: Component, { between }: Element): Partial<Part> {
  const supply = supplyOf(component);
  if (supply && between[0] === supply.positive && between[1] === supply.negative)
    return { module: component.id, worksWhile: "loaded", asleepOhm: ASLEEP_OHM };
  return isElectronic(component) ? { control: { kind: "electronics" }, asleepOhm: ASLEEP_OHM } : {};
}

/** Adds a consumer as a resistance, or as the electronics that it stands for. */
function addLoad(
  draft: PartDraft,
  around: ResolvedConditions,
  placed: PlacedElement & { readonly element: Extract<Element, { kind: "load" }> },
): void {
  const { key, component, element, from, to } = placed;
  const elementState = around.elementStates.get(key);
  const ohm = element.resistanceByState?.find((each) => each.state === around.stateId)?.resistanceOhm;
  const present = elementState === undefined || isOn(elementState);
  const own = { key, owner: key, group: "load", ohm: ohm ?? element.resistanceOhm, present } as const;
  draft.add(from, to, { ...own, ...asElectronics(component, element) });
}

/** Adds what opens and closes: switches, relay contacts, drivers. */
function addSwitching(
  draft: PartDraft,
  around: ResolvedConditions,
  placed: PlacedElement & { readonly element: Extract<Element, { kind: "contact" | "switch" | "driver" }> },
): void {
  const { key, component, element, from, to } = placed;
  const elementState = around.elementStates.get(key);
  const own = { key, owner: key, ohm: element.resistanceOhm };
  if (element.kind === "driver") {
    const is = elementState ?? "off";
    const supply = supplyOf(component);
    const how = {
      volt: element.voltageVolt ?? 0,
      present: isOn(is),
      control: dutyOf(is),
      module: supply ? component.id : undefined,
      worksWhile: supply?.wakeOutputs?.includes(element.id) === true ? ("woken" as const) : ("awake" as const),
    };
    return draft.add(to, from, { ...own, group: "driver", ...how });
  }
  if (element.kind === "contact" && elementState === undefined) {
    const control: Control = { kind: "contact", coil: `${component.id}.${element.of}`, form: element.form };
    return draft.add(from, to, { ...own, group: "switch", control });
  }
  const is = elementState ?? (element.kind === "switch" ? element.rest : "open");
  draft.add(from, to, { ...own, group: "switch", present: isOn(is), control: dutyOf(is) });
}

function addCoil(
  draft: PartDraft,
  around: ResolvedConditions,
  placed: PlacedElement & { readonly element: Extract<Element, { kind: "coil" }> },
): void {
  const { key, element, from, to } = placed;
  const ohm = element.resistanceOhm * copperFactor(around.temperatureC);
  draft.add(from, to, { key, owner: key, group: "coil", ohm });
  const { suppressor } = element;
  if (!suppressor) return;
  const own = { key: `${key}|suppressor`, owner: key };
  if (suppressor.kind === "resistor")
    return draft.add(from, to, { ...own, group: "resistor", ohm: suppressor.resistanceOhm });
  // The cathode is at the first terminal: current passes from the second to the first.
  const diode = { ohm: TYPICAL_DIODE.resistanceOhm, volt: -TYPICAL_DIODE.forwardVolt, voltTolerance: JUNCTION_VOLT };
  draft.add(to, from, { ...own, group: "diode", ...diode, control: { kind: "diode" } });
}

/** Source resistance of a signal where the document says 0, in ohm. Typical, common practice, no source. */
const LEAST_SOURCE_OHM = 10;

/** The two resistances of a divider in ohm; Infinity where one is not there. */
interface DividerOhms {
  readonly topOhm: number;
  readonly bottomOhm: number;
}

/**
 * Two resistances that give a ratio and have a source resistance: source / ratio on top, source / (1 - ratio) at the bottom.
 *
 * @param ratio Tap over supply, 0 to 1.
 * @param sourceOhm Resistance seen at the tap.
 */
export function dividerOhms(ratio: number, sourceOhm: number): DividerOhms {
  const share = Math.min(1, Math.max(0, ratio));
  return { topOhm: sourceOhm / share, bottomOhm: sourceOhm / (1 - share) };
}

/** Adds one edge of a divider, and with its bottom edge what the sensor draws for itself. */
function addDivider(
  draft: PartDraft,
  around: ResolvedConditions,
  placed: PlacedElement & { readonly element: Extract<Element, { kind: "divider" }> },
): void {
  const { key, edgeKey, element, from, to, top } = placed;
  const instead = element.ratio[0]?.[0] ?? 0;
  const input = quantityOf(draft, around, { name: element.quantity, key, instead });
  const { topOhm, bottomOhm } = dividerOhms(valueAt(element.ratio, input), element.sourceOhm || LEAST_SOURCE_OHM);
  const isTop = edgeKey.endsWith(".top");
  const rest = (element.supplyAmpere ?? 0) - SENSOR_SUPPLY_VOLT / (topOhm + bottomOhm);
  const hides = { control: { kind: "electronics" }, asleepOhm: ASLEEP_OHM } as const;
  const kept = { key: edgeKey, owner: key, group: "sensor", ohm: isTop ? topOhm : bottomOhm } as const;
  // A plain potentiometer is a resistor whatever its supply does; an output that sleeps is not joined to its supply.
  if (element.supplyAmpere === undefined) draft.add(from, to, kept);
  else if (isTop && rest > 0) draft.add(from, to, { ...kept, ...hides, asleepOhm: Infinity });
  else draft.add(from, to, { ...kept, ...hides });
  if (isTop || rest <= 0) return;
  const supply = { key: `${key}|supply`, owner: key, group: "load", ohm: SENSOR_SUPPLY_VOLT / rest } as const;
  draft.add(top, to, { ...supply, ...hides });
}

/** Adds a battery, alternator or regulator. An alternator gives nothing unless the state runs it. */
function addSource(
  draft: PartDraft,
  around: ResolvedConditions,
  placed: PlacedElement & { readonly element: Extract<Element, { kind: "source" }> },
): void {
  const { key, component, element, from, to } = placed;
  const elementState =
    around.elementStates.get(key) ?? (element.role === "alternator" && !around.isRunning ? "off" : "on");
  const isSupply = element.role !== "regulator";
  const isNever = !isSupply && !isOn(elementState);
  draft.add(to, from, {
    key,
    owner: key,
    group: isSupply ? "supply" : "regulator",
    ohm: element.resistanceOhm,
    volt: element.voltageVolt,
    present: isNever || isOn(elementState),
    control: controlOf(component, element),
    module: isNever || component.needs ? component.id : undefined,
    worksWhile: isNever ? "never" : "awake",
    asleepOhm: isSupply ? Infinity : ASLEEP_OHM,
    voltTolerance: isSupply
      ? (SUPPLY_VOLT_PER_12 * around.nominalVolt) / 12
      : REGULATOR_SHARE * Math.abs(element.voltageVolt),
  });
}

/** What a source does with current that is pressed into it. The middle of a bus or of a sensor input gives and takes, as an amplifier does. */
function controlOf(component: Component, source: Extract<Element, { kind: "source" }>): Control | undefined {
  const { role, resistanceOhm, whenCharging, foldBack, between } = source;
  if (role === "battery") {
    const charging = whenCharging && { volt: whenCharging.voltageVolt, ohm: whenCharging.resistanceOhm };
    return { kind: "battery", wholeOhm: resistanceOhm, charging };
  }
  const isMiddle = component.elements.some(
    (each) => each.kind === "bias" && each.pull === "middle" && each.between[1] === between[0],
  );
  if (isMiddle) return undefined;
  return { kind: "giver", foldBack: foldBack && { limitAmpere: foldBack.limitAmpere, ohm: foldBack.resistanceOhm } };
}

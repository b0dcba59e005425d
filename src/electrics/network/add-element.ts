import { unreachable } from "../../base/index.ts";
import type { Element } from "../../model/index.ts";
import { copperFactor } from "../tables/copper.ts";
import { thermistorOhm } from "../tables/thermistor.ts";
import { JUNCTION_VOLT } from "../tables/tolerances.ts";
import { TYPICAL_DIODE } from "../tables/typical-parts.ts";
import { addDivider } from "./add-divider.ts";
import { addSource } from "./add-source.ts";
import type { PartDraft } from "./part-draft.ts";
import type { Control } from "./part.ts";
import type { PlacedElement } from "./placed-element.ts";
import { quantityOf } from "./quantity-of.ts";
import { dutyOf, isOn } from "./stand.ts";
import type { Surroundings } from "./surroundings.ts";

/** Adds what an element is in the situation. */
export function addElement(draft: PartDraft, around: Surroundings, placed: PlacedElement): void {
  const { key, component, element, from, to } = placed;
  const stand = around.stands.get(key);
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
    case "load": {
      const ohm = element.resistanceByState?.find((each) => each.state === around.stateId)?.resistanceOhm;
      const present = stand === undefined || isOn(stand);
      return draft.add(from, to, { ...own, group: "load", ohm: ohm ?? element.resistanceOhm, present });
    }
    case "lamp": {
      const ohm = element.voltageVolt ** 2 / element.powerWatt;
      draft.assume(
        "model",
        key,
        `${key}: lamp taken at its hot resistance, ${ohm.toPrecision(3)} ohm, also where it is dim`,
      );
      return draft.add(from, to, { ...own, group: "load", ohm, present: stand === undefined || isOn(stand) });
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

/** Adds what opens and closes: switches, relay contacts, drivers. */
function addSwitching(
  draft: PartDraft,
  around: Surroundings,
  placed: PlacedElement & { readonly element: Extract<Element, { kind: "contact" | "switch" | "driver" }> },
): void {
  const { key, component, element, from, to } = placed;
  const stand = around.stands.get(key);
  const own = { key, owner: key, ohm: element.resistanceOhm };
  if (element.kind === "driver") {
    const is = stand ?? "off";
    const module = component.needs ? component.id : undefined;
    const how = { volt: element.voltageVolt ?? 0, present: isOn(is), control: dutyOf(is), module };
    return draft.add(to, from, { ...own, group: "driver", ...how });
  }
  if (element.kind === "contact" && stand === undefined) {
    const control: Control = { kind: "contact", coil: `${component.id}.${element.of}`, form: element.form };
    return draft.add(from, to, { ...own, group: "switch", control });
  }
  const is = stand ?? (element.kind === "switch" ? element.rest : "open");
  draft.add(from, to, { ...own, group: "switch", present: isOn(is), control: dutyOf(is) });
}

function addCoil(
  draft: PartDraft,
  around: Surroundings,
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

import type { Element } from "../../model/index.ts";
import { REGULATOR_SHARE, SUPPLY_VOLT_PER_12 } from "../tables/tolerances.ts";
import type { PlacedElement } from "./placed-element.ts";
import type { PartDraft } from "./part-draft.ts";
import type { Control } from "./part.ts";
import { isOn } from "./stand.ts";
import type { Surroundings } from "./surroundings.ts";

/** Adds a battery, alternator or regulator. An alternator gives nothing unless the state runs it. */
export function addSource(
  draft: PartDraft,
  around: Surroundings,
  placed: PlacedElement & { readonly element: Extract<Element, { kind: "source" }> },
): void {
  const { key, component, element, from, to } = placed;
  const stand = around.stands.get(key) ?? (element.role === "alternator" && !around.isRunning ? "off" : "on");
  const isSupply = element.role !== "regulator";
  draft.add(to, from, {
    key,
    owner: key,
    group: isSupply ? "supply" : "regulator",
    ohm: element.resistanceOhm,
    volt: element.voltageVolt,
    present: isOn(stand),
    control: controlOf(element),
    module: component.needs ? component.id : undefined,
    voltTolerance: isSupply
      ? (SUPPLY_VOLT_PER_12 * around.nominalVolt) / 12
      : REGULATOR_SHARE * Math.abs(element.voltageVolt),
  });
}

function controlOf(element: Extract<Element, { kind: "source" }>): Control | undefined {
  if (element.whenCharging)
    return {
      kind: "battery",
      chargingOhm: element.whenCharging.resistanceOhm,
      chargingVolt: element.whenCharging.voltageVolt,
    };
  if (element.foldBack)
    return { kind: "fold-back", limitAmpere: element.foldBack.limitAmpere, foldedOhm: element.foldBack.resistanceOhm };
  return undefined;
}

import type { Harness } from "../../model/index.ts";
import type { PartList } from "../network/part.ts";
import type { Fault } from "./fault.ts";
import { PartPatch } from "./part-patch.ts";
import { isTouch, makeReady, readyName, type TouchFault } from "./touch.ts";

/**
 * Makes the places ready at which things may touch that should not. Nothing touches yet, so the circuit is the same; but putting one of the
 * faults in no longer changes the shape, so one plan of elimination serves for all of them.
 *
 * A wire that may be touched counts as two pieces from now on, so a resistance can no longer be put into it by its name.
 *
 * @param harness The machine the list was made from.
 * @param list The parts.
 * @param faults The faults that will be put in one after the other; what is no short and no bridge is passed over.
 */
export function withReadyPlaces(harness: Harness, list: PartList, faults: readonly Fault[]): PartList {
  const patch = new PartPatch(harness, list);
  const places = new Map<string, TouchFault>();
  for (const fault of faults.filter(isTouch)) {
    const name = readyName(fault);
    if (name !== undefined) places.set(name, fault);
  }
  for (const fault of places.values()) makeReady(patch, fault);
  return patch.finish();
}

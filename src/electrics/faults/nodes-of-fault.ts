import type { Harness } from "../../model/index.ts";
import type { PartList } from "../network/part.ts";
import { connectorOf } from "../network/surroundings.ts";
import type { Fault } from "./fault.ts";
import { findPoint, findTarget } from "./find-target.ts";

/**
 * The nodes a fault touches, so that they can be kept when the rest of the machine is reduced.
 *
 * @param harness The machine.
 * @param list Its parts.
 * @param fault The fault.
 */
export function nodesOfFault(harness: Harness, list: PartList, fault: Fault): readonly number[] {
  return namesOf(harness, fault).flatMap((name) => {
    const ofParts = (findTarget(harness, list, name) ?? []).flatMap((at) => [
      list.shape.from[at] ?? 0,
      list.shape.to[at] ?? 0,
    ]);
    return [...ofParts, ...wiresAt(harness, list, fault, name)];
  });
}

function namesOf(harness: Harness, fault: Fault): readonly string[] {
  switch (fault.kind) {
    case "bridge":
      return fault.between;
    case "swapped":
      return fault.cavities;
    case "short":
      return [fault.of, fault.to];
    case "unplugged": {
      const connector = harness.fitted.connectors.get(connectorOf(harness, fault.of) ?? "");
      return connector?.cavities.map((cavity) => `${connector.id}:${cavity.id}`) ?? [];
    }
    case "open":
    case "resistance":
    case "blown":
    case "stuck-open":
    case "stuck-closed":
    case "stuck-on":
    case "stuck-off":
    case "drift":
    case "loose":
      return [fault.of];
  }
}

/** The node of a point; where wires change places also the far ends of those wires. */
function wiresAt(harness: Harness, list: PartList, fault: Fault, name: string): readonly number[] {
  const node = findPoint(harness, list, name);
  if (node === undefined) return [];
  if (fault.kind !== "swapped") return [node];
  return list.parts.flatMap((part, at) => {
    const ends = [list.shape.from[at] ?? 0, list.shape.to[at] ?? 0];
    return part.group === "wire" && ends.includes(node) ? ends : [];
  });
}

import { unreachable } from "../../base/index.ts";
import type { Part } from "../network/part.ts";
import type { QuestionProblem } from "../network/situation.ts";
import { connectorOf } from "../network/surroundings.ts";
import { driftParts } from "./drift-parts.ts";
import type { Fault } from "./fault.ts";
import { unknownTarget } from "./find-target.ts";
import type { PartPatch } from "./part-patch.ts";
import { touch } from "./touch.ts";
import { wrongTarget } from "./wrong-target.ts";

/**
 * Puts one fault into a copy of the parts.
 *
 * @param patch The copy.
 * @param fault The fault.
 * @returns Nothing, or why it cannot be applied.
 */
export function applyFault(patch: PartPatch, fault: Fault): QuestionProblem | undefined {
  switch (fault.kind) {
    case "open":
      return onParts(patch, fault.of, (parts) => removeAll(patch, parts));
    case "resistance":
      return onParts(patch, fault.of, (parts) => addSeries(patch, { ...fault, parts }));
    case "loose":
      return onParts(patch, fault.of, (parts) => {
        if (!fault.of.includes("@")) return wrongTarget(fault.of, "is no wire's end at a stud or splice");
        const { ohm } = fault;
        return ohm === undefined ? removeAll(patch, parts) : addSeries(patch, { of: fault.of, ohm, parts });
      });
    case "blown":
      return onParts(patch, fault.of, (parts) => {
        const isBurnable = parts.every((at) => ["fuse", "load"].includes(patch.part(at).group));
        return isBurnable ? removeAll(patch, parts) : wrongTarget(fault.of, "is no fuse and no lamp");
      });
    case "stuck-open":
    case "stuck-closed":
    case "stuck-on":
    case "stuck-off":
      return onParts(patch, fault.of, (parts) => stick(patch, fault, parts));
    case "drift":
      return onParts(patch, fault.of, (parts) => driftParts(patch, fault, parts));
    case "unplugged":
      return unplug(patch, fault.of);
    case "swapped":
      return swap(patch, fault.cavities);
    case "short":
    case "bridge":
      return touch(patch, fault);
    default:
      return unreachable(fault);
  }
}

type PartNumbersOf = readonly number[];

function onParts(
  patch: PartPatch,
  of: string,
  act: (parts: PartNumbersOf) => QuestionProblem | undefined,
): QuestionProblem | undefined {
  const parts = patch.find(of);
  return parts ? act(parts) : unknownTarget(patch.harness, of, "wire, contact, element or wire end");
}

function removeAll(patch: PartPatch, parts: PartNumbersOf): undefined {
  for (const at of parts) patch.change(at, { present: false });
}

function addSeries(
  patch: PartPatch,
  { of, ohm, parts }: { readonly of: string; readonly ohm: number; readonly parts: PartNumbersOf },
): QuestionProblem | undefined {
  const [first, second] = parts;
  if (first === undefined) return undefined;
  // A suppressor sits inside the case with its coil; anything else of two parts must be named more closely.
  const isOneWay = second === undefined || patch.part(second).key.endsWith("|suppressor");
  if (!isOneWay)
    return wrongTarget(of, `has several parts; name one: ${parts.map((at) => patch.part(at).key).join(", ")}`);
  const part = patch.part(first);
  const whole = part.ohm + ohm;
  // The resistance of the fault is as named; only what the part had of its own may be off.
  patch.change(first, { ohm: whole, tolerance: whole === 0 ? 0 : (part.tolerance * part.ohm) / whole });
  return undefined;
}

function stick(
  patch: PartPatch,
  fault: { readonly kind: "stuck-open" | "stuck-closed" | "stuck-on" | "stuck-off"; readonly of: string },
  parts: PartNumbersOf,
): QuestionProblem | undefined {
  const isOn = fault.kind === "stuck-closed" || fault.kind === "stuck-on";
  const wanted: readonly Part["group"][] =
    fault.kind === "stuck-open" || fault.kind === "stuck-closed"
      ? ["switch"]
      : ["driver", "regulator", "supply", "load"];
  if (!parts.every((at) => wanted.includes(patch.part(at).group))) {
    const sort = wanted.length === 1 ? "switch or relay contact" : "driver, source or load";
    return wrongTarget(fault.of, `is no ${sort}, so it cannot be ${fault.kind}`);
  }
  // What is stuck on conducts whether its module lives or not.
  for (const at of parts) patch.change(at, { present: isOn, control: undefined, module: undefined });
  return undefined;
}

function unplug(patch: PartPatch, name: string): QuestionProblem | undefined {
  const { harness } = patch;
  const id = connectorOf(harness, name);
  const connector = id === undefined ? undefined : harness.fitted.connectors.get(id);
  if (!connector) return { code: "unknown-connector", of: name, text: `There is no connector "${name}" in this build` };
  for (const cavity of connector.cavities) {
    for (const at of patch.find(`${connector.id}:${cavity.id}`) ?? []) patch.change(at, { present: false });
  }
  return undefined;
}

function swap(patch: PartPatch, cavities: readonly [string, string]): QuestionProblem | undefined {
  const [first, second] = cavities.map((name) => patch.point(name));
  const lost = first === undefined ? cavities[0] : cavities[1];
  if (first === undefined || second === undefined) return unknownTarget(patch.harness, lost, "contact");
  const [one, other] = [patch.nodeOf(first), patch.nodeOf(second)];
  const isOneHalf =
    one?.kind === "contact" &&
    other?.kind === "contact" &&
    one.connector === other.connector &&
    one.half === other.half;
  if (!isOneHalf) return wrongTarget(cavities.join(" and "), "are not two cavities of one connector half");
  patch.swapWireEnds(first, second);
  return undefined;
}

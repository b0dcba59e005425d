import type { QuestionProblem } from "../network/situation.ts";
import type { Fault } from "./fault.ts";
import { unknownTarget } from "./find-target.ts";
import type { PartPatch } from "./part-patch.ts";

/** A fault by which two things touch that should not. */
export type TouchFault = Extract<Fault, { readonly kind: "short" | "bridge" }>;

/** Whether a fault is one by which two things touch. */
export function isTouch(fault: Fault): fault is TouchFault {
  return fault.kind === "short" || fault.kind === "bridge";
}

/**
 * Lets two points, wires or elements' terminals touch; a wire is met at the percent given, the second one in its middle.
 *
 * @param patch The copy of the parts.
 * @param fault What touches.
 * @returns Nothing, or why it cannot be applied.
 */
export function touch(patch: PartPatch, fault: TouchFault): QuestionProblem | undefined {
  const name = readyName(fault);
  const ready = name === undefined ? undefined : patch.find(name)?.find((at) => !patch.part(at).present);
  if (ready === undefined) return join(patch, fault, true);
  patch.change(ready, { present: true, ohm: fault.ohm });
  return undefined;
}

/**
 * Makes the place where two things will touch, without letting them: a fault that is put in later then leaves the shape as it is. What cannot
 * be applied is said when it is.
 */
export function makeReady(patch: PartPatch, fault: TouchFault): void {
  join(patch, fault, false);
}

/** Name of the place that can be made ready for a fault; undefined for one elsewhere than in the middle of a wire. */
export function readyName(fault: TouchFault): string | undefined {
  return fault.kind === "short" && fault.atPercent !== undefined ? undefined : keyOf(fault);
}

function keyOf(fault: TouchFault): string {
  return `${fault.kind} ${namesOf(fault).join(" ")}`;
}

function namesOf(fault: TouchFault): readonly [string, string] {
  return fault.kind === "short" ? [fault.of, fault.to] : fault.between;
}

function join(patch: PartPatch, fault: TouchFault, present: boolean): QuestionProblem | undefined {
  const names = namesOf(fault);
  const percent = fault.kind === "short" ? (fault.atPercent ?? 50) : 50;
  const [first, second] = names.map((name, which) => {
    const wire = patch.harness.fitted.wires.has(name) ? patch.find(name)?.[0] : undefined;
    return wire === undefined ? patch.point(name) : patch.placeOnWire(wire, which === 0 ? percent : 50);
  });
  const lost = first === undefined ? names[0] : names[1];
  if (first === undefined || second === undefined) return unknownTarget(patch.harness, lost, "wire or point");
  patch.join(first, second, { key: keyOf(fault), ohm: fault.ohm, present });
  return undefined;
}

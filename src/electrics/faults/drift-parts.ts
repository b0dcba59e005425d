import { dividerOhms } from "../network/add-divider.ts";
import type { QuestionProblem } from "../network/situation.ts";
import type { Fault } from "./fault.ts";
import type { PartPatch } from "./part-patch.ts";
import { wrongTarget } from "./wrong-target.ts";

/** Parts whose value is a resistance that may drift. */
const RESISTANCES = ["sensor", "resistor", "coil", "load", "bias"];

/**
 * Lets a sensor, resistance or regulator drift: its value is multiplied, then something is added. The value of a divider is its ratio.
 *
 * @param patch The copy of the parts.
 * @param fault The drift.
 * @param parts The parts it names.
 * @returns Nothing, or why it cannot be applied.
 */
export function driftParts(
  patch: PartPatch,
  fault: Extract<Fault, { kind: "drift" }>,
  parts: readonly number[],
): QuestionProblem | undefined {
  const { factor, offset } = fault;
  const top = parts.find((at) => patch.part(at).key.endsWith(".top"));
  const bottom = parts.find((at) => patch.part(at).key.endsWith(".bottom"));
  if (top !== undefined && bottom !== undefined) {
    const { topOhm, bottomOhm } = { topOhm: patch.part(top).ohm, bottomOhm: patch.part(bottom).ohm };
    const ratio = topOhm === Infinity ? 0 : bottomOhm === Infinity ? 1 : bottomOhm / (topOhm + bottomOhm);
    const sourceOhm = 1 / (1 / topOhm + 1 / bottomOhm);
    const drifted = dividerOhms(ratio * factor + offset, sourceOhm);
    patch.change(top, { ohm: drifted.topOhm });
    patch.change(bottom, { ohm: drifted.bottomOhm });
    return undefined;
  }
  for (const at of parts) {
    const { group, ohm, volt, key } = patch.part(at);
    if (key.includes("|")) continue;
    if (group === "regulator" || group === "supply") patch.change(at, { volt: volt * factor + offset });
    else if (RESISTANCES.includes(group)) patch.change(at, { ohm: Math.max(0, ohm * factor + offset) });
    else return wrongTarget(fault.of, "is no sensor, resistance or regulator, so it cannot drift");
  }
  return undefined;
}

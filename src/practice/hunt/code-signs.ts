import { complaintEvidence } from "../../diagnosis/index.ts";
import { makeFitting, type Code, type Harness } from "../../model/index.ts";
import type { FaultyMachine } from "./faulty-machine.ts";
import { isMessageLost, isSignalLost, isWayChanged, isImplausible } from "./soft-codes.ts";

/**
 * The codes that control units set with these faults. Codes that a voltage or an open or shorted line sets are told as the diagnosis
 * predicts them; codes for missing or implausible signals by rules of their own, because there the static model stands for pulses and
 * messages. Codes of dead control units are left out: nobody can read them.
 */
export function codesSet(machine: FaultyMachine): readonly string[] {
  const { harness, faults, dead } = machine;
  const isFitted = makeFitting(harness.build);
  const codes = harness.document.codes.filter(
    (code) => isFitted(code.when) && (code.module === undefined || !dead.has(code.module)),
  );
  const hard = codes.filter(isHard);
  const all = { codes: new Map(hard.map(({ id }) => [id, "active" as const])), symptoms: new Map<string, "bad">() };
  const evidence = new Map(
    complaintEvidence(harness, all, [[], faults]).map((each) => [each.key, each.likelihoods[0]]),
  );
  return codes
    .filter((code) => (isHard(code) ? (evidence.get(`code ${code.id}`) ?? 0) > 0.5 : isSoftSet(machine, code)))
    .map((code) => code.id);
}

function isHard({ failure }: Code): boolean {
  return failure === "voltage-high" || failure === "voltage-low" || failure === "open" || failure === "short";
}

function isSoftSet(machine: FaultyMachine, code: Code): boolean {
  const { failure } = code;
  if (failure === "no-signal")
    return isOnBus(machine.harness, code) ? isMessageLost(machine, code) : isSignalLost(machine, code);
  if (failure === "erratic") return isWayChanged(machine, code);
  return failure === "implausible" && isImplausible(machine, code);
}

/** Whether the points of a code are lines of a data bus. */
function isOnBus(harness: Harness, { points }: Code): boolean {
  const [first = ""] = points;
  const colon = first.lastIndexOf(":");
  return harness.edges.some((edge) => {
    if (edge.kind !== "wire" || harness.nets.get(edge.wire.net ?? "")?.kind !== "data-bus") return false;
    return edge.wire.ends.some(
      (end) => end === first || end === `${first.slice(0, colon)}.harness${first.slice(colon)}`,
    );
  });
}

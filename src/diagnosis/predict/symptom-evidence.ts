import type { Fault } from "../../simulation/index.ts";
import { makeFitting, type Code, type Harness } from "../../harness-model/index.ts";
import type { CodeStatus, JobFacts } from "../../job-records/index.ts";
import type { Evidence } from "../belief/evidence.ts";
import type { Scope } from "../candidates/find-scope.ts";
import { codeSign, isHard } from "./code-sign.ts";
import { circuitsServed, functionSign } from "./function-sign.ts";
import { localPoints, pointsOfFaults } from "./local-circuit.ts";
import { sharesOfSigns, TRUST, type Sign } from "./sign.ts";

/**
 * Turns codes and functions into evidence: for each, how likely it is under each set of faults. Codes of a module that gave other codes
 * count as absent, weakly.
 *
 * @param faultSets Sets of faults; the first is the healthy machine and gets no likelihood of its own.
 * @param scope The part of the machine that the faults lie in; the rest is reduced then, which is quicker.
 * @returns One piece of evidence each, none where nothing on the circuit can be read; likelihoods in the order of the sets after the first,
 *   and one more for "something else".
 */
export function complaintEvidence(
  harness: Harness,
  facts: Pick<JobFacts, "codes" | "symptoms">,
  faultSets: readonly (readonly Fault[])[],
  scope?: Scope,
): readonly Evidence[] {
  const isFitted = makeFitting(harness.build);
  const codes = harness.document.codes.filter((code) => isFitted(code.when));
  const reporting = new Set(codes.filter(({ id }) => isPresent(facts.codes.get(id))).map(({ module }) => module));
  const watched = codes.filter(
    (code) => facts.codes.has(code.id) || (reporting.has(code.module) && isHard(code) && isCheap(code)),
  );
  const signs = new Map<Code | string, Sign>([
    ...watched.map((code) => [code, codeSign(harness, code, !facts.codes.has(code.id))] as const),
    ...[...facts.symptoms.keys()].map((name) => [name, functionSign(harness, circuitsServed(harness, name))] as const),
  ]);
  // Where no supply, ground or consumer is known nothing can be predicted, and a code or function parts nothing.
  for (const [key, sign] of signs) if (sign.probes.length === 0) signs.delete(key);
  const measured = [
    ...pointsOfFaults(harness, faultSets),
    ...[...signs.values()].flatMap(({ probes }) => probes.flatMap(({ red, black }) => [red, black])),
  ];
  const points = scope && localPoints(harness, scope, { points: measured, connectors: [] });
  const shares = sharesOfSigns(harness, signs, { faultSets, ...(points ? { points } : {}) });
  return [...shares].map(([key, shown]): Evidence => {
    if (typeof key === "string") {
      const isBad = facts.symptoms.get(key) === "bad";
      const told = shown.map((share, at) =>
        // Without an electrical fault it is something else that keeps the thing from its work.
        isBad ? (faultSets[at + 1]?.length === 0 ? TRUST.badOtherwise : share) : 1 - share,
      );
      return toEvidence(`function ${key}`, told, isBad);
    }
    const status = facts.codes.get(key.id);
    return toEvidence(`code ${key.id}`, likelihoodOfCode(shown, status), isPresent(status));
  });
}

/** For each code and each thing a share for every fault set: near 1 where it sets the code or disturbs the function, near 0 where not. */
interface SignShares {
  readonly codes: ReadonlyMap<Code, Float64Array>;
  readonly items: ReadonlyMap<string, Float64Array>;
}

/** Codes and things that are asked about. */
interface AskedSigns {
  readonly codes: readonly Code[];
  /** Names of parts or circuits whose function may be disturbed. */
  readonly items: readonly string[];
}

/**
 * Whether fault sets set codes and disturb functions.
 *
 * @param faultSets Sets of faults; the first is the healthy machine.
 * @returns One share for each set after the first.
 */
export function signShares(
  harness: Harness,
  { codes, items }: AskedSigns,
  faultSets: readonly (readonly Fault[])[],
): SignShares {
  const ofCodes = new Map(codes.map((code) => [code, codeSign(harness, code)]));
  const ofItems = new Map(items.map((name) => [name, functionSign(harness, circuitsServed(harness, name))]));
  return {
    codes: sharesOfSigns(harness, ofCodes, { faultSets }),
    items: sharesOfSigns(harness, ofItems, { faultSets }),
  };
}

function isPresent(status: CodeStatus | undefined): boolean {
  return status === "active" || status === "previously-active";
}

/** Of codes that nobody mentioned only those are looked at that show with the key on. */
function isCheap({ failure, points }: Code): boolean {
  return failure !== "short" && points.length === 1;
}

function likelihoodOfCode(shown: Float64Array, status: CodeStatus | undefined): Float64Array {
  switch (status) {
    case "active":
      return shown;
    case "previously-active":
      // It was set once, perhaps by something else.
      return shown.map((share) => 0.3 + 0.7 * share);
    case "not-present":
      return shown.map((share) => 1 - share);
    case undefined:
      return shown.map((share) => 1 - TRUST.notMentioned * share);
  }
}

function toEvidence(key: string, likelihoods: Float64Array, isBad: boolean): Evidence {
  // "Something else" may show in any way, but like every fault it leaves most things alone.
  const even = isBad ? 0.3 : 0.9;
  return { key, likelihoods: Float64Array.of(...likelihoods, even), even };
}

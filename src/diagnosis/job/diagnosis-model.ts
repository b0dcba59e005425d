import { addTo } from "../../base/index.ts";
import type { Fault, TablePair } from "../../simulation/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import type { JobFacts } from "../../job-records/index.ts";
import type { Evidence } from "../belief/evidence.ts";
import { fromScale, OVER_RANGE, toScale } from "../belief/meter-scale.ts";
import {
  listHypotheses,
  NO_ELECTRICAL_FAULT,
  PRIORS,
  type Hypothesis,
  type HypothesisList,
} from "../candidates/candidate.ts";
import { findScope, type Scope } from "../candidates/find-scope.ts";
import { listCandidates } from "../candidates/list-candidates.ts";
import type { Check, MeterCheck } from "../checks/check.ts";
import { listInspectionChecks } from "../checks/list-inspection-checks.ts";
import { listMeterChecks } from "../checks/list-meter-checks.ts";
import { makeSetups, type Setups } from "../checks/setups.ts";
import { complaintEvidence } from "../predict/symptom-evidence.ts";
import { localPoints, pointsOfFaults, type LocalPoints } from "../predict/local-circuit.ts";
import { openLineOhm } from "../predict/ohm-path.ts";
import { makeReadingStore, type ReadingStore } from "../predict/reading-store.ts";

/** Everything about a complaint that does not depend on readings. */
export interface DiagnosisModel {
  readonly harness: Harness;
  readonly scope: Scope;
  readonly hypotheses: readonly Hypothesis[];
  /** Names of the repair groups. */
  readonly groups: readonly string[];
  /** Weights beforehand, one a hypothesis and a last one for "something else"; they add up to 1. */
  readonly priors: Float64Array;
  /** What codes and functions say. */
  readonly evidence: readonly Evidence[];
  readonly checks: ReadonlyMap<string, Check>;
  readonly setups: Setups;
  /** Reading of a check with the machine healthy, and under some hypotheses while they fail, on the axis of its unit. */
  readonly readings: (
    check: MeterCheck,
    hypotheses: readonly number[],
  ) => { readonly normal: number; readonly faulty: Float64Array };
}

/** What a workup is made from. */
interface ModelQuestion {
  readonly facts: Pick<JobFacts, "complaint" | "codes" | "symptoms" | "adapters" | "priors">;
  /** Whether two faults at once are looked at too. */
  readonly hasPairs: boolean;
}

// A workup depends on nothing but the harness and the question. The last few are kept, because every step of a job asks for the same.
const kept = new WeakMap<Harness, readonly { readonly key: string; readonly model: DiagnosisModel }[]>();
const MOST_KEPT = 4;

/**
 * Works a complaint up: circuits concerned, what may be the fault and how likely it is beforehand, every permitted check. Readings are
 * worked out when they are asked for.
 */
export function makeDiagnosisModel(harness: Harness, question: ModelQuestion): DiagnosisModel {
  const key = keyOf(question);
  const before = kept.get(harness) ?? [];
  const known = before.find((each) => each.key === key);
  if (known) return known.model;
  const model = workUp(harness, question);
  kept.set(harness, [{ key, model }, ...before].slice(0, MOST_KEPT));
  return model;
}

function keyOf({ facts, hasPairs }: ModelQuestion): string {
  const { complaint, codes, symptoms, adapters, priors } = facts;
  const edits = priors.map(({ of, factor, origin }) => [of, factor, origin]);
  return JSON.stringify([complaint, [...codes], [...symptoms], adapters && [...adapters], edits, hasPairs]);
}

function workUp(harness: Harness, { facts, hasPairs }: ModelQuestion): DiagnosisModel {
  const bad = [...facts.symptoms].filter(([, is]) => is === "bad").map(([item]) => item);
  const codes = [...facts.codes].filter(([, status]) => status !== "not-present").map(([code]) => code);
  const scope = findScope(harness, [...codes, ...bad]);
  const listed = listHypotheses(
    listCandidates(harness, scope, { complaint: facts.complaint, edits: facts.priors, failing: bad }),
  );
  const single = bad.length > 0 && codes.length === 0 ? withNoFault(listed) : listed;
  const setsOf = (hypotheses: readonly Hypothesis[]): readonly (readonly Fault[])[] => [
    [],
    ...hypotheses.map(({ faults }) => faults),
  ];
  const singleEvidence = complaintEvidence(harness, facts, setsOf(single.hypotheses), scope);
  const { hypotheses, groups } = hasPairs ? withPairs(single, singleEvidence) : single;
  const faultSets = setsOf(hypotheses);
  const evidence = hasPairs ? complaintEvidence(harness, facts, faultSets, scope) : singleEvidence;
  const meterChecks = listMeterChecks(harness, scope, facts.adapters ? { adapters: facts.adapters } : {});
  const checks = new Map<string, Check>(
    [...meterChecks, ...listInspectionChecks(harness, hypotheses)].map((check) => [check.key, check]),
  );
  return {
    harness,
    scope,
    hypotheses,
    groups,
    priors: makePriors(hypotheses),
    evidence,
    checks,
    setups: makeSetups(harness.document.states),
    readings: makeReadings(harness, meterChecks, {
      faultSets,
      points: pointsOf(harness, scope, { checks: meterChecks, faultSets }),
    }),
  };
}

/** Where only functions fail and no code is set, nothing electrical may be wrong at all. */
function withNoFault({ hypotheses, groups }: HypothesisList): HypothesisList {
  const weight = PRIORS.notElectrical * hypotheses.reduce((sum, each) => sum + each.weight, 0);
  const sound = { candidates: [], level: 0, faults: [], isIntermittent: false, weight, group: groups.length };
  return hypotheses.length === 0
    ? { hypotheses, groups }
    : { hypotheses: [...hypotheses, sound], groups: [...groups, NO_ELECTRICAL_FAULT] };
}

function makePriors(hypotheses: readonly Hypothesis[]): Float64Array {
  const total = hypotheses.reduce((sum, { weight }) => sum + weight, 0);
  const share = (1 - PRIORS.somethingElse) / (total > 0 ? total : 1);
  return Float64Array.of(...hypotheses.map(({ weight }) => weight * share), PRIORS.somethingElse);
}

function pointsOf(
  harness: Harness,
  scope: Scope,
  { checks, faultSets }: { readonly checks: readonly MeterCheck[]; readonly faultSets: readonly (readonly Fault[])[] },
): LocalPoints {
  const measured = checks.flatMap(({ red, black }) => [red.at ?? "", black.at ?? ""]);
  const points = [...pointsOfFaults(harness, faultSets), ...measured];
  return localPoints(harness, scope, { points, connectors: checks.flatMap(({ need }) => need.unplugged) });
}

function makeReadings(
  harness: Harness,
  checks: readonly MeterCheck[],
  { faultSets, points }: { readonly faultSets: readonly (readonly Fault[])[]; readonly points: LocalPoints },
): DiagnosisModel["readings"] {
  const testSetups = new Map<string, MeterCheck[]>();
  for (const check of checks) {
    addTo(testSetups, setupKey(check), check);
  }
  const stores = new Map<string, { readonly store: ReadingStore; readonly rows: ReadonlyMap<string, number> }>();
  return (check, hypotheses) => {
    const key = setupKey(check);
    let of = stores.get(key);
    if (!of) {
      const list = testSetups.get(key) ?? [check];
      const pairs = list.map(({ kind, red, black }): TablePair => ({ kind, red: red.at ?? "", black: black.at ?? "" }));
      const setup = { state: check.need.state, unplugged: check.need.unplugged };
      const store = makeReadingStore(harness, { setup, pairs, faultSets, points });
      of = { store, rows: new Map(list.map((each, index) => [each.key, index])) };
      stores.set(key, of);
    }
    const { store, rows } = of;
    const row = rows.get(check.key) ?? -1;
    const normal = store.at(row, 0);
    const most = check.kind === "resistance" ? toScale(openLineOhm(fromScale(normal, "Ω")), "Ω") : Infinity;
    const faulty = new Float64Array(hypotheses.length);
    hypotheses.forEach((index, at) => {
      const point = store.at(row, index + 1);
      faulty[at] = point > most ? OVER_RANGE : point;
    });
    return { normal, faulty };
  };
}

function setupKey({ need }: MeterCheck): string {
  return `${need.state}|${need.unplugged.join()}`;
}

/** At most so many pairs are added: each costs solutions in every state. */
const MOST_PAIRS = 60;
/** Of what explains one observation, the most likely so many are paired. */
const MOST_EXPLAINING = 14;
/** A hypothesis explains an observation if it gives it at least this share of the best likelihood. */
const EXPLAINS = 0.3;

/**
 * Adds pairs of faults that together explain what was found: the smallest sets that hold an explanation of every observation.
 *
 * @param single Hypotheses of one fault each.
 * @param evidence What codes and functions say of them.
 * @returns The same hypotheses, then the pairs, each a repair group of its own. A pair weighs the product of its two shares.
 */
function withPairs(single: HypothesisList, evidence: readonly Evidence[]): HypothesisList {
  const { hypotheses, groups } = single;
  const total = hypotheses.reduce((sum, { weight }) => sum + weight, 0);
  const telling = evidence.filter(({ likelihoods }) => Math.max(...likelihoods) > 0.5);
  const conflicts = telling.map((each) => explaining(hypotheses, each));
  const sets = conflicts.length < 2 ? everyPair(hypotheses) : minimalHittingSets(conflicts.slice(0, 6), 2);
  const pairs = sets
    .flatMap(([first, second]) => {
      const [a, b] = [hypotheses[first ?? -1], hypotheses[second ?? -1]];
      if (!a || !b || a.group === b.group || !isPairable(a) || !isPairable(b)) return [];
      return [{ a, b, weight: (a.weight * b.weight) / total }];
    })
    .sort((one, other) => other.weight - one.weight)
    .slice(0, MOST_PAIRS);
  return {
    groups: [...groups, ...pairs.map(({ a, b }) => `${groups[a.group] ?? ""} and ${groups[b.group] ?? ""}`)],
    hypotheses: [
      ...hypotheses,
      ...pairs.map(({ a, b, weight }, index): Hypothesis => ({
        candidates: [...a.candidates, ...b.candidates],
        level: 0,
        faults: [...a.faults, ...b.faults],
        isIntermittent: false,
        weight,
        group: groups.length + index,
      })),
    ],
  };
}

function isPairable({ isIntermittent, faults }: Hypothesis): boolean {
  return !isIntermittent && faults.length > 0;
}

function explaining(hypotheses: readonly Hypothesis[], { likelihoods }: Evidence): readonly number[] {
  const best = likelihoods.reduce((most, each) => Math.max(most, each), 0);
  return mostLikely(hypotheses, (index) => (likelihoods[index] ?? 0) >= EXPLAINS * best);
}

function everyPair(hypotheses: readonly Hypothesis[]): readonly (readonly number[])[] {
  const all = mostLikely(hypotheses, () => true);
  return all.flatMap((first, at) => all.slice(at + 1).map((second) => [first, second]));
}

function mostLikely(hypotheses: readonly Hypothesis[], isWanted: (index: number) => boolean): readonly number[] {
  return [...hypotheses.keys()]
    .filter(isWanted)
    .sort((a, b) => (hypotheses[b]?.weight ?? 0) - (hypotheses[a]?.weight ?? 0))
    .slice(0, MOST_EXPLAINING);
}

/**
 * Every smallest set that holds at least one member of each conflict: the sets of faults that explain all observations together when
 * each conflict lists what could explain one of them. Smallest means that no member can be left out.
 *
 * @param conflicts The conflicts; an empty one cannot be met, so there is no answer.
 * @param mostMembers Sets with more members than this are left out.
 * @returns The sets, members in rising order, smaller sets first.
 *
 * Source: R. Reiter, A theory of diagnosis from first principles, Artificial Intelligence 32 (1987) 57-95; worked out here by widening
 * partial sets one conflict at a time.
 * @example
 * ```ts
 * import { minimalHittingSets } from "ohmward/diagnosis";
 * expect(minimalHittingSets([["W74", "B6"], ["B6", "W78"]])).toEqual([["B6"], ["W74", "W78"]]);
 * ```
 */
export function minimalHittingSets<Member extends string | number>(
  conflicts: readonly (readonly Member[])[],
  mostMembers = Infinity,
): readonly (readonly Member[])[] {
  let sets: readonly (readonly Member[])[] = [[]];
  for (const conflict of conflicts) {
    const meeting = sets.filter((set) => set.some((member) => conflict.includes(member)));
    const missing = sets.filter((set) => !set.some((member) => conflict.includes(member)));
    const widened = missing
      .filter((set) => set.length < mostMembers)
      .flatMap((set) => [...new Set(conflict)].map((member) => [...set, member]));
    sets = withoutSupersets([...meeting, ...widened]);
  }
  return sets.map((set) => [...set].sort(compare)).sort((a, b) => a.length - b.length || compareLists(a, b));
}

function withoutSupersets<Member>(sets: readonly (readonly Member[])[]): readonly (readonly Member[])[] {
  const kept: (readonly Member[])[] = [];
  for (const set of [...sets].sort((a, b) => a.length - b.length)) {
    if (!kept.some((smaller) => smaller.every((member) => set.includes(member)))) kept.push(set);
  }
  return kept;
}

function compare(a: string | number, b: string | number): number {
  if (a === b) return 0;
  return a < b ? -1 : 1;
}

function compareLists(a: readonly (string | number)[], b: readonly (string | number)[]): number {
  const differing = a.findIndex((member, index) => member !== b[index]);
  return differing < 0 ? 0 : compare(a[differing] ?? 0, b[differing] ?? 0);
}

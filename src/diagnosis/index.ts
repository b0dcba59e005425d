// Floor 4: from a complaint to the next check, and from a reading to what is left.
export { allCases, isSettled, splitCases, weightOf, type Cases } from "./plan/cases.ts";
export { alphabeticPlan, type AlphabeticPlan } from "./plan/alphabetic-plan.ts";
export { chooseTest, type ChooseOptions, type ChosenTest } from "./plan/choose-test.ts";
export { entropyBits, informationBits } from "./plan/information.ts";
export { exactPlan, type ExactPlan } from "./plan/exact-plan.ts";
export { huffmanCost } from "./plan/huffman-cost.ts";
export { makePlanProblem, type OutcomeTable } from "./plan/make-plan-problem.ts";
export { minutesOfOrder, repairOrder, type RepairChoice, type RepairOrder } from "./plan/repair-order.ts";
export { modeSetup, noSetup, type PlanProblem, type PlanTest, type SetupModel } from "./plan/plan-problem.ts";
export { policyMinutes } from "./plan/policy-minutes.ts";
export { rankTests, type RankedTest } from "./plan/rank-tests.ts";
export { minimalConflicts, minimalDiagnoses } from "./conflicts/minimal-diagnoses.ts";
export { minimalHittingSets } from "./conflicts/minimal-hitting-sets.ts";
export { cautiousLikelihoods, CAUTION, type Caution, type Evidence } from "./belief/evidence.ts";
export { classOf, cutClasses, type OutcomeClasses } from "./belief/cut-classes.ts";
export { FLOATING, fromScale, OVER_RANGE, toScale, UNSTEADY, type MeterUnit } from "./belief/meter-scale.ts";
export { isSurprising } from "./belief/surprise.ts";
export { leadingGroups, type GroupShare } from "./belief/leading-groups.ts";
export { readingLikelihoods, type ReadValue, type ScaleModel, UNKNOWN } from "./belief/reading-likelihood.ts";
export { updateBelief } from "./belief/update-belief.ts";
export type { Candidate, CandidatePlaces, FaultMode, WeightFactor } from "./candidates/candidate.ts";
export { candidateWeight } from "./candidates/candidate.ts";
export { findScope, type Scope } from "./candidates/find-scope.ts";
export { listHypotheses, type Hypothesis, type HypothesisList } from "./candidates/hypothesis.ts";
export { listCandidates, type Beforehand, type PriorEdit } from "./candidates/list-candidates.ts";
export { PRIORS, type PriorTable, type ThingSort } from "./candidates/prior-table.ts";
export {
  isMeterCheck,
  type Check,
  type CheckNeed,
  type CheckPlace,
  type HandCheck,
  type MeterCheck,
} from "./checks/check.ts";
export { COSTS, type CostTable } from "./checks/cost-table.ts";
export { faultyShare, outcomesOf } from "./checks/hand-outcomes.ts";
export { listHandChecks } from "./checks/list-hand-checks.ts";
export { listMeterChecks } from "./checks/list-meter-checks.ts";
export type { Equipment } from "./checks/touch-points.ts";
export { changeSetup, makeSetups, type Setups, type WorkSetup } from "./checks/setups.ts";
export {
  complaintEvidence,
  signShares,
  type AskedSigns,
  type ComplaintFacts,
  type SignShares,
} from "./predict/complaint-evidence.ts";
export { INTERMITTENT_FAILS } from "./predict/scale-model.ts";
export { spreadOf } from "./predict/spread-of.ts";
export { describeCheck } from "./job/describe-check.ts";
export type { DescribedCheck } from "./job/described-check.ts";
export { orderOfRepairs, proofsOf, suspects, type Proof } from "./job/endings.ts";
export { repairMinutes } from "./job/repair-minutes.ts";
export { explainOutcomes, type ExpectedOutcome, type SuspectShare } from "./job/explain-outcomes.ts";
export { needsProof, outcomeEvidence } from "./job/evidence-of-reading.ts";
export type { JobState } from "./job/job-state.ts";
export { nextCheck, type DescribedChoice, type ProposedCheck, type Suggestion } from "./job/next-check.ts";
export { outcomeChoices, parseReading, type ReadingContext, type ReadingProblem } from "./job/parse-reading.ts";
export { readingScale, voltScale } from "./job/reading-scale.ts";
export type { JobPlan } from "./job/make-plan.ts";
export { planNext, type PlannedCheck } from "./job/plan-next.ts";
export { repairNotes } from "./job/repair-notes.ts";
export {
  editReading,
  machineOf,
  noteEvent,
  resumeJob,
  startJob,
  takeReading,
  undo,
  verdictOf,
  type JobFault,
  type NewJob,
  type NewReading,
} from "./job/take-reading.ts";

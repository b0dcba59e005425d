// Floor 4: from a complaint to the next check, and from a reading to what is left.
export {
  allCases,
  isSettled,
  splitCases,
  weightOf,
  type Cases,
  type PlanProblem,
  type SetupModel,
} from "./plan/plan-problem.ts";
export { chooseTest, entropyBits, rankTests, type ChooseOptions } from "./plan/choose-test.ts";
export { minutesOfOrder, repairOrder } from "./plan/repair-order.ts";
export { minimalHittingSets } from "./job/diagnosis-model.ts";
export { CAUTION, cautiousLikelihoods, isImprobable, updateBelief, type Evidence } from "./belief/evidence.ts";
export {
  classOf,
  cutClasses,
  FLOATING,
  fromScale,
  OVER_RANGE,
  readingLikelihoods,
  toleranceOf,
  toScale,
  UNIT_OF_METER,
  UNKNOWN,
  UNSTEADY,
  type MeterUnit,
  type OutcomeClasses,
  type ReadValue,
  type ReadingModel,
} from "./belief/meter-scale.ts";
export {
  topAmbiguityGroups,
  verificationsOf,
  suspects,
  type GroupProbability,
  type Verification,
} from "./job/endings.ts";
export {
  candidateWeight,
  listHypotheses,
  PRIORS,
  type Candidate,
  type FaultMode,
  type Hypothesis,
  type HypothesisList,
} from "./candidates/candidate.ts";
export { findScope, type Scope } from "./candidates/find-scope.ts";
export { listCandidates } from "./candidates/list-candidates.ts";
export { isMeterCheck, type Check, type CheckNeed, type InspectionCheck, type MeterCheck } from "./checks/check.ts";
export { COSTS, repairMinutes } from "./checks/cost-table.ts";
export { faultyShare, NOT_MATED, outcomesOf } from "./checks/inspection-outcomes.ts";
export { listInspectionChecks } from "./checks/list-inspection-checks.ts";
export { changeSetup, makeSetups, type WorkSetup } from "./checks/setups.ts";
export { complaintEvidence, signShares } from "./predict/symptom-evidence.ts";
export { INTERMITTENT_FAILS } from "./predict/reading-model.ts";
export { normalMachine } from "./predict/normal-circuit.ts";
export {
  checkTitle,
  conditionOf,
  describeCheck,
  disconnectedWords,
  type DescribedCheck,
} from "./job/describe-check.ts";
export { explainOutcomes, type ExpectedOutcome, type CandidateProbability } from "./job/explain-outcomes.ts";
export { needsVerification, outcomeEvidence } from "./job/evidence-of-reading.ts";
export type { JobState } from "./job/job-state.ts";
export { nextCheck, type DescribedChoice, type Suggestion } from "./job/next-check.ts";
export { outcomeChoices, parseReading, type ReadingProblem } from "./job/parse-reading.ts";
export { readingScale } from "./job/reading-scale.ts";
export { planNext } from "./job/make-plan.ts";
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
} from "./job/take-reading.ts";

// Floor 7: the door for programs, published as "ohmward": open a machine, ask about its wiring, use its graph.
// "ohmward/import-export" is formats.ts, "ohmward/diagnosis" is diagnosis.ts.
export type { Result } from "../base/index.ts";
export {
  fitBuild,
  harnessGraph,
  type Harness,
  type HarnessDocument,
  type HarnessGraph,
  type Problem,
} from "../harness-model/index.ts";
export {
  openMachine,
  writeAnswer,
  type PathAnswer as PathAnswer,
  type ChooseAnswer,
  type ExpectedReadingAnswer as ExpectedReadingAnswer,
  type FindAnswer,
  type Machine,
  type NoPathAnswer,
  type OpenSetting as Where,
  type TestPointsAnswer as TestPointsAnswer,
  type CommonAnswer as CommonAnswer,
  type CircuitAnswer as CircuitAnswer,
  type UnresolvedAnswer,
  type OpenEffectAnswer as OpenEffectAnswer,
  type WrongQuestionAnswer,
} from "../application/index.ts";
export { circuit, common, expectedReading, find, openEffect, path, testPoints } from "./questions.ts";

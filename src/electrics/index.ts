// Floor 2: what a meter says at a point in a state, healthy or faulty, from a direct-current model.
export { applyFaults, isTouch, withReadyPlaces } from "./faults/apply-faults.ts";
export { type Fault, FAULT_KINDS, type FaultProblem, formatFault, parseFault } from "./faults/fault.ts";
export {
  type Because,
  HAND_METER,
  type Leads,
  type MeterFunction,
  meterLimit,
  type MeterSpec,
  type PlainReading,
  type Probe,
  type Reading,
  type ReadingUnit,
} from "./meters/reading.ts";
export { type MeterQuestion, OHMS_NO_EVIDENCE, readMeter } from "./meters/read-meter.ts";
export { branchAmpere, islandName, nodeVolts, type NodeVolts, pointNumber } from "./network/node-volts.ts";
export { buildParts } from "./network/build-parts.ts";
export { dutyOhm, type Modes, settle, type Settled, type Unsettled } from "./network/settle.ts";
export type {
  Assumption,
  CoilPart,
  Control,
  ModuleNeed,
  Part,
  PartGroup,
  PartList,
  QuestionProblem,
  Situation,
  Stand,
  StandOf,
} from "./network/part.ts";
export { reduceList } from "./network/reduce-list.ts";
export { type CircuitAnswer, solveCircuit, type WrongQuestion } from "./network/solve-circuit.ts";
export {
  type ContradictoryNetwork,
  ohmBetween,
  type SolvedNetwork,
  solveNetwork,
  voltsOfUnitCurrent,
} from "./solver/solve-network.ts";
export type { BranchShape, BranchValues, DcBranch, DcNetwork } from "./solver/branch-set.ts";
export { lookFromTwoPoints, type ReducedNetwork, reduceNetwork, type TwoPoints } from "./solver/reduce-network.ts";
export {
  type CableRow,
  type Confidence,
  COPPER_OHM_MM2_PER_METRE,
  COPPER_PER_KELVIN,
  copperFactor,
  IEC_60228_CLASS_5,
  ISO_6722,
  type Sourced,
  type WireAnswer,
  type WireQuestion,
  wireResistance,
  type WireStandard,
} from "./tables/wire-resistance.ts";
export { type JointOhm, SPLICE_LEG, typicalContact, typicalRing } from "./tables/typical-parts.ts";
export { type ThermistorCurve, thermistorOhm } from "./tables/thermistor.ts";
export {
  readingTable,
  type ReadingTable,
  TABLE_KINDS,
  type TablePair,
  type TableQuestion,
} from "./views/reading-table.ts";
export { readingsAlong, type ReadingsAlong, type StopReading } from "./views/readings-along.ts";

// Floor 2: what a meter says at a point in a state, healthy or faulty, from a direct-current model.
export { applyFaults, isTouch, withReadyPlaces } from "./faults/apply-faults.ts";
export { FAULT_KINDS, formatFault, parseFault, type Fault } from "./faults/fault.ts";
export {
  HAND_METER,
  meterLimit,
  type Because,
  type MeterFunction,
  type MeterSpec,
  type PlainReading,
  type Probe,
  type Reading,
} from "./meters/reading.ts";
export { areOhmsKnown, ohmsBetween, type OhmsBetween } from "./meters/ohms-between.ts";
export { OHMS_NO_EVIDENCE, readMeter } from "./meters/read-meter.ts";
export { drivenAmpere, nodeVolts, type NodeVolts } from "./network/node-volts.ts";
export { buildParts } from "./network/build-parts.ts";
export { settle, withHiddenTimes, type OperatingPoint } from "./network/settle.ts";
export type { Part, PartList, QuestionProblem, OperatingConditions } from "./network/part.ts";
export { nearbySolutions, type NearbySolutions } from "./network/nearby-solutions.ts";
export { reduceList } from "./network/reduce-list.ts";
export { fusesBlown, solveCircuit, type SolvedCircuit } from "./network/solve-circuit.ts";
export { ohmBetween, voltsOfUnitCurrent, type SolvedNetwork } from "./solver/solve-network.ts";
export {
  COPPER_OHM_MM2_PER_METRE,
  copperFactor,
  IEC_60228_CLASS_5,
  ISO_6722,
  wireResistance,
} from "./tables/wire-resistance.ts";
export { typicalContact, typicalRing } from "./tables/typical-parts.ts";
export { thermistorOhm } from "./tables/thermistor.ts";
export {
  functionGrade,
  functionShare,
  GRADE_LIMITS,
  type FunctionGrade,
  type FunctionShare,
} from "./views/function-share.ts";
export { readingTable, TABLE_KINDS, type ReadingTable, type TablePair } from "./views/reading-table.ts";
export { readingsAlong, type ReadingsAlong } from "./views/readings-along.ts";

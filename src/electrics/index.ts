// Floor 2: what a meter says at a point in a state, healthy or faulty, from a direct-current model.
export { applyFaults } from "./faults/apply-faults.ts";
export { FAULT_KINDS, type Fault } from "./faults/fault.ts";
export { formatFault } from "./faults/format-fault.ts";
export { parseFault, type FaultProblem } from "./faults/parse-fault.ts";
export { withReadyPlaces } from "./faults/ready-places.ts";
export { isTouch } from "./faults/touch.ts";
export { HAND_METER, meterLimit, type MeterFunction, type MeterSpec } from "./meters/meter-spec.ts";
export { OHMS_NO_EVIDENCE } from "./meters/read-ohms.ts";
export { readMeter, type MeterQuestion } from "./meters/read-meter.ts";
export type { Because, Leads, PlainReading, Probe, Reading, ReadingUnit } from "./meters/reading.ts";
export { branchAmpere } from "./network/branch-ampere.ts";
export { buildParts } from "./network/build-parts.ts";
export { dutyOhm } from "./network/duty.ts";
export type { Modes } from "./network/modes.ts";
export { islandName, nodeVolts, pointNumber, type NodeVolts } from "./network/node-volts.ts";
export type { Assumption, CoilPart, Control, ModuleNeed, Part, PartGroup, PartList } from "./network/part.ts";
export { reduceList } from "./network/reduce-list.ts";
export { settle, type Settled, type Unsettled } from "./network/settle.ts";
export type { QuestionProblem, Situation, Stand, StandOf } from "./network/situation.ts";
export { solveCircuit, type CircuitAnswer, type WrongQuestion } from "./network/solve-circuit.ts";
export { ohmBetween, voltsOfUnitCurrent } from "./solver/ask-solved.ts";
export type { BranchShape, BranchValues, DcBranch, DcNetwork } from "./solver/branch-set.ts";
export { reduceNetwork, type ReducedNetwork } from "./solver/reduce-network.ts";
export { solveNetwork, type ContradictoryNetwork, type SolvedNetwork } from "./solver/solve-network.ts";
export { lookFromTwoPoints, type TwoPoints } from "./solver/two-points.ts";
export { awgCrossSectionMm2, awgDiameterMm, awgSolidOhmPerKm, type AwgNumber } from "./tables/awg.ts";
export { COPPER_OHM_MM2_PER_METRE, COPPER_PER_KELVIN, copperFactor } from "./tables/copper.ts";
export { IEC_60228_CLASS_5 } from "./tables/iec-60228-class-5.ts";
export { ISO_6722 } from "./tables/iso-6722.ts";
export { SPLICE_LEG, typicalContact, typicalRing, type JointOhm } from "./tables/joint-resistance.ts";
export type { CableRow, Confidence, Sourced } from "./tables/sourced.ts";
export { thermistorOhm, type ThermistorCurve } from "./tables/thermistor.ts";
export { wireResistance, type WireAnswer, type WireQuestion, type WireStandard } from "./tables/wire-resistance.ts";
export { changedReadings, type ChangedReading } from "./views/changed-readings.ts";
export { circuitTable, type StateColumn } from "./views/circuit-table.ts";
export {
  readingTable,
  TABLE_KINDS,
  type ReadingTable,
  type TablePair,
  type TableQuestion,
} from "./views/reading-table.ts";
export { readingsAlong, type ReadingsAlong, type StopReading } from "./views/readings-along.ts";

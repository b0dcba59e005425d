// Floor 2: the questions asked of the graph. Each is a function (harness, question) -> answer.
export { collectItems, edgeItem, jointId, nodeItem, pathItems } from "./collect-items.ts";
export { itemKey, type Item, type ItemType } from "./item.ts";
export { find, type FindOptions, type Hit } from "./find.ts";
export {
  findBetween,
  type BetweenAnswer,
  type BetweenFoundAnswer,
  type BetweenNoPathAnswer,
  type BetweenOptions,
} from "./find-between.ts";
export type { Branch } from "./find-branches.ts";
export { findNet, type Net } from "./find-net.ts";
export {
  elementRole,
  railNodes,
  THROUGH,
  waysThrough,
  type ElementRole,
  type RailNodes,
  type Through,
  type Ways,
} from "./passages.ts";
export { resolve, resolveItem, type Resolution, type Resolved } from "./resolve.ts";
export type { Cut } from "./where-cut.ts";
export * from "./graph/index.ts";
export { findCircuits, mainTerminals, type Circuit, type Circuits, type Side, type SideRole } from "./circuits.ts";
export {
  circuitsOf,
  findCircuit,
  type CircuitAnswer,
  type CircuitPart,
  type CircuitSide,
  type NoCircuitAnswer,
} from "./find-circuit.ts";
export {
  findCommon,
  type CommonAnswer,
  type CommonBasis,
  type Mark,
  type Marked,
  type SharedItem,
} from "./find-common.ts";
export { findUnknowns, type Unknowns } from "./find-unknowns.ts";
export { findRoute, type RouteAnswer, type RouteStep, type ZonePassed } from "./find-route.ts";
export { findWithout, type Loss, type Stopped, type WithoutAnswer } from "./find-without.ts";
export { wireLabel } from "./search-entries.ts";
export { describeItem, type ItemFacts, type PartFacts } from "./describe-item.ts";

// Floor 2: the questions asked of the graph. Each is a function (harness, question) -> answer.
export { collectItems, edgeItem, jointId, nodeItem, pathItems, Item, type ItemType } from "./item.ts";
export { ITEM_NAMES } from "./item-names.ts";
export { find, isFuseOrRelay, wireLabel, type Hit } from "./find.ts";
export { findPaths, type FoundPaths, type FoundPath, type BetweenOptions, type Cut } from "./find-paths.ts";
export { findContinuity, type ContinuityPair } from "./find-continuity.ts";
export { findNet } from "./find-net.ts";
export { elementRole, railNodes, THROUGH, waysThrough, type Through } from "./passages.ts";
export { resolve, resolveItem, type Resolved } from "./resolve.ts";
export * from "./graph/index.ts";
export { findCircuits, type Circuit, type SideRole } from "./circuits.ts";
export { circuitsOf, findCircuit, findUnknowns, type FoundCircuits, type CircuitPart } from "./find-circuit.ts";
export { findCommon, type CommonBasis, type Mark, type Marked, type CommonItem } from "./find-common.ts";
export { findRoute } from "./find-route.ts";
export { findOpenEffect, type OpenEffect } from "./find-open-effect.ts";
export { describeItem, ItemFacts, type PartFacts } from "./describe-item.ts";

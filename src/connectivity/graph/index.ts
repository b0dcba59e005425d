/** Questions about the bare graph: what is reached, what lies between, where it is cut, which ways there are. */
export { type NodePair, type Passage } from "./passage.ts";
export { components, reach, type Components, type Reach } from "./reach.ts";
export { findBiconnectedComponents, type BiconnectedComponents } from "./find-biconnected-components.ts";
export { betweenNodes, type Between, type BetweenApart, type BetweenFound } from "./between-nodes.ts";
export { firstBlocked, type Blocked, type CutAt, type PassagePair } from "./first-blocked.ts";
export { shortestPath, type Path, type ShortestPath } from "./shortest-path.ts";
export { shortestSimplePaths, type PathsQuestion, type ShortestPaths } from "./shortest-simple-paths.ts";

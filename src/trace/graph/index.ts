/** Questions about the bare graph: what is reached, what lies between, where it is cut, which ways there are. */
export { openPassage, type Passage } from "./passage.ts";
export type { NodePair } from "./node-pair.ts";
export { reach, type Reach } from "./reach.ts";
export { components, type Components } from "./components.ts";
export type { Blocks } from "./blocks.ts";
export { findBlocks } from "./find-blocks.ts";
export { betweenNodes, type Between, type BetweenApart, type BetweenFound } from "./between-nodes.ts";
export { firstBlocked, type Blocked, type CutAt, type PassagePair } from "./first-blocked.ts";
export { shortestPath, type Path, type ShortestPath } from "./shortest-path.ts";
export { shortestSimplePaths, type PathsQuestion, type ShortestPaths } from "./shortest-simple-paths.ts";

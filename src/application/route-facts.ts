import type { Harness } from "../harness-model/index.ts";
import { findRoute } from "../connectivity/index.ts";
import type { RouteFacts } from "./answer.ts";

/**
 * Where the wires of an answer run.
 *
 * @param harness The harness.
 * @param edges Edge numbers, in the order of the answer.
 */
export function routeFacts(harness: Harness, edges: Iterable<number>): RouteFacts {
  const { steps, zones, unrouted } = findRoute(harness, edges);
  return { steps, zones, unrouted };
}

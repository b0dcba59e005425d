import { unitCurrentVolts } from "./back-substitute.ts";
import type { Factor } from "./eliminate.ts";
import { resistanceBetween } from "./resistance-between.ts";
import type { SolvedNetwork } from "./solve-network.ts";

/**
 * Resistance between two nodes with every source at 0 V, in ohm; Infinity between two islands.
 *
 * @param solved A solved network.
 * @param first One node.
 * @param second The other.
 */
export function ohmBetween(solved: SolvedNetwork, first: number, second: number): number {
  if (solved.islands[first] !== solved.islands[second]) return Infinity;
  const { ofNode, count } = solved.planned.clusters;
  return resistanceBetween(solved.factor, [ofNode[first] ?? 0, ofNode[second] ?? 0], new Float64Array(count));
}

/**
 * Per node the volts that 1 A makes that is led in at one node and out at another of the same island, every source at 0 V.
 *
 * @param solved A solved network.
 * @param into Where the ampere goes in.
 * @param outOf Where it comes out.
 * @returns Not to be written to: asked again for the same two nodes, it is the same list.
 */
export function voltsOfUnitCurrent(solved: SolvedNetwork, into: number, outOf: number): Float64Array {
  const last = lastAsked.get(solved.factor);
  if (last?.into === into && last.outOf === outOf) return last.volts;
  const { ofNode } = solved.planned.clusters;
  const ofCluster = unitCurrentVolts(solved.factor, ofNode[into] ?? 0, ofNode[outOf] ?? 0);
  const volts = new Float64Array(ofNode.length);
  for (let node = 0; node < ofNode.length; node++) volts[node] = ofCluster[ofNode[node] ?? 0] ?? 0;
  lastAsked.set(solved.factor, { into, outOf, volts });
  return volts;
}

// A reading and its band ask for the same two points one after the other.
const lastAsked = new WeakMap<
  Factor,
  { readonly into: number; readonly outOf: number; readonly volts: Float64Array }
>();

import { ohmBetween, type SolvedNetwork } from "ohmward/simulation";
import type { SeededRandom } from "ohmward/base";
import { solveNetwork, type DcNetwork } from "./plain-network.ts";
import type { DcBranch } from "../../../src/simulation/solver/reduce-network.ts";

/** Solves a network that must have a solution. */
export function solved(network: DcNetwork, reference = 0): SolvedNetwork {
  const answer = solveNetwork(network, reference);
  if (answer.kind !== "solved") throw new Error(`Contradictory: ${answer.branches.join(", ")}`);
  return answer;
}

/** Resistance between two nodes of a network. */
export function resistance(network: DcNetwork, first: number, second: number): number {
  return ohmBetween(solved(network), first, second);
}

/** A network of branches of the same resistance. */
export function unitNetwork(nodeCount: number, pairs: readonly (readonly [number, number])[], ohm = 1): DcNetwork {
  return { nodeCount, branches: pairs.map(([from, to]) => ({ from, to, ohm })) };
}

/** How random networks are made. */
export interface RandomNetworkOptions {
  readonly nodes: number;
  readonly extra: number;
  /** Resistances are spread evenly over the logarithm between these, three digits each. */
  readonly leastOhm: number;
  readonly mostOhm: number;
}

/**
 * A connected network: a random tree and some more branches, fed with 12.6 V between nodes 0 and 1 through one more resistance.
 * Resistances are whole multiples of 0.1 mohm.
 */
export function randomNetwork(random: SeededRandom, options: RandomNetworkOptions): DcNetwork {
  const { nodes, extra, leastOhm, mostOhm } = options;
  const draw = (): number => {
    const ohm = leastOhm * (mostOhm / leastOhm) ** random.next();
    return Math.max(1, Math.round(Number(ohm.toPrecision(3)) * 10_000)) / 10_000;
  };
  const branches: DcBranch[] = [{ from: 0, to: 1, ohm: draw(), volt: 12.6 }];
  for (let node = 1; node < nodes; node++) branches.push({ from: random.integer(0, node - 1), to: node, ohm: draw() });
  for (let count = 0; count < extra; count++) {
    const from = random.integer(0, nodes - 1);
    const to = random.integer(0, nodes - 1);
    if (from !== to) branches.push({ from, to, ohm: draw() });
  }
  return { nodeCount: nodes, branches };
}

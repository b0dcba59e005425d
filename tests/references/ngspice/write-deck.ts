import type { DcNetwork } from "../../simulation/support/plain-network.ts";

/** One network of a deck. */
export interface DeckNetwork {
  /** First part of its node names. */
  readonly name: string;
  readonly network: DcNetwork;
  /** The node that is ground. */
  readonly reference: number;
}

/**
 * Writes networks as one ngspice deck; they share ground and nothing else. A node is `n<name>_<number>`. Branches without a way to
 * ground are left out, because ngspice cannot place a floating node.
 */
export function writeDeck(title: string, networks: readonly DeckNetwork[]): string {
  const lines = networks.flatMap((each) => branchLines(each));
  return [title, ...lines, ".control", "set numdgt=16", "op", "print all", ".endc", ".end", ""].join("\n");
}

function branchLines({ name, network, reference }: DeckNetwork): readonly string[] {
  const tied = tiedNodes(network, reference);
  const node = (number: number): string => (number === reference ? "0" : `n${name}_${number}`);
  return network.branches.flatMap(({ from, to, ohm, volt = 0 }, at) => {
    if (ohm === Infinity || !tied.has(from) || from === to) return [];
    const id = `${name}_${at}`;
    if (ohm === 0) return [`V${id} ${node(to)} ${node(from)} ${volt}`];
    if (volt === 0) return [`R${id} ${node(from)} ${node(to)} ${ohm}`];
    return [`R${id} ${node(from)} m${id} ${ohm}`, `V${id} ${node(to)} m${id} ${volt}`];
  });
}

function tiedNodes({ branches }: DcNetwork, reference: number): ReadonlySet<number> {
  const neighbours = new Map<number, number[]>();
  for (const { from, to, ohm } of branches) {
    if (ohm === Infinity) continue;
    neighbours.set(from, [...(neighbours.get(from) ?? []), to]);
    neighbours.set(to, [...(neighbours.get(to) ?? []), from]);
  }
  const tied = new Set([reference]);
  for (const node of tied) for (const next of neighbours.get(node) ?? []) tied.add(next);
  return tied;
}

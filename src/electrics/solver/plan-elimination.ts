import { AdjacentSlots } from "./adjacent-slots.ts";
import { DegreeQueue } from "./degree-queue.ts";
import type { Clusters } from "./join-ideal.ts";
import type { BranchShape } from "./branch-set.ts";

/**
 * In which order the clusters of a network are eliminated and where each step puts its numbers; depends on the shape alone.
 *
 * A slot is a pair of clusters with a conductance between them; its low cluster is the one with the smaller number. Step `s`
 * eliminates `order[s]`, whose neighbours then stand in `neighbours` from `offsets[s]` to `offsets[s + 1] - 1`.
 */
export interface EliminationPlan {
  readonly clusterCount: number;
  readonly order: Int32Array;
  /** Per cluster: the step that eliminates it, or -1 if it is kept. */
  readonly stepOf: Int32Array;
  readonly offsets: Int32Array;
  readonly neighbours: Int32Array;
  /** Per neighbour: the slot between it and the eliminated cluster. */
  readonly slots: Int32Array;
  /** Per step: where its pairs of neighbours start in `pairSlots`, first with each later one, second with each later one... */
  readonly pairOffsets: Int32Array;
  readonly pairSlots: Int32Array;
  /** Per step: the neighbour that goes first, or -1 for none. */
  readonly parents: Int32Array;
  readonly slotLow: Int32Array;
  readonly slotHigh: Int32Array;
  /** Per branch: its slot, or -1 if both ends lie in one cluster. */
  readonly branchSlots: Int32Array;
}

/**
 * Plans the elimination by minimum degree: always the cluster with the fewest neighbours left, which keeps a tree a tree.
 *
 * Source: the minimum-degree rule is that of Tinney and Walker, "Direct solutions of sparse network equations by optimally
 * ordered triangular factorization", Proceedings of the IEEE 55 (1967) 1801-1809 (from memory).
 *
 * @param shape Where the branches run.
 * @param clusters Which nodes are one.
 * @param keep Clusters that are never eliminated.
 */
export function planElimination(shape: BranchShape, clusters: Clusters, keep: readonly number[]): EliminationPlan {
  const adjacent = new AdjacentSlots(clusters.count);
  const branchSlots = adjacent.addBranches(shape, clusters);
  const kept = new Set(keep);
  const queue = new DegreeQueue(clusters.count);
  for (let cluster = 0; cluster < clusters.count; cluster++) {
    if (!kept.has(cluster)) queue.put(cluster, adjacent.degree(cluster));
  }
  const steps = new StepList(clusters.count);
  for (let cluster = queue.take(adjacent); cluster !== undefined; cluster = queue.take(adjacent)) {
    const found = adjacent.neighboursByDegree(cluster);
    steps.start(cluster, found.nodes, found.slots);
    adjacent.remove(cluster);
    adjacent.joinAll(found.nodes, steps.pairSlots);
    for (const node of found.nodes) if (!kept.has(node)) queue.put(node, adjacent.degree(node));
  }
  return { clusterCount: clusters.count, branchSlots, ...steps.finish(), ...adjacent.ends() };
}

/** Collects the steps of a plan. */
class StepList {
  readonly pairSlots: number[] = [];
  readonly #order: number[] = [];
  readonly #stepOf: Int32Array;
  readonly #offsets: number[] = [];
  readonly #neighbours: number[] = [];
  readonly #slots: number[] = [];
  readonly #pairOffsets: number[] = [];

  constructor(clusterCount: number) {
    this.#stepOf = new Int32Array(clusterCount).fill(-1);
  }

  start(cluster: number, nodes: readonly number[], slots: readonly number[]): void {
    this.#stepOf[cluster] = this.#order.length;
    this.#order.push(cluster);
    this.#offsets.push(this.#neighbours.length);
    this.#pairOffsets.push(this.pairSlots.length);
    for (const node of nodes) this.#neighbours.push(node);
    for (const slot of slots) this.#slots.push(slot);
  }

  finish(): Omit<EliminationPlan, "clusterCount" | "branchSlots" | "slotLow" | "slotHigh"> {
    const parents = this.#order.map((_, step) => this.#parent(step));
    return {
      order: Int32Array.from(this.#order),
      stepOf: this.#stepOf,
      offsets: Int32Array.from([...this.#offsets, this.#neighbours.length]),
      neighbours: Int32Array.from(this.#neighbours),
      slots: Int32Array.from(this.#slots),
      pairOffsets: Int32Array.from(this.#pairOffsets),
      pairSlots: Int32Array.from(this.pairSlots),
      parents: Int32Array.from(parents),
    };
  }

  #parent(step: number): number {
    let parent = -1;
    let earliest = Infinity;
    const end = this.#offsets[step + 1] ?? this.#neighbours.length;
    for (let at = this.#offsets[step] ?? 0; at < end; at++) {
      const node = this.#neighbours[at] ?? 0;
      const goes = this.#stepOf[node] ?? -1;
      if (goes >= 0 && goes < earliest) {
        earliest = goes;
        parent = node;
      }
    }
    return parent;
  }
}

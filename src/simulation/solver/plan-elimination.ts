import type { BranchShape } from "./branch-set.ts";
import type { Clusters } from "./merge-ideal-nodes.ts";

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
 * Source: the minimum-degree rule is that of Tinney and Walker, "Direct solutions of sparse network equations by optimally ordered
 * triangular factorization", Proceedings of the IEEE 55 (1967) 1801-1809 (from memory).
 */
export function planElimination(shape: BranchShape, clusters: Clusters, keep: readonly number[]): EliminationPlan {
  const adjacent = new AdjacentSlots(clusters.count);
  const branchSlots = adjacent.addBranches(shape, clusters);
  const kept = new Set(keep);
  const queue = new MinimumDegreeQueue(clusters.count);
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

/** Which clusters are joined by which slot while an elimination is planned. */
class AdjacentSlots {
  readonly #low: number[] = [];
  readonly #high: number[] = [];
  readonly #slotsOf: number[][];
  readonly #degrees: Int32Array;
  readonly #isGone: Uint8Array;
  // Scratch for looking up the slot between two clusters: valid where the stamp is the current one.
  readonly #stamps: Int32Array;
  readonly #marked: Int32Array;
  #stamp = 0;

  constructor(clusterCount: number) {
    this.#slotsOf = Array.from({ length: clusterCount }, () => []);
    this.#degrees = new Int32Array(clusterCount);
    this.#isGone = new Uint8Array(clusterCount);
    this.#stamps = new Int32Array(clusterCount);
    this.#marked = new Int32Array(clusterCount);
  }

  /** Gives every branch a slot, parallel branches the same one. */
  addBranches(shape: BranchShape, { count, ofNode }: Clusters): Int32Array {
    const branchCount = shape.from.length;
    const branchSlots = new Int32Array(branchCount).fill(-1);
    const byLow: number[][] = Array.from({ length: count }, () => []);
    const high = new Int32Array(branchCount);
    for (let branch = 0; branch < branchCount; branch++) {
      const a = ofNode[shape.from[branch] ?? 0] ?? 0;
      const b = ofNode[shape.to[branch] ?? 0] ?? 0;
      if (a === b) continue;
      byLow[Math.min(a, b)]?.push(branch);
      high[branch] = Math.max(a, b);
    }
    byLow.forEach((branches, low) => {
      this.#stamp++;
      for (const branch of branches) branchSlots[branch] = this.#slotTo(low, high[branch] ?? 0);
    });
    return branchSlots;
  }

  degree(cluster: number): number {
    return this.#degrees[cluster] ?? 0;
  }

  /** The neighbours of a cluster, fewest neighbours of their own first, with the slots to them. */
  neighboursByDegree(cluster: number): { readonly nodes: readonly number[]; readonly slots: readonly number[] } {
    const slots = this.#liveSlots(cluster);
    if (slots.length > 1) {
      slots.sort((a, b) => this.degree(this.#other(a, cluster)) - this.degree(this.#other(b, cluster)));
    }
    return { nodes: slots.map((slot) => this.#other(slot, cluster)), slots: [...slots] };
  }

  /** Takes a cluster out; its neighbours have one neighbour less. */
  remove(cluster: number): void {
    for (const slot of this.#slotsOf[cluster] ?? []) {
      const other = this.#other(slot, cluster);
      this.#degrees[other] = this.degree(other) - 1;
    }
    this.#isGone[cluster] = 1;
    this.#slotsOf[cluster] = [];
  }

  /** Joins every two of the given clusters and appends the slots, first with each later one, second with each later one... */
  joinAll(nodes: readonly number[], pairSlots: number[]): void {
    for (let first = 0; first + 1 < nodes.length; first++) {
      const node = nodes[first] ?? 0;
      this.#mark(node);
      for (let second = first + 1; second < nodes.length; second++)
        pairSlots.push(this.#slotTo(node, nodes[second] ?? 0));
    }
  }

  /** The two clusters of every slot. */
  ends(): { readonly slotLow: Int32Array; readonly slotHigh: Int32Array } {
    return { slotLow: Int32Array.from(this.#low), slotHigh: Int32Array.from(this.#high) };
  }

  #mark(cluster: number): void {
    this.#stamp++;
    for (const slot of this.#liveSlots(cluster)) {
      const other = this.#other(slot, cluster);
      this.#stamps[other] = this.#stamp;
      this.#marked[other] = slot;
    }
  }

  #slotTo(cluster: number, other: number): number {
    if (this.#stamps[other] === this.#stamp) return this.#marked[other] ?? 0;
    const slot = this.#low.length;
    this.#low.push(Math.min(cluster, other));
    this.#high.push(Math.max(cluster, other));
    for (const end of [cluster, other]) {
      this.#slotsOf[end]?.push(slot);
      this.#degrees[end] = this.degree(end) + 1;
    }
    this.#stamps[other] = this.#stamp;
    this.#marked[other] = slot;
    return slot;
  }

  #other(slot: number, cluster: number): number {
    const low = this.#low[slot] ?? 0;
    return low === cluster ? (this.#high[slot] ?? 0) : low;
  }

  /** The slots of a cluster whose other end is still there; the list is tidied on the way, so that each dead slot is met once. */
  #liveSlots(cluster: number): number[] {
    const slots = this.#slotsOf[cluster] ?? [];
    let live = 0;
    for (const slot of slots) {
      if (this.#isGone[this.#other(slot, cluster)] !== 1) slots[live++] = slot;
    }
    slots.length = live;
    return slots;
  }
}

/** Tells how many neighbours a cluster has now. */
interface Degrees {
  degree(cluster: number): number;
}

/** Clusters waiting to be eliminated, fewest neighbours first. Entries are stale once the degree has changed, and are then passed over. */
class MinimumDegreeQueue {
  readonly #stacks: number[][] = [];
  readonly #waiting: Uint8Array;
  #lowest = 0;

  constructor(clusterCount: number) {
    this.#waiting = new Uint8Array(clusterCount);
  }

  /** Puts a cluster in, or again at its new degree. */
  put(cluster: number, degree: number): void {
    while (this.#stacks.length <= degree) this.#stacks.push([]);
    this.#stacks[degree]?.push(cluster);
    this.#waiting[cluster] = 1;
    if (degree < this.#lowest) this.#lowest = degree;
  }

  /** Takes the next cluster out, or undefined when none is left. */
  take(degrees: Degrees): number | undefined {
    while (this.#lowest < this.#stacks.length) {
      const cluster = this.#stacks[this.#lowest]?.pop();
      if (cluster === undefined) this.#lowest++;
      else if (this.#waiting[cluster] === 1 && degrees.degree(cluster) === this.#lowest) {
        this.#waiting[cluster] = 0;
        return cluster;
      }
    }
    return undefined;
  }
}

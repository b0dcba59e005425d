import type { BranchShape } from "./branch-set.ts";
import type { Clusters } from "./join-ideal.ts";

/** Which clusters are joined by which slot while an elimination is planned. */
export class AdjacentSlots {
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

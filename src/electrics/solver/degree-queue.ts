/** Tells how many neighbours a cluster has now. */
export interface Degrees {
  degree(cluster: number): number;
}

/** Clusters waiting to be eliminated, fewest neighbours first. Entries are stale once the degree has changed, and are then passed over. */
export class DegreeQueue {
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

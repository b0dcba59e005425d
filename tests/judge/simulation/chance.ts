/** Chance that can be played again: the same seed gives the same draws. */
export class Chance {
  #state: number;

  constructor(seed: number) {
    this.#state = (Math.imul(seed, 0x9e3779b1) ^ 0x85ebca6b) >>> 0;
  }

  /** A number from 0 up to 1. The mixing is that of the public-domain generator "mulberry32". */
  share(): number {
    this.#state = (this.#state + 0x6d2b79f5) >>> 0;
    let mixed = this.#state;
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  }

  /** One of a list. */
  pick<Item>(list: readonly Item[]): Item {
    const item = list[Math.floor(this.share() * list.length)];
    if (item === undefined) throw new RangeError("Nothing to pick from");
    return item;
  }

  /** A number between two, even by ratio. */
  byRatio(least: number, most: number): number {
    return least * (most / least) ** this.share();
  }

  /** A factor around 1 with this standard deviation of its logarithm. */
  factor(spread: number): number {
    const normal = Math.sqrt(-2 * Math.log(1 - this.share())) * Math.cos(2 * Math.PI * this.share());
    return Math.exp(spread * normal);
  }
}

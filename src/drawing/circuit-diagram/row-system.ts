/**
 * Heights under rules of the form "b is at least so far below a". Rules never make a circle: who adds one asks `reaches` first.
 */
export class RowSystem {
  readonly #count: number;
  readonly #below: Map<number, number>[];
  readonly #above: Map<number, number>[];

  /** @param count How many heights there are, numbered from 0. */
  constructor(count: number) {
    this.#count = count;
    this.#below = Array.from({ length: count }, () => new Map<number, number>());
    this.#above = Array.from({ length: count }, () => new Map<number, number>());
  }

  /** Puts `b` at least `distance` below `a`; of two such rules the wider one holds. */
  add(a: number, b: number, distance: number): void {
    const known = this.#below[a]?.get(b) ?? -Infinity;
    if (distance <= known) return;
    this.#below[a]?.set(b, distance);
    this.#above[b]?.set(a, distance);
  }

  /** Whether the rules put `b` below `a`; a height is below itself. */
  reaches(a: number, b: number): boolean {
    const seen = new Set([a]);
    for (const at of seen) {
      if (at === b) return true;
      for (const next of this.#below[at]?.keys() ?? []) seen.add(next);
    }
    return false;
  }

  /** The heights in an order in which every rule leads forward; undefined where rules make a circle. */
  order(): readonly number[] | undefined {
    const open = this.#above.map((rules) => rules.size);
    const order = open.flatMap((count, at) => (count === 0 ? [at] : []));
    for (const at of order) {
      for (const next of this.#below[at]?.keys() ?? []) {
        open[next] = (open[next] ?? 0) - 1;
        if (open[next] === 0) order.push(next);
      }
    }
    return order.length === this.#count ? order : undefined;
  }

  /** Every height as small as the rules allow, 0 at least. */
  highest(): number[] {
    const at = new Array<number>(this.#count).fill(0);
    for (const here of this.order() ?? []) at[here] = this.least(here, at);
    return at;
  }

  /** The least value of one height beside the others. */
  least(here: number, heights: readonly number[]): number {
    let value = 0;
    for (const [above, distance] of this.#above[here] ?? []) value = Math.max(value, (heights[above] ?? 0) + distance);
    return value;
  }

  /** The greatest value of one height beside the others; infinite where nothing is below it. */
  most(here: number, heights: readonly number[]): number {
    let value = Infinity;
    for (const [below, distance] of this.#below[here] ?? []) value = Math.min(value, (heights[below] ?? 0) - distance);
    return value;
  }
}

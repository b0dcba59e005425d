/** Groups of things that are joined, by plain union of sets: a check of its own, independent of the graph of the model. */
export class Groups {
  readonly #parent = new Map<string, string>();

  /** The one member that stands for the group of a thing. */
  of(item: string): string {
    let current = item;
    for (let next = this.#parent.get(current); next !== undefined && next !== current; next = this.#parent.get(current))
      current = next;
    this.#parent.set(item, current);
    return current;
  }

  join(first: string, second: string): void {
    this.#parent.set(this.of(first), this.of(second));
  }
}

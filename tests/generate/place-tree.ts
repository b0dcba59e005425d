/** A spot on the tree of places: at a place, or inside the segment above a place. Places are named by their number. */
export type Spot =
  | { readonly kind: "place"; readonly place: number }
  | { readonly kind: "segment"; readonly below: number; readonly offsetMm: number };

/** A way through the tree: the segments in order and how far it is. */
export interface WayThrough {
  readonly segments: readonly string[];
  readonly lengthMm: number;
}

interface PlaceRecord {
  readonly id: string;
  readonly x: number;
  readonly y: number;
  readonly parent: number;
  readonly depth: number;
  readonly segment: string;
  readonly lengthMm: number;
  readonly zone: string;
}

/** A tree of places: every place but the first hangs on an earlier one by a segment, so there is one way between any two. */
export class PlaceTree {
  readonly #records: PlaceRecord[] = [];

  /** Adds a place and, unless it is the first, the segment to its parent; returns its number. */
  add(id: string, at: { x: number; y: number; zone: string }, hang?: { parent: number; lengthMm: number }): number {
    const number = this.#records.length;
    const parent = hang?.parent ?? -1;
    const depth = hang ? this.record(parent).depth + 1 : 0;
    this.#records.push({ id, ...at, parent, depth, segment: `SG${number}`, lengthMm: hang?.lengthMm ?? 0 });
    return number;
  }

  /** Where and what a place is. */
  record(number: number): PlaceRecord {
    const record = this.#records[number];
    if (!record) throw new RangeError(`Cannot find place ${number} of ${this.#records.length}`);
    return record;
  }

  /** Places for the document, moved sideways by `shiftX`. */
  places(shiftX: number) {
    return this.#records.map(({ id, x, y }) => ({ id, x: x + shiftX, y }));
  }

  /** Segments for the document, each from the parent to the place below it. */
  segments() {
    return this.#records.slice(1).map(({ id, parent, segment, lengthMm, zone }) => {
      return {
        id: segment,
        from: this.record(parent).id,
        to: id,
        lengthMm,
        zone,
        covering: "corrugated tube",
        hazards: [],
      };
    });
  }

  /** The one way between two spots. */
  way(from: Spot, to: Spot): WayThrough {
    const start = from.kind === "place" ? from.place : from.below;
    const goal = to.kind === "place" ? to.place : to.below;
    const between = this.#climb(start, goal);
    if (from.kind === "segment" && to.kind === "segment" && start === goal) {
      return { segments: [this.record(start).segment], lengthMm: Math.abs(from.offsetMm - to.offsetMm) };
    }
    let lengthMm = between.reduce((sum, place) => sum + this.record(place).lengthMm, 0);
    // A spot inside a segment is reached from above or from below: the part beyond it is added or taken off.
    if (from.kind === "segment") lengthMm += this.#enter(between, from, "first");
    if (to.kind === "segment") lengthMm += this.#enter(between, to, "last");
    return { segments: between.map((place) => this.record(place).segment), lengthMm };
  }

  #enter(between: number[], spot: Spot & { kind: "segment" }, end: "first" | "last"): number {
    const rest = this.record(spot.below).lengthMm - spot.offsetMm;
    if (between.at(end === "first" ? 0 : -1) === spot.below) return -rest;
    if (end === "first") between.unshift(spot.below);
    else between.push(spot.below);
    return rest;
  }

  /** Segments (by the place below them) from one place to another: up to where the ways meet, then down. */
  #climb(start: number, goal: number): number[] {
    const up: number[] = [];
    const down: number[] = [];
    let a = start;
    let b = goal;
    while (a !== b) {
      if (this.record(a).depth >= this.record(b).depth) {
        up.push(a);
        a = this.record(a).parent;
      } else {
        down.push(b);
        b = this.record(b).parent;
      }
    }
    return [...up, ...down.reverse()];
  }
}

import type { Harness, HarnessNode } from "../../model/index.ts";
import type { Part, PartList } from "../network/part.ts";
import { shareDerived } from "../network/shared-shape.ts";
import { findPoint, findTarget } from "./find-target.ts";

/** A stretch of a wire, in percent from its first end. */
interface Section {
  readonly at: number;
  readonly startPercent: number;
  readonly endPercent: number;
}

/** A copy of a list of parts that faults are put into. The shape is copied only when it changes. */
export class PartPatch {
  readonly harness: Harness;
  readonly #list: PartList;
  readonly #parts: Part[];
  readonly #nodeKeys: string[];
  readonly #sections = new Map<number, Section[]>();
  #ends: { readonly from: number[]; readonly to: number[] } | undefined;

  constructor(harness: Harness, list: PartList) {
    this.harness = harness;
    this.#list = list;
    this.#parts = [...list.parts];
    this.#nodeKeys = [...list.nodeKeys];
  }

  find(name: string): readonly number[] | undefined {
    return findTarget(this.harness, this.#list, name);
  }

  point(name: string): number | undefined {
    return findPoint(this.harness, this.#list, name);
  }

  /** The node of the harness that a node of the list stands for. */
  nodeOf(point: number): HarnessNode | undefined {
    const number = this.harness.nodeNumbers.get(this.#nodeKeys[point] ?? "");
    return number === undefined ? undefined : this.harness.nodes[number];
  }

  part(at: number): Part {
    const part = this.#parts[at];
    if (!part) throw new RangeError(`There is no part ${at}`);
    return part;
  }

  change(at: number, change: Partial<Part>): void {
    this.#parts[at] = { ...this.part(at), ...change };
  }

  /** Joins two nodes through a resistance, or makes the place for it. */
  join(from: number, to: number, how: { readonly key: string; readonly ohm: number; readonly present: boolean }): void {
    const fault = {
      owner: how.key,
      group: "fault",
      volt: 0,
      control: undefined,
      module: undefined,
    } as const;
    this.#add(from, to, { ...fault, ...how, tolerance: 0, voltTolerance: 0 });
  }

  /** Every wire that ends at one of two nodes ends at the other. */
  swapWireEnds(first: number, second: number): void {
    const ends = this.#ownEnds();
    const swap = (node: number): number => (node === first ? second : node === second ? first : node);
    this.#parts.forEach((part, at) => {
      if (part.group !== "wire") return;
      ends.from[at] = swap(ends.from[at] ?? 0);
      ends.to[at] = swap(ends.to[at] ?? 0);
    });
  }

  /** A node on a wire, so many percent of its length from its first end. Of a broken wire the first piece is meant. */
  placeOnWire(at: number, percent: number): number {
    const sections = this.#sections.get(at) ?? [{ at, startPercent: 0, endPercent: 100 }];
    const hit = sections.find((each) => percent <= each.endPercent) ?? { at, startPercent: 0, endPercent: 100 };
    const known = percent === hit.endPercent ? this.#ends?.to[hit.at] : undefined;
    if (known !== undefined && sections.length > 1 && percent < 100) return known;
    const part = this.part(hit.at);
    const share = (percent - hit.startPercent) / (hit.endPercent - hit.startPercent || 1);
    const ends = this.#ownEnds();
    this.#nodeKeys.push(`${part.owner}@${percent}%`);
    const node = this.#nodeKeys.length - 1;
    const end = ends.to[hit.at] ?? 0;
    ends.to[hit.at] = node;
    this.change(hit.at, { ohm: part.ohm * share, present: true });
    const rest = this.#add(node, end, { ...part, key: `${part.key}|${percent}%`, ohm: part.ohm * (1 - share) });
    const split: Section[] = [
      { at: hit.at, startPercent: hit.startPercent, endPercent: percent },
      { at: rest, startPercent: percent, endPercent: hit.endPercent },
    ];
    this.#sections.set(
      at,
      sections.flatMap((each) => (each === hit ? split : [each])),
    );
    if (!this.#sections.has(at)) this.#sections.set(at, split);
    return node;
  }

  finish(): PartList {
    const ends = this.#ends;
    const { shape: base } = this.#list;
    if (!ends) return { ...this.#list, parts: this.#parts };
    const nodeCount = this.#nodeKeys.length;
    const shape = shareDerived(base, { nodeCount, from: new Int32Array(ends.from), to: new Int32Array(ends.to) });
    return { ...this.#list, parts: this.#parts, nodeKeys: this.#nodeKeys, shape };
  }

  #ownEnds(): { readonly from: number[]; readonly to: number[] } {
    if (!this.#ends) {
      const ends = { from: [] as number[], to: [] as number[] };
      const { from, to } = this.#list.shape;
      for (let at = 0; at < from.length; at++) {
        ends.from.push(from[at] ?? 0);
        ends.to.push(to[at] ?? 0);
      }
      this.#ends = ends;
    }
    return this.#ends;
  }

  #add(from: number, to: number, part: Part): number {
    const ends = this.#ownEnds();
    ends.from.push(from);
    ends.to.push(to);
    this.#parts.push(part);
    return this.#parts.length - 1;
  }
}

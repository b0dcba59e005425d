import type { JointOhm } from "../tables/joint-resistance.ts";
import { RESISTANCE_SHARE } from "../tables/tolerances.ts";
import type { Assumption, CoilPart, ModuleNeed, Part, PartGroup, PartList } from "./part.ts";

/** What must be said of a part; the rest has a usual value. */
export type PartInput = Pick<Part, "key" | "owner" | "ohm"> & { readonly group: PartGroup } & Partial<Part>;

/** What must be said of a wire or a joint. */
export interface ConductorInput {
  readonly key: string;
  readonly group: "wire" | "joint";
  readonly ohm: number;
  readonly present: boolean;
}

/** Collects parts while a list is made; not seen outside the room. */
export class PartDraft {
  #nodeKeys: string[];
  #sharesKeys: boolean;
  readonly parts: Part[];
  readonly from: number[];
  readonly to: number[];
  readonly coils: CoilPart[] = [];
  readonly modules: ModuleNeed[] = [];
  readonly #assumptions: Map<string, Assumption>;
  readonly #joints = new Set<string>();

  /** Starts empty, or as a copy of another draft to go on from; that one must have no coils and modules yet. */
  constructor(start: readonly string[] | PartDraft) {
    const isCopy = start instanceof PartDraft;
    // Names are looked up in a map made once for their list, so a copy keeps the list itself as long as it adds nothing to it.
    this.#nodeKeys = isCopy ? start.#nodeKeys : start.slice();
    this.#sharesKeys = isCopy;
    this.parts = isCopy ? start.parts.slice() : [];
    this.from = isCopy ? start.from.slice() : [];
    this.to = isCopy ? start.to.slice() : [];
    this.#assumptions = new Map(isCopy ? start.#assumptions : []);
  }

  /** Adds a node that the harness does not have. */
  node(key: string): number {
    if (this.#sharesKeys) this.#nodeKeys = this.#nodeKeys.slice();
    this.#sharesKeys = false;
    this.#nodeKeys.push(key);
    return this.#nodeKeys.length - 1;
  }

  add(from: number, to: number, part: PartInput): void {
    this.from.push(from);
    this.to.push(to);
    this.parts.push({
      key: part.key,
      owner: part.owner,
      group: part.group,
      ohm: part.ohm,
      volt: part.volt ?? 0,
      present: part.present ?? true,
      control: part.control,
      module: part.module,
      tolerance: part.tolerance ?? RESISTANCE_SHARE[part.group],
      voltTolerance: part.voltTolerance ?? 0,
    });
  }

  /** Adds a wire or a joint: a plain resistance. Most parts are one, so they have a way of their own. */
  addConductor(from: number, to: number, part: ConductorInput): void {
    this.from.push(from);
    this.to.push(to);
    this.parts.push({
      key: part.key,
      owner: part.key,
      group: part.group,
      ohm: part.ohm,
      volt: 0,
      present: part.present,
      control: undefined,
      module: undefined,
      tolerance: RESISTANCE_SHARE[part.group],
      voltTolerance: 0,
    });
  }

  /** Adds a part that was made before. */
  addAgain(from: number, to: number, part: Part): void {
    this.from.push(from);
    this.to.push(to);
    this.parts.push(part);
  }

  /** How many things are taken for granted so far. */
  get assumptionCount(): number {
    return this.#assumptions.size;
  }

  /** Notes a typical joint, once. */
  assumeJoint({ source, ohm }: JointOhm): void {
    if (this.#joints.has(source)) return;
    this.#joints.add(source);
    this.assume("typical", "", `${source}, ${ohm * 1000} mohm`);
  }

  /** Notes something taken for granted, once. */
  assume(code: Assumption["code"], of: string, text: string): void {
    this.#assumptions.set(`${code} ${of} ${text}`, { code, of, text });
  }

  finish(reference: number): PartList {
    return {
      shape: {
        nodeCount: this.#nodeKeys.length,
        from: new Int32Array(this.from),
        to: new Int32Array(this.to),
      },
      parts: this.parts,
      nodeKeys: this.#nodeKeys,
      coils: this.coils,
      modules: this.modules,
      assumptions: [...this.#assumptions.values()],
      reference,
    };
  }
}

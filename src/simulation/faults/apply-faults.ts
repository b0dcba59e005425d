import { err, ok, unreachable, type Result } from "../../base/index.ts";
import type { Harness, HarnessNode } from "../../harness-model/index.ts";
import { dividerOhms } from "../network/add-element.ts";
import { connectorOf } from "../network/part-draft.ts";
import type { Part, PartList, QuestionProblem } from "../network/part.ts";
import { shareDerived } from "../network/shared-shape.ts";
import type { Fault } from "./fault.ts";
import { findPoint, findTarget, unknownTarget } from "./find-target.ts";

/** Wires change places before anything is done to them, and new ways between nodes come last. */
const ORDER: Readonly<Partial<Record<Fault["kind"], number>>> = { "cross-wired": -1, short: 1, bridge: 1 };

/**
 * Puts faults into a list of parts; any number, any mixture.
 *
 * @returns A new list, or everything that could not be applied.
 */
export function applyFaults(
  harness: Harness,
  list: PartList,
  faults: readonly Fault[],
): Result<PartList, readonly QuestionProblem[]> {
  if (faults.length === 0) return ok(list);
  const patch = new PartPatch(harness, list);
  const problems = faults
    .toSorted((a, b) => (ORDER[a.kind] ?? 0) - (ORDER[b.kind] ?? 0))
    .flatMap((fault) => applyFault(patch, fault) ?? []);
  return problems.length > 0 ? err(problems) : ok(patch.finish());
}

/** A stretch of a wire, in percent from its first end. */
interface Section {
  readonly at: number;
  readonly startPercent: number;
  readonly endPercent: number;
}

/** A copy of a list of parts that faults are put into. The shape is copied only when it changes. */
class PartPatch {
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

  /** The parts a fault names. The suppressor beside a coil is a part of its own: it stays when the winding fails. */
  find(name: string): readonly number[] | undefined {
    return findTarget(this.harness, this.#list, name)?.filter(
      (at) => this.part(at).key === name || !this.part(at).key.endsWith("|suppressor"),
    );
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
      worksWhile: "awake",
      asleepOhm: Infinity,
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

/** Parts whose value is a resistance that may drift. */
const RESISTANCES = ["sensor", "resistor", "coil", "load", "bias"];

/**
 * Lets a sensor, resistance or regulator drift: its value is multiplied, then something is added. The value of a divider is its ratio.
 *
 * @returns Nothing, or why it cannot be applied.
 */
function driftParts(
  patch: PartPatch,
  fault: Extract<Fault, { kind: "drift" }>,
  parts: readonly number[],
): QuestionProblem | undefined {
  const { factor, offset } = fault;
  const top = parts.find((at) => patch.part(at).key.endsWith(".top"));
  const bottom = parts.find((at) => patch.part(at).key.endsWith(".bottom"));
  if (top !== undefined && bottom !== undefined) {
    const { topOhm, bottomOhm } = { topOhm: patch.part(top).ohm, bottomOhm: patch.part(bottom).ohm };
    const ratio = topOhm === Infinity ? 0 : bottomOhm === Infinity ? 1 : bottomOhm / (topOhm + bottomOhm);
    const sourceOhm = 1 / (1 / topOhm + 1 / bottomOhm);
    const drifted = dividerOhms(ratio * factor + offset, sourceOhm);
    patch.change(top, { ohm: drifted.topOhm });
    patch.change(bottom, { ohm: drifted.bottomOhm });
    return undefined;
  }
  for (const at of parts) {
    const { group, ohm, volt, key } = patch.part(at);
    if (key.includes("|")) continue;
    if (group === "regulator" || group === "supply") patch.change(at, { volt: volt * factor + offset });
    else if (RESISTANCES.includes(group)) patch.change(at, { ohm: Math.max(0, ohm * factor + offset) });
    else return wrongTarget(fault.of, "is not a sensor, resistor or regulator. It cannot drift");
  }
  return undefined;
}

/**
 * Puts one fault into a copy of the parts.
 *
 * @returns Nothing, or why it cannot be applied.
 */
function applyFault(patch: PartPatch, fault: Fault): QuestionProblem | undefined {
  switch (fault.kind) {
    case "open":
      return onParts(patch, fault.of, (parts) => removeAll(patch, parts));
    case "high-resistance":
      return onParts(patch, fault.of, (parts) => addSeries(patch, { ...fault, parts }));
    case "loose-terminal":
      return onParts(patch, fault.of, (parts) => {
        if (!fault.of.includes("@")) return wrongTarget(fault.of, "is not a wire end at a terminal stud or splice");
        const { ohm } = fault;
        return ohm === undefined ? removeAll(patch, parts) : addSeries(patch, { of: fault.of, ohm, parts });
      });
    case "blown":
      return onParts(patch, fault.of, (parts) => {
        const isBurnable = parts.every((at) => ["fuse", "load"].includes(patch.part(at).group));
        return isBurnable ? removeAll(patch, parts) : wrongTarget(fault.of, "is not a fuse or a lamp");
      });
    case "stuck-open":
    case "stuck-closed":
    case "stuck-on":
    case "stuck-off":
      return onParts(patch, fault.of, (parts) => stick(patch, fault, parts));
    case "drift":
      return onParts(patch, fault.of, (parts) => driftParts(patch, fault, parts));
    case "unplugged":
      return unplug(patch, fault.of);
    case "cross-wired":
      return swap(patch, fault.cavities);
    case "short":
    case "bridge":
      return touch(patch, fault);
    default:
      return unreachable(fault);
  }
}

type PartNumbersOf = readonly number[];

function onParts(
  patch: PartPatch,
  of: string,
  act: (parts: PartNumbersOf) => QuestionProblem | undefined,
): QuestionProblem | undefined {
  const parts = patch.find(of);
  return parts ? act(parts) : unknownTarget(patch.harness, of, "wire, contact, element or wire end");
}

function removeAll(patch: PartPatch, parts: PartNumbersOf): undefined {
  for (const at of parts) patch.change(at, { present: false });
}

function addSeries(
  patch: PartPatch,
  { of, ohm, parts }: { readonly of: string; readonly ohm: number; readonly parts: PartNumbersOf },
): QuestionProblem | undefined {
  const [first, second] = parts;
  if (first === undefined) return undefined;
  if (second !== undefined)
    return wrongTarget(of, `has several parts. Name one: ${parts.map((at) => patch.part(at).key).join(", ")}`);
  const part = patch.part(first);
  const whole = part.ohm + ohm;
  // The resistance of the fault is as named; only what the part had of its own may be off.
  patch.change(first, { ohm: whole, tolerance: whole === 0 ? 0 : (part.tolerance * part.ohm) / whole });
  return undefined;
}

function stick(
  patch: PartPatch,
  fault: { readonly kind: "stuck-open" | "stuck-closed" | "stuck-on" | "stuck-off"; readonly of: string },
  parts: PartNumbersOf,
): QuestionProblem | undefined {
  const isOn = fault.kind === "stuck-closed" || fault.kind === "stuck-on";
  const wanted: readonly Part["group"][] =
    fault.kind === "stuck-open" || fault.kind === "stuck-closed"
      ? ["switch"]
      : ["driver", "regulator", "supply", "load"];
  if (!parts.every((at) => wanted.includes(patch.part(at).group))) {
    const sort = wanted.length === 1 ? "switch or relay contact" : "driver, source or load";
    return wrongTarget(fault.of, `is not a ${sort}. It cannot be ${fault.kind}`);
  }
  // What is stuck on conducts whether its module lives or not.
  for (const at of parts) {
    const { group, key, module } = patch.part(at);
    // A dead regulator still is electronics between its rails.
    if (!isOn && group === "regulator") patch.change(at, { worksWhile: "never", module: module ?? key });
    else patch.change(at, { present: isOn, control: undefined, module: undefined });
  }
  return undefined;
}

function unplug(patch: PartPatch, name: string): QuestionProblem | undefined {
  const { harness } = patch;
  const id = connectorOf(harness, name);
  const connector = id === undefined ? undefined : harness.fitted.connectors.get(id);
  if (!connector) return { code: "unknown-connector", of: name, text: `There is no connector "${name}" in this build` };
  for (const cavity of connector.cavities) {
    for (const at of patch.find(`${connector.id}:${cavity.id}`) ?? []) patch.change(at, { present: false });
  }
  return undefined;
}

function swap(patch: PartPatch, cavities: readonly [string, string]): QuestionProblem | undefined {
  const [first, second] = cavities.map((name) => patch.point(name));
  const lost = first === undefined ? cavities[0] : cavities[1];
  if (first === undefined || second === undefined) return unknownTarget(patch.harness, lost, "contact");
  const [one, other] = [patch.nodeOf(first), patch.nodeOf(second)];
  const isOneSide =
    one?.kind === "contact" &&
    other?.kind === "contact" &&
    one.connector === other.connector &&
    one.side === other.side;
  if (!isOneSide) return wrongTarget(cavities.join(" and "), "are not two cavities of one side of a connector");
  patch.swapWireEnds(first, second);
  return undefined;
}

/** A fault by which two things touch that should not. */
type ShortFault = Extract<Fault, { readonly kind: "short" | "bridge" }>;

/** Whether a fault is one by which two things touch. */
export function isTouch(fault: Fault): fault is ShortFault {
  return fault.kind === "short" || fault.kind === "bridge";
}

/**
 * Lets two points, wires or elements' terminals touch; a wire is met at the percent given, the second one in its middle.
 *
 * @returns Nothing, or why it cannot be applied.
 */
function touch(patch: PartPatch, fault: ShortFault): QuestionProblem | undefined {
  const name = readyName(fault);
  const ready = name === undefined ? undefined : patch.find(name)?.find((at) => !patch.part(at).present);
  if (ready === undefined) return join(patch, fault, true);
  patch.change(ready, { present: true, ohm: fault.ohm });
  return undefined;
}

/**
 * Makes the place where two things will touch, without letting them: a fault that is put in later then leaves the shape as it is. What cannot
 * be applied is said when it is.
 */
function makeReady(patch: PartPatch, fault: ShortFault): void {
  join(patch, fault, false);
}

/** Name of the place that can be made ready for a fault; undefined for one elsewhere than in the middle of a wire. */
function readyName(fault: ShortFault): string | undefined {
  return fault.kind === "short" && fault.atPercent !== undefined ? undefined : keyOf(fault);
}

function keyOf(fault: ShortFault): string {
  return `${fault.kind} ${namesOf(fault).join(" ")}`;
}

function namesOf(fault: ShortFault): readonly [string, string] {
  return fault.kind === "short" ? [fault.of, fault.to] : fault.between;
}

function join(patch: PartPatch, fault: ShortFault, present: boolean): QuestionProblem | undefined {
  const names = namesOf(fault);
  const percent = fault.kind === "short" ? (fault.atPercent ?? 50) : 50;
  const [first, second] = names.map((name, which) => {
    const wire = patch.harness.fitted.wires.has(name) ? patch.find(name)?.[0] : undefined;
    return wire === undefined ? patch.point(name) : patch.placeOnWire(wire, which === 0 ? percent : 50);
  });
  const lost = first === undefined ? names[0] : names[1];
  if (first === undefined || second === undefined) return unknownTarget(patch.harness, lost, "wire or point");
  patch.join(first, second, { key: keyOf(fault), ohm: fault.ohm, present });
  return undefined;
}

/** Says that a target is of the wrong sort. */
function wrongTarget(of: string, text: string): QuestionProblem {
  return { code: "wrong-target", of, text: `"${of}" ${text}` };
}

/**
 * Makes the places ready at which things may touch that should not. Nothing touches yet, so the circuit is the same; but putting one of the
 * faults in no longer changes the shape, so one plan of elimination serves for all of them.
 *
 * A wire that may be touched counts as two pieces from now on, so a resistance can no longer be put into it by its name.
 *
 * @param faults The faults that will be put in one after the other; what is no short and no bridge is passed over.
 */
export function withReadyPlaces(harness: Harness, list: PartList, faults: readonly Fault[]): PartList {
  const patch = new PartPatch(harness, list);
  const places = new Map<string, ShortFault>();
  for (const fault of faults.filter(isTouch)) {
    const name = readyName(fault);
    if (name !== undefined) places.set(name, fault);
  }
  for (const fault of places.values()) makeReady(patch, fault);
  return patch.finish();
}

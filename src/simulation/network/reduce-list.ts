import { keptFor } from "../../base/index.ts";
import type { BranchShape } from "../solver/branch-set.ts";
import { reduceValues } from "../solver/reduce-network.ts";
import { isHidden, type ModuleNeed, type Part, type PartGroup, type PartList } from "./part.ts";
import type { OperatingPoint } from "./settle.ts";

/**
 * Replaces everything outside one circuit by the branches it amounts to, so that faults of the circuit can be worked out on a small
 * list. Relays, diodes and modules outside stay as they are in the settled circuit; those that hang on the circuit are kept with it. Voltages at the kept nodes are exactly those of the whole.
 *
 * @param operatingPoint The whole machine, settled.
 * @param nodes Numbers of the nodes of the circuit.
 * @returns A list with the kept nodes only, under their names.
 */
export function reduceList(operatingPoint: OperatingPoint, nodes: Iterable<number>): PartList {
  const { list, values } = operatingPoint;
  const circuit = [...nodes, list.reference];
  const kept = closeOver(list, new Set([...circuit, ...nearbyControls(operatingPoint, circuit)]));
  const keep = [...kept].toSorted((a, b) => a - b);
  const newNumber = new Map(keep.map((node, at) => [node, at]));
  const inside: { readonly part: Part; readonly from: number; readonly to: number }[] = [];
  const newPart = new Map<number, number>();
  // Parts of the circuit itself are opened for the reduction: the shape stays the same, and with it the plan.
  const rest = { ohm: values.ohm.slice(), volt: values.volt };
  list.parts.forEach((part, at) => {
    const from = newNumber.get(list.shape.from[at] ?? -1);
    const to = newNumber.get(list.shape.to[at] ?? -1);
    if (from === undefined || to === undefined) return;
    newPart.set(at, inside.length);
    inside.push({ part: frozenOutside(operatingPoint, part, kept), from, to });
    rest.ohm[at] = Infinity;
  });
  const reduced = reduceValues(list.shape, rest, keep);
  // What contradicts nothing in the whole cannot do so in a part of it.
  const branches = reduced.kind === "reduced" ? reduced.branches : [];
  const known = knownOutside(list, rest, keep);
  for (const { from, to, ohm, volt = 0 } of branches) {
    const knownOhm = known?.get(`${from} ${to}`) ?? Infinity;
    const asleepOhm = known && ohm < (1 - HIDDEN_SHARE) * knownOhm ? ohm : Infinity;
    inside.push({ part: { ...outsidePart(`outside ${from} ${to}`, ohm, volt), asleepOhm }, from, to });
  }
  const renumber = (node: number): number => newNumber.get(node) ?? 0;
  return {
    shape: {
      nodeCount: keep.length,
      from: Int32Array.from(inside, (each) => each.from),
      to: Int32Array.from(inside, (each) => each.to),
    },
    parts: inside.map((each) => each.part),
    nodeKeys: keep.map((node) => list.nodeKeys[node] ?? ""),
    coils: list.coils
      .filter((coil) => kept.has(coil.from) && kept.has(coil.to))
      .map((coil) => ({
        ...coil,
        at: newPart.get(coil.at) ?? -1,
        from: renumber(coil.from),
        to: renumber(coil.to),
      })),
    modules: list.modules
      .filter((need) => nodesOf(need).every((node) => kept.has(node)))
      .map((need) => ({
        ...need,
        positive: renumber(need.positive),
        negative: renumber(need.negative),
        wake: need.wake === undefined ? undefined : renumber(need.wake),
      })),
    assumptions: list.assumptions,
    reference: renumber(list.reference),
  };
}

/** What electronics asleep may take of a branch outside before it counts as hidden itself, as a share of its resistance. */
const HIDDEN_SHARE = 0.005;

/** The branches outside without what hides in electronics asleep, by their ends; undefined where nothing sleeps there. */
function knownOutside(
  list: PartList,
  rest: { readonly ohm: Float64Array; readonly volt: Float64Array },
  keep: readonly number[],
): ReadonlyMap<string, number> | undefined {
  const hidden = [...list.parts.keys()].filter((at) => isHidden(list.parts[at], rest.ohm[at]));
  if (hidden.length === 0) return undefined;
  const ohm = rest.ohm.slice();
  for (const at of hidden) ohm[at] = Infinity;
  const reduced = reduceValues(list.shape, { ohm, volt: rest.volt }, keep);
  const branches = reduced.kind === "reduced" ? reduced.branches : [];
  return new Map(branches.map((branch) => [`${branch.from} ${branch.to}`, branch.ohm]));
}

/** Adds the terminals of what belongs to the circuit: contacts of its coils, coils of its contacts, supplies of its modules. */
function closeOver(list: PartList, kept: Set<number>): ReadonlySet<number> {
  const coils = new Map(list.coils.map((coil) => [coil.key, coil]));
  for (let before = -1; before !== kept.size;) {
    before = kept.size;
    list.parts.forEach((part, at) => {
      const from = list.shape.from[at] ?? 0;
      const to = list.shape.to[at] ?? 0;
      const coil = part.control?.kind === "contact" ? coils.get(part.control.coil) : undefined;
      const isIn = kept.has(from) && kept.has(to);
      if (coil && (isIn || (kept.has(coil.from) && kept.has(coil.to))))
        for (const node of [from, to, coil.from, coil.to]) kept.add(node);
      const need = isIn && part.module !== undefined ? list.modules.find(({ id }) => id === part.module) : undefined;
      if (need) for (const node of nodesOf(need)) kept.add(node);
    });
  }
  return kept;
}

function nodesOf({ positive, negative, wake }: ModuleNeed): readonly number[] {
  return [positive, negative, ...(wake === undefined ? [] : [wake])];
}

/** A kept part that follows something that is not kept stays as it stands. */
function frozenOutside({ list, modes }: OperatingPoint, part: Part, kept: ReadonlySet<number>): Part {
  const { control } = part;
  if (control?.kind !== "contact") return part;
  const coil = list.coils.find(({ key }) => key === control.coil);
  if (coil && kept.has(coil.from)) return part;
  const isClosed = modes.energised.has(control.coil) === (control.form === "make");
  return { ...part, control: undefined, present: part.present && isClosed };
}

function outsidePart(key: string, ohm: number, volt: number): Part {
  return {
    key,
    owner: key,
    group: "outside",
    ohm,
    volt,
    present: true,
    control: undefined,
    module: undefined,
    worksWhile: "awake",
    asleepOhm: Infinity,
    tolerance: 0,
    voltTolerance: 0,
  };
}

/** What current passes through without being used. */
const CONDUCTORS: ReadonlySet<PartGroup> = new Set(["wire", "joint", "bar", "fuse", "switch"]);
/** What conductors outside a circuit amount to has less than this, in ohm. */
const CONDUCTOR_OHM = 5;

/** Whether a part leads on to what follows a circuit, also where conductors were reduced to what they amount to. */
function leadsOn({ group, ohm, volt }: Part): boolean {
  return CONDUCTORS.has(group) || (group === "outside" && ohm < CONDUCTOR_OHM && volt === 0);
}

/** A node with more parts than this is a rail that half the machine hangs on: the way does not go on from there. */
const MOST_PARTS = 24;

/**
 * The terminals of everything that follows the voltages of a circuit: regulators, relays with what they feed, control units with what they
 * give and drive, diodes, pulsed drivers that its nodes lead to through conductors alone, not counting what hangs on a rail.
 *
 * @returns Numbers of nodes to keep with the circuit.
 */
function nearbyControls({ list }: OperatingPoint, nodes: Iterable<number>): ReadonlySet<number> {
  const { parts, shape } = list;
  const byNode = partsByNode(shape);
  const follow = followersOf(list);
  const region = new Set(nodes);
  const keep = new Set<number>();
  for (const node of region) {
    const own = byNode.parts.subarray(byNode.offsets[node] ?? 0, byNode.offsets[node + 1] ?? 0);
    if (own.length > MOST_PARTS) continue;
    for (const at of own) {
      const part = parts[at];
      const from = shape.from[at] ?? 0;
      const to = shape.to[at] ?? 0;
      if (part?.control || part?.module !== undefined) keep.add(from).add(to);
      if (part && leadsOn(part)) region.add(from).add(to);
    }
    const { kept = [], onward = [] } = follow.get(node) ?? {};
    for (const other of [...kept, ...onward]) keep.add(other);
    for (const other of onward) region.add(other);
  }
  return keep;
}

/** What hangs on the voltage of a node: nodes to keep with it, and nodes from which the way goes on as well. */
interface Followers {
  readonly kept: readonly number[];
  readonly onward: readonly number[];
}

/** By node: the contacts of a coil that ends there; what a control unit gives and drives that is fed or woken there. */
const followersOf = keptFor(({ parts, shape, coils, modules }: PartList): ReadonlyMap<number, Followers> => {
  const found = new Map<number, Followers>();
  const note = (node: number | undefined, { kept, onward }: Followers): void => {
    if (node === undefined) return;
    const before = found.get(node);
    found.set(node, { kept: [...(before?.kept ?? []), ...kept], onward: [...(before?.onward ?? []), ...onward] });
  };
  const endsOf = (isWanted: (part: Part) => boolean): readonly number[] =>
    parts.flatMap((part, at) => (isWanted(part) ? [shape.from[at] ?? 0, shape.to[at] ?? 0] : []));
  for (const { key, from, to } of coils) {
    const onward = endsOf(({ control }) => control?.kind === "contact" && control.coil === key);
    for (const node of [from, to]) note(node, { kept: [from, to], onward });
  }
  for (const need of modules) {
    const onward = endsOf(
      ({ module, present, group, volt }) => module === need.id && present && (group === "driver" || volt !== 0),
    );
    for (const node of [need.positive, need.wake]) note(node, { kept: nodesOf(need), onward });
  }
  return found;
});

interface PartsByNode {
  /** Parts of node n stand in `parts` from `offsets[n]` to `offsets[n + 1] - 1`. */
  readonly offsets: Int32Array;
  readonly parts: Int32Array;
}

const partsByNode = keptFor((shape: BranchShape): PartsByNode => {
  const offsets = new Int32Array(shape.nodeCount + 1);
  for (const ends of [shape.from, shape.to]) {
    for (let at = 0; at < ends.length; at++) {
      const node = (ends[at] ?? 0) + 1;
      offsets[node] = (offsets[node] ?? 0) + 1;
    }
  }
  for (let node = 0; node < shape.nodeCount; node++)
    offsets[node + 1] = (offsets[node + 1] ?? 0) + (offsets[node] ?? 0);
  const next = offsets.slice();
  const parts = new Int32Array(2 * shape.from.length);
  for (const ends of [shape.from, shape.to]) {
    for (let at = 0; at < ends.length; at++) {
      const node = ends[at] ?? 0;
      parts[next[node] ?? 0] = at;
      next[node] = (next[node] ?? 0) + 1;
    }
  }
  return { offsets, parts };
});

import type { BranchShape, BranchValues } from "./branch-set.ts";
import { mergeIdealNodes, type Clusters } from "./merge-ideal-nodes.ts";
import { planElimination, type EliminationPlan } from "./plan-elimination.ts";

/** Voltages of a network, with what is needed to ask more of it. */
export interface SolvedNetwork {
  readonly kind: "solved";
  readonly planned: PlannedShape;
  readonly factor: Factor;
  /** Per node: volt above the reference of its island. */
  readonly volts: Float64Array;
  /** Per node: its island, by number. Between two islands no current can flow and no voltage is defined. */
  readonly islands: Int32Array;
  /** Branches that were changed since the elimination; absent where none was. Voltages are then right to about 1e-8 V. */
  readonly changes?: readonly ChangedBranch[];
}

/** What a changed branch does to the network as it was before the change. */
interface ChangedBranch {
  /** Per node: the volts that 1 A made that was led through the branch from outside, from its first node to its second. */
  readonly unitVolts: Float64Array;
  /** How much of the change in conductance is felt outside, in siemens. */
  readonly siemens: number;
}

/** Ideal sources that cannot all be true: the branches of a loop that does not add up. */
export interface ContradictoryNetwork {
  readonly kind: "contradictory";
  readonly branches: readonly number[];
}

/**
 * Solves a network of resistances and voltage sources exactly as it is: an open is no branch, an ideal join is one node, nothing
 * leaks to ground that is not a branch.
 *
 * @param reference The node that stands at 0 V. A node in another island is given against some node of its own island.
 * @returns The voltages and islands, or the sources that contradict each other.
 */
export function solveValues(
  shape: BranchShape,
  values: BranchValues,
  reference: number,
): SolvedNetwork | ContradictoryNetwork {
  const prepared = prepareSolver(shape, values, [reference]);
  if (prepared.kind === "contradictory") return prepared;
  const { planned } = prepared;
  const { clusters } = planned;
  const factor = eliminate(planned, values);
  const found = backSubstitute(factor);
  const volts = new Float64Array(shape.nodeCount);
  const islands = new Int32Array(shape.nodeCount);
  // The reference need not be the node its cluster counts from.
  const lift = clusters.offset[reference] ?? 0;
  const home = found.islands[clusters.ofNode[reference] ?? 0] ?? -1;
  for (let node = 0; node < shape.nodeCount; node++) {
    const cluster = clusters.ofNode[node] ?? 0;
    const island = found.islands[cluster] ?? 0;
    islands[node] = island;
    volts[node] = (found.volts[cluster] ?? 0) + (clusters.offset[node] ?? 0) - (island === home ? lift : 0);
  }
  return { kind: "solved", planned, factor, volts, islands };
}

/** A planned shape, or the branches that contradict each other. */
type Prepared =
  | { readonly kind: "planned"; readonly planned: PlannedShape }
  | { readonly kind: "contradictory"; readonly branches: readonly number[] };

// A plan depends on the shape and on which branches are ideal, both of which rarely change between one solution and the next.
const knownPlans = new WeakMap<BranchShape, { readonly ideal: readonly number[]; readonly planned: PlannedShape }[]>();
/** Plans kept for one shape: relays of 0 ohm make it change to and fro. */
const MOST_PLANS = 4;

/**
 * Joins what ideal branches join and plans the elimination. The last plans of a shape are kept: they serve again until another branch
 * becomes ideal or other nodes are to be kept.
 *
 * @param values Their values; only those of 0 ohm matter here.
 * @param keep The nodes that are not eliminated.
 */
export function prepareSolver(shape: BranchShape, values: BranchValues, keep: readonly number[]): Prepared {
  const ideal: number[] = [...keep, -1];
  for (let branch = 0; branch < values.ohm.length; branch++) {
    if (values.ohm[branch] === 0) ideal.push(branch, values.volt[branch] ?? 0);
  }
  const plans = knownPlans.get(shape) ?? [];
  const known = plans.find((each) => isSame(each.ideal, ideal));
  if (known) return { kind: "planned", planned: known.planned };
  const joined = mergeIdealNodes(shape, values);
  if (joined.kind === "contradictory") return joined;
  const { clusters } = joined;
  const keptClusters = new Set(keep.map((node) => clusters.ofNode[node] ?? 0));
  const plan = planElimination(shape, clusters, [...keptClusters]);
  const planned = { shape, clusters, plan };
  knownPlans.set(shape, [{ ideal, planned }, ...plans.slice(0, MOST_PLANS - 1)]);
  return { kind: "planned", planned };
}

function isSame(first: readonly number[], second: readonly number[]): boolean {
  return first.length === second.length && first.every((value, at) => value === second[at]);
}

/** Resistance between two nodes with every source at 0 V, in ohm; Infinity between two islands. */
export function ohmBetween(solved: SolvedNetwork, first: number, second: number): number {
  if (solved.islands[first] !== solved.islands[second]) return Infinity;
  const { ofNode, count } = solved.planned.clusters;
  let ohm = resistanceBetween(solved.factor, [ofNode[first] ?? 0, ofNode[second] ?? 0], new Float64Array(count));
  for (const { unitVolts, siemens } of solved.changes ?? [])
    ohm -= siemens * ((unitVolts[first] ?? 0) - (unitVolts[second] ?? 0)) ** 2;
  return ohm;
}

/** Less than this share of a branch's conductance left beside it, and taking it away may part the network or cancels too many digits. */
const LEAST_BESIDE = 1e-7;

/**
 * The solution with one branch changed, without a new elimination.
 *
 * @param solved The solution before.
 * @param branch Its nodes, its values before and after.
 * @returns The solution; undefined where it has to be worked out in full: an ideal branch, one whose change parts or joins islands, or one
 *   so small beside the rest that digits would cancel.
 *
 * Source: J. Sherman, W. Morrison, Adjustment of an inverse matrix corresponding to a change in one element of a given matrix, Annals of
 * Mathematical Statistics 21 (1950) 124-127 (from memory).
 */
export function solveChanged(
  solved: SolvedNetwork,
  { from, to, before, after }: BranchChange,
): SolvedNetwork | undefined {
  if (before.ohm === 0 || after.ohm === 0 || solved.islands[from] !== solved.islands[to]) return undefined;
  const added = 1 / after.ohm - 1 / before.ohm;
  const unitVolts = voltsOfUnitCurrent(solved, from, to);
  const across = (unitVolts[from] ?? 0) - (unitVolts[to] ?? 0);
  const left = 1 + added * across;
  if (left < LEAST_BESIDE) return undefined;
  const driven = (solved.volts[from] ?? 0) - (solved.volts[to] ?? 0);
  const ampere = (added * driven + after.volt / after.ohm - before.volt / before.ohm) / left;
  const changes = [...(solved.changes ?? []), { unitVolts, siemens: added / left }];
  return { ...solved, volts: minusTimes(solved.volts, ampere, unitVolts), changes };
}

/** A branch whose values change. */
interface BranchChange {
  readonly from: number;
  readonly to: number;
  readonly before: { readonly ohm: number; readonly volt: number };
  readonly after: { readonly ohm: number; readonly volt: number };
}

/**
 * Per node the volts that 1 A makes that is led in at one node and out at another of the same island, every source at 0 V.
 *
 * @param into Where the ampere goes in.
 * @returns Not to be written to: asked again for the same two nodes, it is the same list.
 */
export function voltsOfUnitCurrent(solved: SolvedNetwork, into: number, outOf: number): Float64Array {
  const unchanged = unitVoltsBefore(solved, into, outOf);
  if (!solved.changes) return unchanged;
  let volts = unchanged;
  for (const { unitVolts, siemens } of solved.changes) {
    // What flows through the change: how the branch sees the two nodes is how they see it (reciprocity).
    const ampere = siemens * ((unitVolts[into] ?? 0) - (unitVolts[outOf] ?? 0));
    volts = minusTimes(volts, ampere, unitVolts);
  }
  return volts;
}

/** Per node: the voltage less so many times that of another list. */
function minusTimes(volts: Float64Array, times: number, other: Float64Array): Float64Array {
  const left = volts.slice();
  for (let node = 0; node < left.length; node++) left[node] = (left[node] ?? 0) - times * (other[node] ?? 0);
  return left;
}

function unitVoltsBefore({ factor, planned }: SolvedNetwork, into: number, outOf: number): Float64Array {
  const last = lastAsked.get(factor);
  if (last?.into === into && last.outOf === outOf) return last.volts;
  const { ofNode } = planned.clusters;
  const ofCluster = unitCurrentVolts(factor, ofNode[into] ?? 0, ofNode[outOf] ?? 0);
  const volts = new Float64Array(ofNode.length);
  for (let node = 0; node < ofNode.length; node++) volts[node] = ofCluster[ofNode[node] ?? 0] ?? 0;
  lastAsked.set(factor, { into, outOf, volts });
  return volts;
}

// A reading and its band ask for the same two points one after the other.
const lastAsked = new WeakMap<
  Factor,
  { readonly into: number; readonly outOf: number; readonly volts: Float64Array }
>();

/** A network after elimination: everything that is needed to ask for voltages and resistances. */
interface Factor {
  readonly plan: EliminationPlan;
  /** Per slot: conductance in siemens at the moment its first cluster was eliminated, or left over between kept clusters. */
  readonly conductance: Float64Array;
  /** Per slot: conductance times source voltage, in ampere, positive where the source drives from the low to the high cluster. */
  readonly drive: Float64Array;
  /** Per step: sum of the conductances of the eliminated cluster; exactly 0 for the last cluster of an island. */
  readonly pivots: Float64Array;
}

/** A branch set with its plan. */
interface PlannedShape {
  readonly shape: BranchShape;
  readonly clusters: Clusters;
  readonly plan: EliminationPlan;
}

/**
 * Eliminates cluster by cluster: a star of branches becomes the mesh between its outer ends. Sources stay in series with the branches. No
 * conductance is ever subtracted, so nothing cancels however far the resistances lie apart.
 *
 * A star of conductances g with source voltages e towards its middle becomes branches of `g[i] * g[j] / sum` with the voltage `e[i] -
 * e[j]`. The same elimination without sources is known for M-matrices as the one of Grassmann, Taksar and Heyman.
 *
 * Source: star-mesh transformation, A. Rosen, "A new network theorem", Journal of the IEE 62 (1924) 916-918 (from memory); Grassmann,
 * Taksar, Heyman, Operations Research 33 (1985) 1107-1116 (from memory). The step with sources: worked out in docs/methods/simulation.md.
 */
export function eliminate({ shape, clusters, plan }: PlannedShape, values: BranchValues): Factor {
  const conductance = new Float64Array(plan.slotLow.length);
  const drive = new Float64Array(plan.slotLow.length);
  for (let branch = 0; branch < plan.branchSlots.length; branch++) {
    const slot = plan.branchSlots[branch] ?? -1;
    const ohm = values.ohm[branch] ?? Infinity;
    if (slot < 0 || ohm === Infinity) continue;
    const a = shape.from[branch] ?? 0;
    const b = shape.to[branch] ?? 0;
    const volt = (clusters.offset[a] ?? 0) - (clusters.offset[b] ?? 0) + (values.volt[branch] ?? 0);
    const isUp = clusters.ofNode[a] === plan.slotLow[slot];
    conductance[slot] = (conductance[slot] ?? 0) + 1 / ohm;
    drive[slot] = (drive[slot] ?? 0) + (isUp ? volt : -volt) / ohm;
  }
  const factor = { plan, conductance, drive, pivots: new Float64Array(plan.order.length) };
  for (let step = 0; step < plan.order.length; step++) eliminateStep(factor, step);
  return factor;
}

function eliminateStep({ plan, conductance, drive, pivots }: Factor, step: number): void {
  const start = plan.offsets[step] ?? 0;
  const end = plan.offsets[step + 1] ?? start;
  const cluster = plan.order[step] ?? 0;
  let sum = 0;
  for (let at = start; at < end; at++) sum += conductance[plan.slots[at] ?? 0] ?? 0;
  pivots[step] = sum;
  if (sum === 0) return;
  let pair = plan.pairOffsets[step] ?? 0;
  for (let first = start; first + 1 < end; first++) {
    const slot = plan.slots[first] ?? 0;
    const share = (conductance[slot] ?? 0) / sum;
    if (share === 0) {
      pair += end - first - 1;
      continue;
    }
    const node = plan.neighbours[first] ?? 0;
    // Volt towards the middle of the star.
    const volt = ((node < cluster ? 1 : -1) * (drive[slot] ?? 0)) / (conductance[slot] ?? 1);
    for (let second = first + 1; second < end; second++, pair++) {
      const otherSlot = plan.slots[second] ?? 0;
      const otherConductance = conductance[otherSlot] ?? 0;
      if (otherConductance === 0) continue;
      const other = plan.neighbours[second] ?? 0;
      const mesh = share * otherConductance;
      const otherDrive = (other < cluster ? 1 : -1) * (drive[otherSlot] ?? 0);
      const current = mesh * volt - share * otherDrive;
      const meshSlot = plan.pairSlots[pair] ?? 0;
      conductance[meshSlot] = (conductance[meshSlot] ?? 0) + mesh;
      drive[meshSlot] = (drive[meshSlot] ?? 0) + (node < other ? current : -current);
    }
  }
}

/** Voltages and islands of the clusters of a network. */
interface ClusterVolts {
  /** Per cluster: volt above the reference of its island. */
  readonly volts: Float64Array;
  /** Per cluster: the cluster that is the reference of its island. Two clusters with different ones share no current path. */
  readonly islands: Int32Array;
}

/**
 * Works out the voltage of every eliminated cluster from those eliminated after it. Kept clusters stand at 0 V, and so does the last
 * cluster of an island without a kept one: only differences inside an island mean anything.
 */
function backSubstitute({ plan, conductance, drive, pivots }: Factor): ClusterVolts {
  const volts = new Float64Array(plan.clusterCount);
  const islands = new Int32Array(plan.clusterCount);
  for (let cluster = 0; cluster < islands.length; cluster++) islands[cluster] = cluster;
  for (let step = plan.order.length - 1; step >= 0; step--) {
    const pivot = pivots[step] ?? 0;
    if (pivot === 0) continue;
    const cluster = plan.order[step] ?? 0;
    let sum = 0;
    for (let at = plan.offsets[step] ?? 0; at < (plan.offsets[step + 1] ?? 0); at++) {
      const slot = plan.slots[at] ?? 0;
      const siemens = conductance[slot] ?? 0;
      if (siemens === 0) continue;
      const node = plan.neighbours[at] ?? 0;
      sum += siemens * (volts[node] ?? 0) + (node < cluster ? 1 : -1) * (drive[slot] ?? 0);
      islands[cluster] = islands[node] ?? node;
    }
    volts[cluster] = sum / pivot;
  }
  return { volts, islands };
}

/**
 * The voltages that 1 A makes that is led into one cluster and out of another, all sources at 0 V. Both must lie in one island.
 * It is also how much a reading between the two changes for each ampere led in elsewhere (reciprocity).
 */
function unitCurrentVolts(factor: Factor, into: number, outOf: number): Float64Array {
  const { plan, conductance, pivots } = factor;
  const volts = new Float64Array(plan.clusterCount);
  if (into === outOf) return volts;
  const current = new Float64Array(plan.clusterCount);
  current[into] = 1;
  current[outOf] = -1;
  for (let step = 0; step < plan.order.length; step++) {
    const share = (current[plan.order[step] ?? 0] ?? 0) / (pivots[step] ?? 0);
    if (share === 0 || pivots[step] === 0) continue;
    for (let at = plan.offsets[step] ?? 0; at < (plan.offsets[step + 1] ?? 0); at++) {
      const node = plan.neighbours[at] ?? 0;
      current[node] = (current[node] ?? 0) + share * (conductance[plan.slots[at] ?? 0] ?? 0);
    }
  }
  for (let step = plan.order.length - 1; step >= 0; step--) {
    const pivot = pivots[step] ?? 0;
    if (pivot === 0) continue;
    const cluster = plan.order[step] ?? 0;
    let sum = current[cluster] ?? 0;
    for (let at = plan.offsets[step] ?? 0; at < (plan.offsets[step + 1] ?? 0); at++)
      sum += (conductance[plan.slots[at] ?? 0] ?? 0) * (volts[plan.neighbours[at] ?? 0] ?? 0);
    volts[cluster] = sum / pivot;
  }
  return volts;
}

/**
 * Resistance between two clusters of one island, in ohm, from a factor that is there already: a sum of squares along their two ways up the
 * elimination order, so that nothing is subtracted at the end.
 *
 * With y the share of 1 A led in at one cluster that reaches the cluster of step k, the resistance is the sum over k of (y of the first - y
 * of the second) squared over the pivot of step k. Kept clusters count as joined.
 *
 * @param pair The two clusters; that they lie in one island must be known beforehand.
 * @param scratch Zeros, one a cluster; zeros again afterwards.
 */
export function resistanceBetween(factor: Factor, pair: readonly [number, number], scratch: Float64Array): number {
  const [first, second] = pair;
  if (first === second) return 0;
  const { plan, pivots } = factor;
  let a = plan.stepOf[first] ?? -1;
  let b = plan.stepOf[second] ?? -1;
  if (a >= 0) scratch[first] = 1;
  if (b >= 0) scratch[second] = -1;
  let total = 0;
  while (a >= 0 || b >= 0) {
    const step = b < 0 || (a >= 0 && a < b) ? a : b;
    total += takeStep(factor, step, pivots[step] ?? 0, scratch);
    const parent = plan.parents[step] ?? -1;
    const next = parent < 0 ? -1 : (plan.stepOf[parent] ?? -1);
    const isShared = a === b;
    if (step === a) a = next;
    if (isShared || step === b) b = next;
  }
  return total;
}

/** Takes one cluster's current off the scratch, hands it to its neighbours, and returns its share of the sum. */
function takeStep({ plan, conductance }: Factor, step: number, pivot: number, scratch: Float64Array): number {
  const cluster = plan.order[step] ?? 0;
  const current = scratch[cluster] ?? 0;
  scratch[cluster] = 0;
  if (pivot === 0 || current === 0) return 0;
  const share = current / pivot;
  for (let at = plan.offsets[step] ?? 0; at < (plan.offsets[step + 1] ?? 0); at++) {
    const node = plan.neighbours[at] ?? 0;
    if ((plan.stepOf[node] ?? -1) >= 0)
      scratch[node] = (scratch[node] ?? 0) + share * (conductance[plan.slots[at] ?? 0] ?? 0);
  }
  return share * current;
}

import { keptIn } from "../../base/index.ts";
import type { BranchShape, BranchValues } from "../solver/branch-set.ts";
import { solveChanged, solveValues, type SolvedNetwork } from "../solver/solve-network.ts";
import { hiddenTimes, standingOf, valuesOf, type Modes } from "./modes.ts";
import type { PartList } from "./part.ts";

/**
 * Solutions of one list of parts in the modes that were asked for, kept so that the same list with a few branches changed follows from
 * them: most faults change one.
 */
export interface NearbySolutions {
  readonly list: PartList;
  /** Figures of pulsed drivers as they are without a change. */
  readonly besideOhm: Modes["besideOhm"];
  /** What hides in electronics that sleep is so many times its typical resistance. */
  readonly factor: number;
  readonly known: Map<string, Known>;
}

interface Known {
  readonly values: BranchValues;
  /** Worked out when something near is asked for; undefined where nothing fits. */
  solved?: SolvedNetwork | undefined;
}

/** Begins to keep the solutions of a list. */
export function nearbySolutions(list: PartList, besideOhm: Modes["besideOhm"], factor = 1): NearbySolutions {
  return { list, besideOhm, factor, known: new Map() };
}

/** With more branches changed than this a new elimination is as quick. */
const MOST_CHANGES = 4;
/** Resistances that differ by a smaller share than this are the same. */
const SAME_SHARE = 1e-13;

/**
 * Solves a list from the solution of the list it was made from, branch by branch.
 *
 * @param list A list of the same shape, with any parts changed.
 * @param wanted The values to solve for, and the modes they belong to.
 * @returns The solution; undefined where it has to be worked out in full.
 */
export function solveNear(
  nearby: NearbySolutions,
  list: PartList,
  { values, modes }: { readonly values: BranchValues; readonly modes: Modes },
): NearSolution | undefined {
  const { shape, reference } = nearby.list;
  if (list.shape !== shape) return undefined;
  const known = keptIn(nearby.known, `${standingOf(modes)}|${modes.besideOhm.size > 0}`, (): Known => ({
    values: baseValues(nearby, modes),
  }));
  const changed = changedBranches(known.values, values);
  if (!changed) return undefined;
  if (!("solved" in known)) {
    const found = solveValues(shape, known.values, reference);
    known.solved = found.kind === "solved" ? found : undefined;
  }
  const before = known.solved;
  let solved = before;
  for (const at of changed)
    solved &&= solveChanged(solved, changeAt(at, shape, { before: known.values, after: values }));
  return before && solved && { solved, before };
}

/** A solution with the one that it was made from. */
interface NearSolution {
  readonly solved: SolvedNetwork;
  readonly before: SolvedNetwork;
}

function baseValues({ list, besideOhm, factor }: NearbySolutions, modes: Modes): BranchValues {
  const values = valuesOf(list, { ...modes, besideOhm: modes.besideOhm.size > 0 ? besideOhm : modes.besideOhm });
  return factor === 1 ? values : hiddenTimes(list, values, factor);
}

function changedBranches(before: BranchValues, after: BranchValues): readonly number[] | undefined {
  const changed: number[] = [];
  for (let at = 0; at < after.ohm.length; at++) {
    const [was, is] = [before.ohm[at] ?? 0, after.ohm[at] ?? 0];
    if (before.volt[at] === after.volt[at] && (was === is || Math.abs(is - was) < SAME_SHARE * was)) continue;
    if (changed.push(at) > MOST_CHANGES) return undefined;
  }
  return changed;
}

function changeAt(
  at: number,
  shape: BranchShape,
  { before, after }: { readonly before: BranchValues; readonly after: BranchValues },
): Parameters<typeof solveChanged>[1] {
  const valueOf = ({ ohm, volt }: BranchValues): { ohm: number; volt: number } => ({
    ohm: ohm[at] ?? Infinity,
    volt: volt[at] ?? 0,
  });
  return { from: shape.from[at] ?? 0, to: shape.to[at] ?? 0, before: valueOf(before), after: valueOf(after) };
}

import type { Harness } from "../../model/index.ts";
import { findPoint, unknownTarget } from "../faults/find-target.ts";
import type { Settled } from "../network/settle.ts";
import type { QuestionProblem } from "../network/situation.ts";
import type { MeterSpec } from "./meter-spec.ts";

/** A settled circuit with the meter that is held to it. */
export interface Bench {
  readonly harness: Harness;
  readonly settled: Settled;
  readonly meter: MeterSpec;
  /** False where only the value is looked at, as when states are compared: no band and no reasons are worked out. */
  readonly isBandWanted: boolean;
}

/** The two nodes of a probe, or what is wrong with it. */
export type PointPair =
  | { readonly kind: "pair"; readonly red: number; readonly black: number }
  | { readonly kind: "wrong-question"; readonly problems: readonly QuestionProblem[] };

/** Looks up the points of both leads. */
export function findPair(bench: Bench, probe: { readonly red: string; readonly black: string }): PointPair {
  const { harness, settled } = bench;
  const red = findPoint(harness, settled.list, probe.red);
  const black = findPoint(harness, settled.list, probe.black);
  if (red !== undefined && black !== undefined) return { kind: "pair", red, black };
  const lost = [red === undefined ? [probe.red] : [], black === undefined ? [probe.black] : []].flat();
  const problems = lost.map((name) => ({ ...unknownTarget(harness, name, "point") }));
  return { kind: "wrong-question", problems };
}

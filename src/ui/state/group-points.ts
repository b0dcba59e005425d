import type { TestPointsAnswer } from "../../application/index.ts";
import { PROBE_CLASSES } from "./words.ts";

/** A place to measure, as the answer gives it. */
export type TestPoint = TestPointsAnswer["points"][number];

/** Places to measure of one class. */
export interface PointGroup {
  readonly id: string;
  readonly title: string;
  readonly mark: string;
  readonly points: readonly TestPoint[];
}

/** Places to measure by class, from the safest; the order inside a class is that of the answer. */
export function groupPoints(points: readonly TestPoint[]): readonly PointGroup[] {
  return [...PROBE_CLASSES].flatMap(([id, { title, mark }]) => {
    const own = points.filter((point) => point.class === id);
    return own.length === 0 ? [] : [{ id, title, mark, points: own }];
  });
}

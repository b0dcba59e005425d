import { FLOATING, OVER_RANGE } from "./meter-scale.ts";

/** Whether a point is one of the special marks instead of a place on the axis. */
export function isSpecial(point: number): boolean {
  return Number.isNaN(point) || point === OVER_RANGE || point === FLOATING;
}

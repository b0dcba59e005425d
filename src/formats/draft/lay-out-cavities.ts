import { naturalOrder } from "../../base/index.ts";
import type { CavityInput } from "./draft-types.ts";

/** A cavity whose place on the face may not be known yet. */
export type LooseCavity = Omit<CavityInput, "x" | "y"> & { readonly x?: number; readonly y?: number };

/** Most cavities in one row of an assumed face. */
const MOST_IN_ROW = 20;

/**
 * Gives every cavity a place. If each has one already, those stand. Otherwise all are laid in rows, in the order people count: up to
 * five in one row, then two rows, more where rows would grow too long.
 *
 * Common practice, no source: the real face may be numbered in any way, so whoever shows it must say that it is assumed.
 *
 * @param cavities The cavities in the order of the file.
 * @returns The cavities with places, in the order people count if places were assumed, and whether they were.
 */
export function layOutCavities(cavities: readonly LooseCavity[]): { cavities: CavityInput[]; isAssumed: boolean } {
  const placed: CavityInput[] = [];
  for (const cavity of cavities) {
    const { x, y } = cavity;
    if (x !== undefined && y !== undefined) placed.push({ ...cavity, x, y });
  }
  if (placed.length === cavities.length) return { cavities: placed, isAssumed: false };
  const rows = cavities.length <= 5 ? 1 : Math.max(2, Math.ceil(cavities.length / MOST_IN_ROW));
  const columns = Math.ceil(cavities.length / rows);
  const sorted = [...cavities].sort((first, second) => naturalOrder(first.id, second.id));
  return {
    cavities: sorted.map((cavity, at) => ({ ...cavity, x: at % columns, y: Math.floor(at / columns) })),
    isAssumed: true,
  };
}

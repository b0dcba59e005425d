import type { RowSystem } from "./row-system.ts";

/** A thing of a column on its way from above to below. */
export interface ChainStop {
  readonly row: number;
  /** Least distance to the thing above it. */
  readonly least: number;
  /** The label of the wire above it, if a wire is there, with where the wire begins and ends around the two things. */
  readonly label:
    { readonly row: number; readonly from: number; readonly to: number; readonly middle: number } | undefined;
  /** Whether its height is given by something outside of the column. */
  readonly isFixed: boolean;
}

/** What is to be arranged. */
export interface RowArrangement {
  readonly system: RowSystem;
  /** Columns, each with its ends. */
  readonly chains: readonly (readonly ChainStop[])[];
  /** Rows that go as low as they can, with how far what stands there reaches below its height. */
  readonly low: ReadonlyMap<number, number>;
  /** How far each row reaches below its height. */
  readonly reach: readonly number[];
}

/**
 * Gives every row its height under the rules of a system: as high as it can, the ground side as low as it can, and what stands in between
 * so that the wires of a column share its slack.
 */
export function arrangeRows({ system, chains, low, reach }: RowArrangement): readonly number[] {
  const heights = system.highest();
  const bottom = Math.max(...heights.map((height, row) => height + (reach[row] ?? 0)));
  for (const row of (system.order() ?? []).toReversed()) {
    const below = low.get(row);
    if (below === undefined) continue;
    heights[row] = Math.max(heights[row] ?? 0, Math.min(system.most(row, heights), bottom - below));
  }
  for (let pass = 0; pass < 3; pass++) {
    for (const chain of chains) shareSlack(system, chain, heights);
    for (const chain of chains) centreLabels(system, chain, heights);
  }
  return heights;
}

function shareSlack(system: RowSystem, chain: readonly ChainStop[], heights: number[]): void {
  let from = 0;
  for (let to = 1; to < chain.length; to++) {
    if (chain[to]?.isFixed !== true) continue;
    const stops = chain.slice(from + 1, to + 1);
    const start = heights[chain[from]?.row ?? 0] ?? 0;
    const least = stops.reduce((sum, stop) => sum + stop.least, 0);
    const slack = Math.max(0, (heights[chain[to]?.row ?? 0] ?? 0) - start - least);
    const wires = stops.filter(({ label }) => label).length;
    let wished = start;
    for (const stop of stops.slice(0, -1)) {
      wished += stop.least + (stop.label ? slack / wires : 0);
      moveTo(system, stop.row, wished, heights);
    }
    from = to;
  }
}

function centreLabels(system: RowSystem, chain: readonly ChainStop[], heights: number[]): void {
  chain.forEach(({ row, label }, at) => {
    const above = chain[at - 1];
    if (!label || !above) return;
    const start = (heights[above.row] ?? 0) + label.from;
    const end = (heights[row] ?? 0) + label.to;
    moveTo(system, label.row, (start + end) / 2 - label.middle, heights);
  });
}

/** Moves a row as near to a height as the rules allow beside the other rows. */
function moveTo(system: RowSystem, row: number, wished: number, heights: number[]): void {
  const height = Math.min(Math.max(Math.round(wished), system.least(row, heights)), system.most(row, heights));
  heights[row] = height;
}

/** Bounds of the shares that jobs are sorted by, the last one for what counts as certain. */
const BOUNDS = [0, 0.2, 0.4, 0.6, 0.8, 0.95, 0.99, 1.000001] as const;

/** A claim of the planner with the share it gave, and whether it was right. */
export interface Claim {
  readonly share: number;
  readonly isRight: boolean;
}

/** How often claims of each share were right, as rows of a table: one is honest where the last two columns are alike. */
export function calibrationTable(claims: readonly Claim[]): string {
  const rows = BOUNDS.slice(1).flatMap((top, at) => {
    const bottom = BOUNDS[at] ?? 0;
    const own = claims.filter(({ share }) => share >= bottom && share < top);
    if (own.length === 0) return [];
    const mean = own.reduce((sum, { share }) => sum + share, 0) / own.length;
    const right = own.filter(({ isRight }) => isRight).length / own.length;
    const cells = [
      `${percent(bottom)} to ${percent(Math.min(1, top))}`,
      String(own.length),
      percent(mean),
      percent(right),
    ];
    return [`| ${cells.join(" | ")} |`];
  });
  return ["| Claimed | Claims | Claimed on average | Right |", "| --- | --- | --- | --- |", ...rows].join("\n");
}

const percent = (share: number): string => `${(100 * share).toFixed(0)} %`;

import { COSTS } from "../checks/cost-table.ts";

/**
 * Minutes of a repair, proof included.
 *
 * @param group Name of the repair group; of two repairs joined by "and" the sum.
 */
export function repairMinutes(group: string): number {
  const usual = COSTS.repairMinutes["part"] ?? 30;
  return group.split(" and ").reduce((sum, part) => sum + (COSTS.repairMinutes[part.split(" ")[0] ?? ""] ?? usual), 0);
}

import { naturalOrder } from "../../base/index.ts";
import type { ProbePoint } from "../../measurement-safety/index.ts";
import { isMeterCheck, type Check, type MeterCheck } from "./check.ts";

/**
 * Tells which checks would only repeat what is known: volts between two points that earlier voltages of the same set-up join in a chain, and
 * ohms between two points that were read already.
 *
 * @param read The meter checks that gave a reading.
 * @returns Whether a check tells nothing new for that reason.
 */
export function impliedBy(read: readonly Check[]): (check: Check) => boolean {
  const setups = new Map<string, Map<string, string>>();
  for (const check of read.filter(isMeterCheck)) {
    const joined = setups.get(setupOf(check)) ?? new Map<string, string>();
    setups.set(setupOf(check), joined);
    joined.set(rootOf(joined, pointOf(check.red)), rootOf(joined, pointOf(check.black)));
  }
  return (check) => {
    if (!isMeterCheck(check)) return false;
    const joined = setups.get(setupOf(check));
    return joined !== undefined && rootOf(joined, pointOf(check.red)) === rootOf(joined, pointOf(check.black));
  };
}

/** Volts add up along a chain; ohms do not, so each pair stands alone. */
function setupOf({ kind, need, red, black }: MeterCheck): string {
  const pair = kind === "resistance" ? [pointOf(red), pointOf(black)].sort(naturalOrder).join() : "";
  return [kind, need.state, need.unplugged.join(), pair].join("|");
}

function pointOf({ at, id }: ProbePoint): string {
  return at ?? id;
}

function rootOf(joined: ReadonlyMap<string, string>, point: string): string {
  let root = point;
  for (let next = joined.get(root); next !== undefined && next !== root; next = joined.get(root)) root = next;
  return root;
}

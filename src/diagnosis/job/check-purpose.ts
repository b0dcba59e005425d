import { railNodes } from "../../connectivity/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import type { MeterCheck } from "../checks/check.ts";

/** Below this a line that should carry its full voltage does not; above it a voltage drop is none. In volt, for wording only. */
const DROP_VOLT = 1.5;
/** Below this two points are joined by conductors, in ohm, for wording only. */
const JOINED_OHM = 5;

/**
 * What a meter reading is there for, in a sentence of the trade.
 *
 * @param expected Upper limit of what a sound machine shows, in volt or ohm; absent where it shows no number.
 */
export function purposeOf(harness: Harness, check: MeterCheck, expected: number | undefined): string {
  const [red, black] = [check.red.at ?? check.red.id, check.black.at ?? check.black.id];
  if (check.kind === "resistance") {
    if (expected === undefined) return `Shows whether ${red} and ${black} are apart, as they must be.`;
    return expected < JOINED_OHM
      ? `Shows whether the way from ${red} to ${black} is whole.`
      : `Measures what lies between ${red} and ${black} itself.`;
  }
  const isDrop = expected !== undefined && Math.abs(expected) < DROP_VOLT;
  const [redRail, blackRail] = [railAt(harness, red), railAt(harness, black)];
  const [rail, other] = redRail === undefined ? [blackRail, redRail] : [redRail, blackRail];
  const point = redRail === undefined ? red : black;
  if (rail === undefined || other !== undefined)
    return isDrop
      ? `Shows the voltage drop between ${red} and ${black}.`
      : `Shows whether supply and ground reach ${red} and ${black} at once.`;
  if (rail === "supply")
    return isDrop
      ? `Voltage drop of the feed up to ${point}: tells the feed from what lies behind it.`
      : `Shows whether ${point} has its ground.`;
  return isDrop
    ? `Voltage drop of the ground side from ${point} on: tells the ground side from what lies before it.`
    : `Shows whether the feed arrives at ${point}.`;
}

function railAt(harness: Harness, point: string): "supply" | "ground" | undefined {
  const node = harness.nodeNumbers.get(point) ?? -1;
  const { supply, ground } = railNodes(harness);
  if (supply[node] === 1) return "supply";
  return ground[node] === 1 ? "ground" : undefined;
}

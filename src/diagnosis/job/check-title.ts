import type { Harness } from "../../model/index.ts";
import { isMeterCheck, type Check, type HandCheck, type MeterCheck } from "../checks/check.ts";

/** One line for a check: what is done where, without what it should show. */
export function titleOf(check: Check): string {
  if (!isMeterCheck(check)) return HAND_TITLES[check.kind](check.at.id);
  return `${check.kind === "volts" ? "Volts" : "Ohms"} from ${pointsOf(check).join(" to ")}`;
}

/** The state of the machine that a check is taken in, in words. */
export function conditionOf(harness: Harness, { need }: Check): string {
  return harness.document.states.find(({ id }) => id === need.state)?.label ?? need.state;
}

const HAND_TITLES: Readonly<Record<HandCheck["kind"], (name: string) => string>> = {
  look: (name) => `Look at ${name}`,
  wiggle: (name) => `Move ${name} and watch`,
  drag: (name) => `Pull test at ${name}`,
  swap: (name) => `Exchange ${name} for a known-good one`,
};

/** Points of the leads, red first. */
export function pointsOf({ red, black }: MeterCheck): readonly [string, string] {
  return [red.at ?? red.id, black.at ?? black.id];
}

import type { Control } from "./part.ts";
import type { Stand } from "./situation.ts";

/** Whether a stand lets current through at all. */
export function isOn(stand: Stand): boolean {
  return stand === "closed" || stand === "on" || (typeof stand === "object" && stand.dutyPercent > 0);
}

/** The control of something that is on for a share of the time only. */
export function dutyOf(stand: Stand): Control | undefined {
  if (typeof stand !== "object" || stand.dutyPercent <= 0 || stand.dutyPercent >= 100) return undefined;
  return { kind: "duty", share: stand.dutyPercent / 100 };
}

import type { Check } from "../checks/check.ts";

/** A check in words. */
export interface DescribedCheck {
  readonly key: string;
  readonly kind: Check["kind"];
  /** One line: what is done where. */
  readonly title: string;
  /** What to do, in order. */
  readonly steps: readonly string[];
  /** The state of the machine, by id and in words. */
  readonly state: string;
  readonly condition: string;
  readonly unplugged: readonly string[];
  /** Points of the leads, red first; what is looked at for a check without a meter. */
  readonly points: readonly string[];
  /** What the healthy machine shows. */
  readonly expected: string;
  readonly expectedLow?: number;
  readonly expectedHigh?: number;
  readonly cautions: readonly string[];
}

import { signShares, type Hypothesis, type NewJob } from "ohmward/diagnosis";
import type { Harness } from "ohmward/harness-model";
import { makeFitting } from "ohmward/harness-model";

/** What a fault would be noticed by. */
export interface Noticed {
  readonly codes: readonly string[];
  /** Components whose function is disturbed, and some that are near and work. */
  readonly bad: readonly string[];
  readonly good: readonly string[];
}

/**
 * What each fault is noticed by: codes that it sets and functions that it disturbs.
 *
 * @param harness The harness.
 * @param faults The faults.
 */
export function noticedBy(harness: Harness, faults: readonly Hypothesis[]): readonly Noticed[] {
  const isFitted = makeFitting(harness.build);
  const codes = harness.document.codes.filter((code) => isFitted(code.when));
  const consumers = [...harness.fitted.components.values()].filter(({ kind }) => FUNCTIONS.has(kind));
  const asked = { codes, items: consumers.map(({ id }) => id) };
  const noticed: Noticed[] = [];
  // In portions, because the readings of each are kept until its end.
  for (let start = 0; start < faults.length; start += PORTION) {
    const portion = faults.slice(start, start + PORTION);
    const signs = signShares(harness, asked, [[], ...portion.map((fault) => fault.faults)]);
    portion.forEach((_, index) => {
      const shares = (of: Float64Array): number => of[index] ?? 0;
      noticed.push({
        codes: [...signs.codes].filter(([, of]) => shares(of) > 0.5).map(([{ id }]) => id),
        bad: [...signs.items].filter(([, of]) => shares(of) > 0.5).map(([id]) => id),
        good: [...signs.items].filter(([, of]) => shares(of) <= 0.5).map(([id]) => id),
      });
    });
  }
  return noticed;
}

const PORTION = 300;

/** Kinds of components whose work a driver notices. */
const FUNCTIONS: ReadonlySet<string> = new Set([
  "valve",
  "injector",
  "motor",
  "heater",
  "starter",
  "alternator",
  "lamp",
  "relay",
  "sensor",
]);
/** Sensors are noticed by their codes; only without a code does the person name one. */
const MOST_NAMED = 3;
/** Where everything fails at once, the first few codes are written down. */
const MOST_CODES = 6;

/** The job that a fault would begin with; undefined if nobody would notice it. */
export function jobOf(id: string, truth: Hypothesis, { codes, bad, good }: Noticed): NewJob | undefined {
  if (codes.length === 0 && bad.length === 0) return undefined;
  const symptoms =
    codes.length > 0
      ? []
      : [
          ...bad.slice(0, MOST_NAMED).map((item) => ({ item, is: "bad" as const })),
          ...good.slice(0, 2).map((item) => ({ item, is: "good" as const })),
        ];
  const presence = truth.isIntermittent ? ("intermittent" as const) : ("always" as const);
  return {
    id,
    stamp: { at: "2031-01-05T07:00:00Z", writer: "s" },
    complaint: { words: "simulated", conditions: { presence }, recentWork: [] },
    codes: codes.slice(0, MOST_CODES).map((code) => ({ code, status: "active" as const })),
    symptoms,
  };
}

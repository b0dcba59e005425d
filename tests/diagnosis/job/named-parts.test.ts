import { suspects } from "../../../src/diagnosis/job/endings.ts";
import { signShares, type JobState } from "ohmward/diagnosis";
import type { Fault } from "ohmward/simulation";
import { describe, expect, test } from "vitest";
import { begin, demo, newJob } from "../demo-job.ts";

// Common practice, no source: the part that is named as not working is itself among the first suspects, and a code is raised by the open or
// the short of the pin that it watches. Held for every consumer and every code of the demo machine (invented).

const CONSUMERS = new Set(["sensor", "injector", "valve", "heater", "starter", "alternator", "motor"]);

function rankOf(state: JobState, names: readonly string[]): number {
  return suspects(state).findIndex(({ label }) => names.includes(label)) + 1;
}

describe("a consumer that is reported alone", () => {
  const consumers = [...demo().fitted.components.values()].filter(({ kind }) => CONSUMERS.has(kind));
  test.each(consumers.map(({ id }) => id))("%s is itself one of the first five suspects", (id) => {
    const rank = rankOf(begin(newJob([], [id])), [`part ${id}`]);
    expect(rank).toBeGreaterThan(0);
    expect(rank).toBeLessThanOrEqual(5);
  });
});

/** What breaks or touches at the pins of a code: the contact open, the line on ground, on the supply, lines of the code on each other. */
function faultsAt(points: readonly string[]): readonly (readonly Fault[])[] {
  const [first, second] = points;
  const own = points.flatMap((of): readonly Fault[] => [
    { kind: "open", of },
    { kind: "short", of, to: "G2-", ohm: 0.1 },
    { kind: "short", of, to: "G2+", ohm: 0.1 },
  ]);
  const across: readonly Fault[] =
    first !== undefined && second !== undefined ? [{ kind: "short", of: first, to: second, ohm: 0.1 }] : [];
  return [...own, ...across].map((fault) => [fault]);
}

describe("a code", () => {
  const codes = demo().document.codes.filter(({ when }) => when === undefined);
  test.each(codes.map((code) => [code.id, code] as const))("%s is set by a fault of its own pins", (_id, code) => {
    const { codes: shares } = signShares(demo(), { codes: [code], items: [] }, [[], ...faultsAt(code.points)]);
    expect(Math.max(...(shares.get(code) ?? []))).toBeGreaterThan(0.4);
  });
});

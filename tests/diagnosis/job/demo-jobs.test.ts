import { nextCheck, suspects, type Check, type Suggestion } from "ohmward/diagnosis";
import type { Fault } from "ohmward/simulation";
import { jobText } from "ohmward/job-records";
import { describe, expect, test } from "vitest";
import { begin, follow, newJob } from "../demo-job.ts";

/** Names of the repairs that an ending names, the first to do first. */
function namedIn(end: Suggestion): readonly string[] {
  if (end.kind === "repair") return [end.suspect.label];
  return end.kind === "repair-in-order" ? end.order.map(({ label }) => label) : [];
}

const atConnector =
  (id: string) =>
  (check: Check): boolean =>
    check.kind === "visual-inspection" && check.at.id.startsWith(id);

/**
 * Faults of the demo machine with what is noticed, as they stand in demo-harness/expected.json (invented, computed apart from this code), and
 * what the first check should be about where the table teaches it.
 */
const jobs: readonly {
  readonly name: string;
  readonly codes?: readonly string[];
  readonly bad?: readonly string[];
  readonly faults: readonly Fault[];
  readonly isSeen?: (check: Check) => boolean;
  readonly among: string;
  readonly first?: RegExp;
}[] = [
  {
    name: "no crank, jumper plug missing",
    bad: ["M1"],
    faults: [{ kind: "unplugged", of: "XT1" }],
    isSeen: atConnector("XT1"),
    among: "plug XT1",
  },
  {
    name: "slow crank, starter relay line corroded in XE1:1",
    bad: ["M1"],
    faults: [{ kind: "high-resistance", of: "XE1:1", ohm: 0.25 }],
    among: "contact XE1:1",
  },
  {
    name: "four sensors high, shared return open",
    codes: ["FE111", "FE121", "FE141", "FE151"],
    faults: [{ kind: "open", of: "W78" }],
    among: "wire W78",
  },
  {
    name: "three sensors low, 5 V branch on the block",
    codes: ["FE112", "FE122", "FE152", "FE161"],
    faults: [{ kind: "short", of: "W74", to: "G2-", ohm: 0.05 }],
    among: "wire W74",
  },
  {
    name: "coolant code alone, one leg of the return open",
    codes: ["FE141"],
    faults: [{ kind: "open", of: "W81" }],
    among: "wire W81",
  },
  {
    name: "bus errors, terminator left off: 60 becomes 120 ohm",
    codes: ["FE412", "FC512"],
    faults: [{ kind: "unplugged", of: "RT1.X" }],
    isSeen: atConnector("RT1.X"),
    among: "plug RT1.X",
  },
  {
    name: "bus broken at the hinge",
    codes: ["FE411", "FE412", "FC511", "FC512"],
    faults: [{ kind: "open", of: "W44" }],
    among: "wire W44",
    first: /^resistance .*XD1/u,
  },
  {
    name: "bus bridged by water in XC1",
    codes: ["FE411", "FE412", "FC511", "FC512"],
    faults: [{ kind: "bridge", between: ["XC1m:4", "XC1m:5"], ohm: 0.7 }],
    isSeen: atConnector("XC1"),
    among: "cavities XC1:4 5",
    first: /^resistance .*XD1/u,
  },
  {
    name: "fan dead, terminal pushed out of XF1:1",
    codes: ["FE211"],
    faults: [{ kind: "open", of: "XF1:1" }],
    among: "contact XF1:1",
  },
  {
    name: "no heat, strip fuse blown",
    codes: ["FE231"],
    faults: [{ kind: "blown", of: "FB1.FL2" }],
    isSeen: atConnector("FB1"),
    among: "fuse FB1.FL2",
  },
];

describe("jobs on the demo machine", () => {
  test.each(jobs)("$name: the true repair is named", ({ codes = [], bad = [], faults, isSeen, among, first }) => {
    const { state, end, checks } = follow(begin(newJob(codes, bad)), faults, isSeen);
    expect(namedIn(end)).toContain(among);
    expect(checks.length).toBeLessThanOrEqual(25);
    if (first) expect(checks[0]).toMatch(first);
    expect(suspects(state).reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
    expect(jobText(state.record)).toContain("CORRECTION");
  });

  test("an ending has notes and proofs: the wrong reading again, the codes, the harness moved", () => {
    const { end } = follow(begin(newJob(["FE111", "FE121", "FE141", "FE151"])), [{ kind: "open", of: "W78" }]);
    if (end.kind !== "repair" && end.kind !== "repair-in-order") throw new Error(end.kind);
    expect(end.notes.length).toBeGreaterThan(2);
    expect(end.proofs.map(({ text }) => text).join(" ")).toMatch(
      /Repeat the test in the same state.*FE111.*move the harness/su,
    );
    expect(end.proofs[0]?.check?.expected).toMatch(/ to /u);
  });

  test("a suggestion says what it parts, why, and what each outcome leaves", () => {
    const next = nextCheck(begin(newJob(["FE411", "FE412", "FC511", "FC512"])));
    if (next.kind !== "check") throw new Error(next.kind);
    expect(next.why.length).toBeGreaterThanOrEqual(3);
    expect(next.outcomes.reduce((sum, { share }) => sum + share, 0)).toBeGreaterThan(0.95);
    for (const { leaves } of next.outcomes) expect(leaves.length).toBeGreaterThan(0);
    // 60 ohm whole, 120 with one end missing: published for this bus, see docs/sources.md and the demo table.
    const labels = next.outcomes.map(({ label }) => label).join("; ");
    expect(labels).toMatch(/about 60 Ω/u);
    expect(labels).toMatch(/1[12]\d Ω/u);
    expect(next.others.length).toBeGreaterThan(2);
    expect(next.check.steps.length).toBeGreaterThan(1);
    expect(next.check.cautions.length).toBeGreaterThan(0);
  });

  test("nothing named, nothing to go on", () => {
    expect(nextCheck(begin(newJob([])))).toEqual({ kind: "nothing-to-go-on", unknown: [] });
    expect(nextCheck(begin(newJob([], ["ZZ9"])))).toEqual({ kind: "nothing-to-go-on", unknown: ["ZZ9"] });
  });
});

test("a fault that comes and goes and was not seen ends with the reading to watch before anything is replaced", () => {
  const complaint = { words: "now and then", conditions: { presence: "intermittent" as const }, recentWork: [] };
  const { end } = follow(begin(newJob([], ["B3"], { complaint })), []);
  if (end.kind !== "repair-in-order") throw new Error(end.kind);
  expect(end.notes.join(" ")).toMatch(
    /not seen.*replace nothing yet.*lowest and highest value recorded: DC voltage from/u,
  );
  expect(end.order.map(({ label }) => label)).not.toContain("no electrical fault");
});

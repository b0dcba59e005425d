// First plan and next step on circuits of the demo machine, and on a large generated harness. Aims are printed, not asserted.
//
// The yardstick, taken in the same run on the same circuit, is the plain way to the same readings: one solution of the whole machine for
// every check under every fault. It is timed on a sample and multiplied up.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import {
  isMeterCheck,
  nextCheck,
  planNext,
  startJob,
  takeReading,
  type JobState,
  type MeterCheck,
} from "ohmward/diagnosis";
import { readMeter } from "ohmward/simulation";
import { fitBuild, openHarness, type Harness } from "ohmward/harness-model";
import { bigHarness } from "../simulate/support/big-harness.ts";
import { measure } from "./parts/measure.ts";
import { printTable, showRatio, showTime } from "./parts/table.ts";

const stamp = { at: "2031-01-05T07:30:00Z", writer: "b" };
const ROUNDS = 9;
const SAMPLE = 40;

function begin(harness: Harness, codes: readonly string[], bad: readonly string[]): JobState {
  const started = startJob(harness, {
    id: "bench",
    stamp,
    complaint: { words: "bench", conditions: { presence: "always" }, recentWork: [] },
    codes: codes.map((code) => ({ code, status: "active" as const })),
    symptoms: bad.map((item) => ({ item, is: "bad" as const })),
  });
  if (!started.ok) throw new Error(JSON.stringify(started.error));
  return started.value;
}

/** A reading such as a healthy machine gives, and the suggestion after it. */
function afterReading(state: JobState): number {
  const next = nextCheck(state);
  if (next.kind !== "check") return NaN;
  const check = state.model.checks.get(next.check.key);
  if (!check || !isMeterCheck(check)) return NaN;
  const shown = readMeter(state.harness, question(check, 0, state));
  const unit = check.kind === "dc-voltage" ? "V" : "Ω";
  const value = shown.kind === "value" ? shown.value : 0;
  const given = { kind: "value", text: `${value} ${unit}`, value, unit, isMeterProven: true } as const;
  return measure(1, () => {
    const taken = takeReading(state, { key: check.key, given, stamp });
    return taken.ok ? nextCheck(taken.value) : undefined;
  }).median;
}

function question({ kind, need, red, black }: MeterCheck, hypothesis: number, { model }: JobState) {
  const faults = model.hypotheses[hypothesis]?.faults ?? [];
  return {
    operatingConditions: { state: need.state, unplugged: need.unplugged, faults },
    probe: { kind, red: red.at ?? "", black: black.at ?? "" },
    compareWith: [],
  };
}

/** What the readings of a plan would take one at a time. */
function plainWay(state: JobState): number {
  const { plan } = planNext(state);
  const checks = plan.checks.filter(isMeterCheck);
  const cases = [...new Set(plan.cases)];
  const { median } = measure(SAMPLE, (run) => {
    const check = checks[(run * 37) % checks.length];
    return check && readMeter(state.harness, question(check, cases[(run * 11) % cases.length] ?? 0, state));
  });
  return median * checks.length * cases.length;
}

const opened = openHarness(readFileSync(join(process.cwd(), "demo-harness/firnlark-45.ohm.json"), "utf8"));
if (!opened.ok) throw new Error("The demo machine does not open");
const { document } = opened.value;

const least = (times: readonly number[]): number => Math.min(...times.filter((each) => !Number.isNaN(each)));

function circuit(codes: readonly string[], bad: readonly string[]): readonly string[] {
  const first: number[] = [];
  const next: number[] = [];
  let state: JobState | undefined;
  for (let round = 0; round < ROUNDS; round++) {
    // A harness of its own each time, so that nothing is remembered; reading the document is not counted.
    const harness = fitBuild(document, "base");
    if (!harness) throw new Error("no build");
    const { median, last } = measure(1, () => {
      const begun = begin(harness, codes, bad);
      nextCheck(begun);
      return begun;
    });
    first.push(median);
    next.push(afterReading(last));
    state = last;
  }
  if (!state) throw new Error("no job");
  const median = first.toSorted((a, b) => a - b)[Math.floor(ROUNDS / 2)] ?? NaN;
  return [
    String(state.model.hypotheses.length),
    showTime(least(first)),
    showTime(median),
    showTime(least(next)),
    showRatio(plainWay(state) / least(first)),
  ];
}

const circuits = [
  [["FE141"], []],
  [["FE311"], []],
  [["FE112", "FE122", "FE152", "FE161"], []],
  [["FE411", "FE412"], []],
  [[], ["M1"]],
] as const;
const columns = ["faults", "first, least", "first, median", "next, least", "plain way"];
printTable(
  "Demo machine (aims: first 100 ms, next 30 ms)",
  columns,
  circuits.map(([codes, bad]) => ({ name: [...codes, ...bad].join(" "), cells: circuit(codes, bad) })),
);

const large = fitBuild(bigHarness(20_000), "base");
if (!large) throw new Error("no build");
const big = measure(1, () => {
  const state = begin(large, [], ["L7"]);
  nextCheck(state);
  return state;
});
printTable(
  "20,000 wires (aim: 1 s)",
  ["faults", "first"],
  [{ name: "one lamp dead", cells: [String(big.last.model.hypotheses.length), showTime(big.median)] }],
);

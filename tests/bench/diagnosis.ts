// First plan and next step on a circuit of the demo machine, and on a large generated harness. Aims are printed, not asserted.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { nextCheck, planNext, startJob, takeReading, type JobState } from "ohmward/diagnosis";
import { fitBuild, openHarness, type Harness } from "ohmward/model";
import { bigHarness } from "../simulate/support/big-harness.ts";

const stamp = { at: "2031-01-05T07:30:00Z", writer: "b" };

function time<Answer>(work: () => Answer): { readonly ms: number; readonly answer: Answer } {
  const start = performance.now();
  const answer = work();
  return { ms: performance.now() - start, answer };
}

function median(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? NaN;
}

function begin(harness: Harness, codes: readonly string[], bad: readonly string[]): JobState {
  const started = startJob(harness, {
    id: "bench",
    stamp,
    complaint: { words: "bench", conditions: { presence: "always" }, recentWork: [] },
    codes: codes.map((code) => ({ code, status: "active" as const })),
    symptoms: bad.map((thing) => ({ thing, is: "bad" as const })),
  });
  if (!started.ok) throw new Error(JSON.stringify(started.error));
  return started.value;
}

function afterReading(state: JobState): number {
  const next = nextCheck(state);
  if (next.kind !== "check") return NaN;
  const check = state.workup.checks.get(next.check.key);
  if (!check || (check.kind !== "volts" && check.kind !== "ohms")) return NaN;
  const given = {
    kind: "value",
    text: "1",
    value: 1,
    unit: check.kind === "volts" ? "V" : "Ω",
    isMeterProven: true,
  } as const;
  return time(() => {
    const taken = takeReading(state, { key: check.key, given, stamp });
    return taken.ok ? planNext(taken.value) : undefined;
  }).ms;
}

const opened = openHarness(readFileSync(join(process.cwd(), "demo-harness/firnlark-45.ohm.json"), "utf8"));
if (!opened.ok) throw new Error("The demo machine does not open");
const { document } = opened.value;

for (const [codes, bad] of [
  [["FE141"], []],
  [["FE112", "FE122", "FE152", "FE161"], []],
  [["FE411", "FE412"], []],
  [[], ["M1"]],
] as const) {
  const first: number[] = [];
  const next: number[] = [];
  for (let round = 0; round < 7; round++) {
    // A harness of its own each time, so that nothing is remembered.
    const harness = fitBuild(document, "base");
    if (!harness) throw new Error("no build");
    const { ms, answer } = time(() => {
      const state = begin(harness, codes, bad);
      planNext(state);
      return state;
    });
    first.push(ms);
    next.push(afterReading(answer));
  }
  const name = [...codes, ...bad].join(" ");
  console.log(
    `${name}: first plan ${median(first).toFixed(0)} ms (aim 100), after a reading ${median(next).toFixed(0)} ms (aim 30)`,
  );
}

const large = fitBuild(bigHarness(20_000), "base");
if (!large) throw new Error("no build");
const big = time(() => {
  const state = begin(large, [], ["L7"]);
  planNext(state);
  return state;
});
console.log(
  `20,000 wires: first plan ${big.ms.toFixed(0)} ms (aim 1000), ${big.answer.workup.hypotheses.length} hypotheses`,
);

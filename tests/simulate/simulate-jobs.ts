// node .ci/run-ts.mjs tests/simulate/simulate-jobs.ts [stride] [seed]
// Simulates jobs on the demo machine and writes the table of docs/methods/diagnosis.md anew. With a stride of n every n-th fault is taken.
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { seededRandom } from "ohmward/base";
import { startJob, type Hypothesis, type NewJob } from "ohmward/diagnosis";
import { fitBuild, openHarness, type Harness } from "ohmward/model";
import { jobOf, noticedBy } from "./support/complaint-of.ts";
import { listFaults } from "./support/list-faults.ts";
import { halveByCount, walkFromModule, type Policy } from "./support/policies.ts";
import { runJob, type JobEnd } from "./support/run-job.ts";
import { makeTable, type TableRow } from "./support/table.ts";

const stride = Number(process.argv[2] ?? 40);
const seed = Number(process.argv[3] ?? 1);
const opened = openHarness(readFileSync(join(process.cwd(), "demo-harness/firnlark-45.ohm.json"), "utf8"));
if (!opened.ok) throw new Error("The demo machine does not open");
const fitted = fitBuild(opened.value.document, "base");
if (!fitted) throw new Error("The demo machine has no base build");
const harness: Harness = fitted;
const { hypotheses, groups } = listFaults(harness);
const taken = [...hypotheses.keys()].filter((index) => index % stride === seed % stride);

interface Case {
  readonly index: number;
  readonly truth: Hypothesis;
  readonly repairs: readonly string[];
}

const single = (index: number): readonly Case[] => {
  const truth = hypotheses[index];
  return truth ? [{ index, truth, repairs: [groups[truth.group] ?? ""] }] : [];
};
const steady = taken.flatMap(single).filter(({ truth }) => !truth.isIntermittent);
const intermittent = taken.flatMap(single).filter(({ truth }) => truth.isIntermittent);
const random = seededRandom(seed);
const double = steady.flatMap((first): readonly Case[] => {
  const second = random.pick(steady);
  if (second.truth.group === first.truth.group) return [];
  const both = [first, second];
  const truth: Hypothesis = {
    ...first.truth,
    candidates: both.flatMap(({ truth: { candidates } }) => candidates),
    faults: both.flatMap(({ truth: { faults } }) => faults),
  };
  return [{ index: first.index, truth, repairs: both.flatMap(({ repairs }) => repairs) }];
});

// A sort of fault that the list does not hold: a wire rubbed through to a signal wire of another line.
const signals = [...harness.fitted.wires.values()].filter(({ net }) => harness.nets.get(net ?? "")?.kind === "signal");
const outside = steady.flatMap((each): readonly Case[] => {
  const [candidate] = each.truth.candidates;
  if (candidate?.item.type !== "wire") return [];
  const own = harness.fitted.wires.get(candidate.item.id)?.net;
  const to = random.pick(signals.filter(({ net }) => net !== own)).id;
  const fault = { kind: "short", of: candidate.item.id, to, ohm: 0.1 } as const;
  return [{ ...each, truth: { ...each.truth, candidates: [], faults: [fault] } }];
});

interface Setting {
  readonly label: string;
  readonly cases: readonly Case[];
  readonly wrongShare: number;
  readonly policy?: Policy;
  /** Which jobs are run: those whose complaint leads to the fault, those whose complaint leads elsewhere, or all. */
  readonly which?: "led" | "misled" | "all";
}

/** A case with the job that it begins with; no job where nobody would notice the fault. */
interface Prepared extends Case {
  readonly job: NewJob | undefined;
  /** Whether the complaint leads to the circuits that the fault is in. */
  readonly isLed: boolean;
}

const preparedOf = new Map<readonly Case[], readonly Prepared[]>();

function prepare(cases: readonly Case[]): readonly Prepared[] {
  const before = preparedOf.get(cases);
  if (before) return before;
  const noticed = noticedBy(
    harness,
    cases.map(({ truth }) => truth),
  );
  const prepared = cases.map((each, position): Prepared => {
    const job = jobOf(`sim ${each.index}`, each.truth, noticed[position] ?? { codes: [], bad: [], good: [] });
    return { ...each, job, isLed: job !== undefined && leadsTo(job, each.repairs) };
  });
  preparedOf.set(cases, prepared);
  return prepared;
}

function run({ label, cases, wrongShare, policy, which = "led" }: Setting): TableRow {
  const ends: JobEnd[] = [];
  const weights: number[] = [];
  const prepared = prepare(cases);
  for (const { index, truth, repairs, job, isLed } of prepared) {
    if (!job || (which !== "all" && isLed !== (which === "led"))) continue;
    const random = seededRandom(seed * 100_000 + index);
    const end = runJob(harness, { job, truth, repairs, wrongShare, random, ...(policy ? { policy } : {}) });
    if (!end) continue;
    ends.push(end);
    weights.push(truth.weight);
  }
  console.log(`${label}: ${ends.length} jobs`);
  const unnoticed = prepared.filter(({ job }) => !job).length;
  const elsewhere = prepared.filter(({ job, isLed }) => job && !isLed).length;
  return { label, ends, weights, unnoticed, elsewhere };
}

/** Whether the suspects of a job hold the true repair at all. */
function leadsTo(job: NewJob, repairs: readonly string[]): boolean {
  const started = startJob(harness, job);
  return started.ok && repairs.some((repair) => started.value.workup.groups.includes(repair));
}

const walk = walkFromModule(harness);
const rows = [
  ...[0, 0.02, 0.05].map((wrongShare): Setting => ({
    label: `planner, ${100 * wrongShare} % wrong readings`,
    cases: steady,
    wrongShare,
  })),
  ...[0, 0.05].map((wrongShare): Setting => ({
    label: `walk from the module, ${100 * wrongShare} % wrong`,
    cases: steady,
    wrongShare,
    policy: walk,
  })),
  ...[0, 0.05].map((wrongShare): Setting => ({
    label: `halve by count, ${100 * wrongShare} % wrong`,
    cases: steady,
    wrongShare,
    policy: halveByCount,
  })),
  { label: "planner, faults that come and go, 0 % wrong", cases: intermittent, wrongShare: 0 },
  { label: "planner, complaint leads elsewhere, 0 % wrong", cases: steady, wrongShare: 0, which: "misled" as const },
  { label: "planner, two faults at once, 0 % wrong", cases: double, wrongShare: 0 },
  { label: "planner, fault of a sort not listed, 0 % wrong", cases: outside, wrongShare: 0, which: "all" as const },
].map(run);

const page = join(process.cwd(), "docs/methods/diagnosis.md");
const text = readFileSync(page, "utf8");
const table = makeTable(rows, { stride, seed, faults: hypotheses.length });
writeFileSync(page, text.replace(/(<!-- simulation -->\n)[\s\S]*(<!-- end of simulation -->)/u, `$1\n${table}\n$2`));
console.log(table);

// node .ci/run-ts.mjs tests/simulate/simulate-jobs.ts [stride] [start numbers, such as 1,2] [part, such as 1/2] [file of rows ...]
// Simulates jobs on the demo machine and writes the table of docs/methods/diagnosis.md anew. With a stride of n every n-th fault is taken. With a
// file of rows each job is written down there as it ends, and what is there already is not done again. Two runs may share the work: each does
// its part into a file of its own, and a last run over all the files makes the table.
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { seededRandom } from "ohmward/base";
import { startJob, type Hypothesis, type NewJob } from "ohmward/diagnosis";
import { fitBuild, openHarness, type Harness } from "ohmward/harness-model";
import { jobOf, noticedBy } from "./support/complaint-of.ts";
import { keptRows } from "./support/kept-rows.ts";
import { listFaults } from "./support/list-faults.ts";
import { halveByCount, walkFromModule, type Policy } from "./support/policies.ts";
import { runJob, type JobEnd } from "./support/run-job.ts";
import { makeTable, type TableRow } from "./support/table.ts";

const stride = Number(process.argv[2] ?? 40);
const seeds = (process.argv[3] ?? "1").split(",").map(Number);
const [part = 1, parts = 1] = (process.argv[4] ?? "1/1").split("/").map(Number);
const [firstSeed = 1] = seeds;
const kept = keptRows<JobEnd>(process.argv.slice(5));
const opened = openHarness(readFileSync(join(process.cwd(), "demo-harness/firnlark-45.ohm.json"), "utf8"));
if (!opened.ok) throw new Error("The demo machine does not open");
const fitted = fitBuild(opened.value.document, "base");
if (!fitted) throw new Error("The demo machine has no base build");
const harness: Harness = fitted;
const { hypotheses, groups } = listFaults(harness);
const taken = [...hypotheses.keys()].filter((index) => index % stride === firstSeed % stride);

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
const random = seededRandom(firstSeed);
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

/** What is worked out for a complaint serves every job that begins with it. */
function complaintOf({ complaint, codes, symptoms }: NewJob): string {
  return JSON.stringify([complaint, codes, symptoms]);
}

const possibleCausesOf = new Map<string, ReadonlySet<string>>();

/** Whether the suspects of a job hold the true repair at all. */
function leadsTo(job: NewJob, repairs: readonly string[]): boolean {
  const complaint = complaintOf(job);
  let suspects = possibleCausesOf.get(complaint);
  if (!suspects) {
    const started = startJob(harness, job);
    suspects = new Set(started.ok ? started.value.model.groups : []);
    possibleCausesOf.set(complaint, suspects);
  }
  return repairs.some((repair) => suspects.has(repair));
}

const walk = walkFromModule(harness);
const settings: readonly Setting[] = [
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
];

/** The cases of a setting that there is a job for. */
function casesOf({ cases, which = "led" }: Setting): readonly (Prepared & { readonly job: NewJob })[] {
  return prepare(cases).flatMap((each) => {
    const { job, isLed } = each;
    return job && (which === "all" || isLed === (which === "led")) ? [{ ...each, job }] : [];
  });
}

interface Task {
  readonly id: string;
  readonly complaint: string;
  readonly run: () => JobEnd;
}

const tasksOf = (setting: Setting): readonly Task[] =>
  casesOf(setting).flatMap((each) =>
    seeds.map((seed): Task => {
      const id = `${setting.label} ${stride} ${seed} ${each.index}`;
      const run = (): JobEnd => {
        const { wrongShare, policy } = setting;
        const { job, truth, repairs, index } = each;
        const random = seededRandom(seed * 100_000 + index);
        const end = runJob(harness, { job, truth, repairs, wrongShare, random, ...(policy ? { policy } : {}) });
        if (!end) throw new Error(`${id}: the job does not begin`);
        return end;
      };
      return { id, complaint: complaintOf(each.job), run };
    }),
  );

const tasks = settings.flatMap(tasksOf);
const complaints = [...new Set(tasks.map(({ complaint }) => complaint))];
const numberOf = new Map(complaints.map((complaint, index) => [complaint, index]));
const place = ({ complaint }: Task): number => numberOf.get(complaint) ?? 0;
const mine = tasks.filter((task) => place(task) % parts === part - 1).toSorted((a, b) => place(a) - place(b));
console.log(`${tasks.length} jobs with ${complaints.length} complaints; ${mine.length} in this part`);
mine.forEach(({ id, run }, index) => {
  kept.row(id, run);
  if (index % 200 === 199) console.log(`${index + 1} done`);
});

const rows = settings.map((setting): TableRow => {
  const prepared = prepare(setting.cases);
  const ends = tasksOf(setting).flatMap(({ id }) => kept.known(id) ?? []);
  const weights = casesOf(setting).flatMap(({ truth }) => seeds.map(() => truth.weight));
  const unnoticed = prepared.filter(({ job }) => !job).length;
  const elsewhere = prepared.filter(({ job, isLed }) => job && !isLed).length;
  return { label: setting.label, ends, weights, unnoticed, elsewhere };
});
const table = makeTable(rows, { stride, seeds, faults: hypotheses.length });
console.log(table);
if (tasks.every(({ id }) => kept.known(id))) {
  const page = join(process.cwd(), "docs/methods/diagnosis.md");
  const text = readFileSync(page, "utf8");
  writeFileSync(page, text.replace(/(<!-- simulation -->\n)[\s\S]*(<!-- end of simulation -->)/u, `$1\n${table}\n$2`));
} else console.log("Not all jobs are done: the page is left as it is.");

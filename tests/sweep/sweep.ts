// npm run sweep [-- --part 1/2] [--keep file] [--sort mutants|ends|whole] [--mutants 300] [--cases 100000] [--seed 1] [--only name]
// Asks every machine of tests/sweep/machines.ts, and mutants of them, everything there is to ask. --only plays one case again by the name
// that a failure is told with. --part does a share of the cases; --keep writes each case down as it ends, and what is there is not done again.
// --sort asks mutants alone, documents with a number at an end alone, or the machines as they are alone, everything of them. --cases ends
// after so many questions and jobs.
import { readFileSync } from "node:fs";
import type { DocumentInput } from "../harness-model/support.ts";
import { everyNumber } from "./every-number.ts";
import { caseId, failureText, sweepMachine, type SweepCase, type SweepResult } from "./sweep-machine.ts";
import { sweptMachines } from "./machines.ts";
import { atEveryEnd } from "./numbers.ts";
import { keptRows } from "../simulate/support/kept-rows.ts";

const option = (name: string, otherwise: string): string => {
  const at = process.argv.indexOf(`--${name}`);
  return at < 0 ? otherwise : (process.argv[at + 1] ?? otherwise);
};
const only = option("only", "");
const keep = option("keep", "");
const sort = option("sort", "");
const seed = Number(option("seed", "1"));
const mutants = Number(option("mutants", "300"));
const mostTasks = Number(option("cases", "Infinity"));
const [part = 1, parts = 1] = option("part", "1/1").split("/").map(Number);

const machines = sweptMachines(process.cwd());
const everything = { questions: Infinity, jobs: Infinity, exercises: 3 };
/** What is asked of a mutant; a hunt takes as long as all else, so one mutant in ten has one. */
const sample = (mutant: number): SweepCase["most"] => ({ questions: 4, jobs: 1, exercises: mutant % 10 === 1 ? 1 : 0 });

const whole = machines.map((of): SweepCase => ({ of, mutant: 0, seed, most: everything }));
const mutated = Array.from({ length: mutants }, (_, at): SweepCase => {
  const of = machines[at % machines.length];
  if (!of) throw new Error("There is no machine to sweep");
  const mutant = Math.floor(at / machines.length) + 1;
  return { of, mutant, seed, most: sample(mutant), builds: 2 };
});

const base = JSON.parse(readFileSync("tests/fixtures/base.ohm.json", "utf8")) as DocumentInput;
const ends = [...atEveryEnd(everyNumber(base))].map((of): SweepCase => ({
  of,
  mutant: 0,
  seed,
  most: sample(0),
  builds: 2,
}));

interface Row extends Omit<SweepResult, "failures"> {
  readonly failures: readonly string[];
}

const kept = keptRows<Row>(keep === "" ? [] : [keep]);
const sorts = { mutants: mutated, ends, whole };
const wanted = Object.entries(sorts).flatMap(([name, list]) => (sort === "" || name === sort ? list : []));
const cases = only === "" ? wanted.filter((_, at) => at % parts === part - 1) : [playedAgain(only)];
let [tasks, done, notOpened] = [0, 0, 0];
const failures: string[] = [];
for (const each of cases) {
  if (tasks >= mostTasks) break;
  const row = kept.row(caseId(each), () => {
    const start = performance.now();
    const swept = sweepMachine(each);
    const seconds = (performance.now() - start) / 1000;
    const { task, seconds: longest } = swept.slowest;
    console.log(`${caseId(each)}: ${swept.tasks} in ${seconds.toFixed(1)} s, ${swept.failures.length} wrong`);
    console.log(`  slowest ${longest.toFixed(1)} s: ${task.slice(0, 200)}`);
    for (const failure of swept.failures.slice(0, 5)) console.log(failureText(failure));
    return { ...swept, failures: swept.failures.map(failureText) };
  });
  tasks += row.tasks;
  done++;
  if (!row.isOpened) notOpened++;
  failures.push(...row.failures);
}
console.log(
  `${done} of ${cases.length} cases (${notOpened} without a mutant that opens), ${tasks} tasks, ${failures.length} wrong`,
);
if (failures.length > 0) process.exitCode = 1;

function playedAgain(name: string): SweepCase {
  const known = Object.values(sorts)
    .flat()
    .find((each) => caseId(each) === name);
  if (!known) throw new Error(`"${name}" names no case; give --mutants and --seed as they were`);
  return known;
}

// node .ci/run-ts.mjs tests/simulate/practice.ts [number of drawn faults] [file of rows]
// Lets the planner, and somebody who checks at random, hunt for every fault of the demo machine's list and for drawn ones, and writes the
// tables of docs/methods/training.md anew. 500 drawn faults take an hour or more on one core. With a file of rows each hunt is written down
// there as it ends, and what is there already is not done again: a run that was broken off goes on.
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { openHarness } from "ohmward/harness-model";
import { planPath, scoreExercise } from "ohmward/training";
import { disagreements } from "../training/support/agrees-with-solver.ts";
import { drawnExercises, listedExercises, type NamedExercise } from "./training-exercises.ts";
import { keptRows } from "./support/kept-rows.ts";
import { drawnTable, listedTable, type ExerciseRow } from "./training-tables.ts";
import { randomPath } from "../training/support/random-path.ts";

const root = process.cwd();
const page = join(root, "docs", "methods", "practice.md");
const wanted = Number(process.argv[2] ?? 500);

const opened = openHarness(readFileSync(join(root, "demo-harness", "firnlark-45.ohm.json"), "utf8"));
if (!opened.ok) throw new Error("The demo machine does not open");
const { document } = opened.value;
const expected: unknown = JSON.parse(readFileSync(join(root, "demo-harness", "expected.json"), "utf8"));

const kept = keptRows<ExerciseRow>(process.argv.slice(3, 4));

const play = ({ id, ready }: NamedExercise, at: number): ExerciseRow =>
  kept.row(id, () => {
    const planner = planPath(ready);
    const { task } = ready;
    const row: ExerciseRow = {
      id,
      level: task.level,
      mode: task.hidden.candidate.mode,
      hidden: task.hidden.candidate.id,
      repair: task.hidden.candidate.repair,
      ending: planner.ending,
      checks: planner.checks,
      repairs: planner.repairs,
      minutes: planner.exercise.minutes,
      stopped: planner.exercise.steps.filter(({ seen }) => seen.kind === "stopped").length,
      wrong: disagreements(ready),
      planner: scoreExercise(planner.exercise, planner).total,
      random: scoreExercise(randomPath(ready, at), planner).total,
    };
    console.log(at, id, row.hidden, row.ending, row.checks, row.repairs, row.planner, row.random);
    return row;
  });

const listed: ExerciseRow[] = [];
const drawn: ExerciseRow[] = [];

/** Writes the tables as far as they go: a long run that is broken off has not been for nothing. */
function write(): void {
  const tables = new Map([
    ["listed", listedTable(listed)],
    ["drawn", drawnTable(drawn)],
  ]);
  const text = readFileSync(page, "utf8");
  const place = /(<!-- table (\w+) -->\n)[\s\S]*?(<!-- end of table -->)/gu;
  writeFileSync(
    page,
    text.replace(place, (_, begin: string, name: string, end: string) => `${begin}\n${tables.get(name) ?? ""}\n${end}`),
  );
}

listedExercises(document, expected).forEach((exercise, at) => listed.push(play(exercise, at)));
write();
let at = 0;
for (const exercise of drawnExercises(document, wanted)) {
  drawn.push(play(exercise, at));
  at += 1;
  if (at % 20 === 0) write();
}
write();
for (const { id, hidden, stopped, wrong, planner } of [...listed, ...drawn]) {
  if (stopped > 0) console.log(`${id} ${hidden}: the planner was stopped ${stopped} times`);
  if (wrong.length > 0) console.log(`${id} ${hidden}: the solver does not bear out ${wrong.join(", ")}`);
  if (planner < 90) console.log(`${id} ${hidden}: the planner scores ${planner}`);
}

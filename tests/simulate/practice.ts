// node .ci/run-ts.mjs tests/simulate/practice.ts [number of drawn faults] [file of rows]
// Lets the planner, and somebody who checks at random, hunt for every fault of the demo machine's list and for drawn ones, and writes the
// tables of docs/methods/practice.md anew. 500 drawn faults take an hour or more on one core. With a file of rows each hunt is written down
// there as it ends, and what is there already is not done again: a run that was broken off goes on.
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { openHarness } from "ohmward/model";
import { planPath, scoreHunt } from "ohmward/practice";
import { disagreements } from "../practice/support/agrees-with-solver.ts";
import { drawnHunts, listedHunts, type NamedHunt } from "./practice-hunts.ts";
import { keptRows } from "./support/kept-rows.ts";
import { drawnTable, listedTable, type HuntRow } from "./practice-tables.ts";
import { randomPath } from "../practice/support/random-path.ts";

const root = process.cwd();
const page = join(root, "docs", "methods", "practice.md");
const wanted = Number(process.argv[2] ?? 500);

const opened = openHarness(readFileSync(join(root, "demo-harness", "firnlark-45.ohm.json"), "utf8"));
if (!opened.ok) throw new Error("The demo machine does not open");
const { document } = opened.value;
const expected: unknown = JSON.parse(readFileSync(join(root, "demo-harness", "expected.json"), "utf8"));

const kept = keptRows<HuntRow>(process.argv.slice(3, 4));

const play = ({ id, ready }: NamedHunt, at: number): HuntRow =>
  kept.row(id, () => {
    const planner = planPath(ready);
    const { task } = ready;
    const row: HuntRow = {
      id,
      level: task.level,
      mode: task.hidden.candidate.mode,
      hidden: task.hidden.candidate.id,
      repair: task.hidden.candidate.repair,
      ending: planner.ending,
      checks: planner.checks,
      repairs: planner.repairs,
      minutes: planner.hunt.minutes,
      stopped: planner.hunt.steps.filter(({ seen }) => seen.kind === "stopped").length,
      wrong: disagreements(ready),
      planner: scoreHunt(planner.hunt, planner).total,
      random: scoreHunt(randomPath(ready, at), planner).total,
    };
    console.log(at, id, row.hidden, row.ending, row.checks, row.repairs, row.planner, row.random);
    return row;
  });

const listed: HuntRow[] = [];
const drawn: HuntRow[] = [];

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

listedHunts(document, expected).forEach((hunt, at) => listed.push(play(hunt, at)));
write();
let at = 0;
for (const hunt of drawnHunts(document, wanted)) {
  drawn.push(play(hunt, at));
  at += 1;
  if (at % 20 === 0) write();
}
write();
for (const { id, hidden, stopped, wrong, planner } of [...listed, ...drawn]) {
  if (stopped > 0) console.log(`${id} ${hidden}: the planner was stopped ${stopped} times`);
  if (wrong.length > 0) console.log(`${id} ${hidden}: the solver does not bear out ${wrong.join(", ")}`);
  if (planner < 90) console.log(`${id} ${hidden}: the planner scores ${planner}`);
}

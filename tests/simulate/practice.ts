// node .ci/run-ts.mjs tests/simulate/practice.ts [number of drawn faults]
// Lets the planner, and somebody who checks at random, hunt for every fault of the demo machine's list and for drawn ones, and writes the
// tables of docs/methods/practice.md anew. 500 drawn faults take about an hour.
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { openHarness } from "ohmward/model";
import { planPath, randomPath, scoreHunt } from "ohmward/practice";
import { drawnHunts, listedHunts, type NamedHunt } from "./practice-hunts.ts";
import { drawnTable, listedTable, type HuntRow } from "./practice-tables.ts";

const root = process.cwd();
const page = join(root, "docs", "methods", "practice.md");
const wanted = Number(process.argv[2] ?? 500);
const random = process.argv[3] !== "no-random";

const opened = openHarness(readFileSync(join(root, "demo-harness", "firnlark-45.ohm.json"), "utf8"));
if (!opened.ok) throw new Error("The demo machine does not open");
const { document } = opened.value;
const expected: unknown = JSON.parse(readFileSync(join(root, "demo-harness", "expected.json"), "utf8"));

function play({ id, ready }: NamedHunt, at: number): HuntRow {
  const planner = planPath(ready);
  const score = scoreHunt(planner.hunt, planner);
  const byChance = random ? scoreHunt(randomPath(ready, at), planner) : undefined;
  const { task } = ready;
  const row: HuntRow = {
    id,
    level: task.level,
    mode: task.hidden.candidate.mode,
    repair: task.hidden.candidate.repair,
    ending: planner.ending,
    checks: planner.checks,
    repairs: planner.repairs,
    minutes: planner.hunt.minutes,
    planner: score.total,
    random: byChance?.total,
  };
  console.log(at, id, row.mode, row.ending, row.checks, row.repairs, row.planner, row.random ?? "");
  return row;
}

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
drawnHunts(document, wanted).forEach((hunt, at) => {
  drawn.push(play(hunt, at));
  if (drawn.length % 20 === 0 || drawn.length === wanted) write();
});

// node .ci/run-ts.mjs tests/judge/simulate.ts [jobs] [first number] [file of rows]
// Draws faults with severities of every size on machines that are a little off, plays each against the planner with 5 % wrong answers, and
// prints how the jobs ended by sort of fault and how honest the planner's shares are. With a file each job is kept as it ends, so that a run
// that was broken off goes on.
import { appendFileSync, existsSync, readFileSync } from "node:fs";
import { Bench, playCase } from "./player.ts";
import { scoreOf, type Outcome } from "./score.ts";
import { calibrationTable } from "./simulation/calibration.ts";
import { Chance } from "./simulation/chance.ts";
import { drawJob } from "./simulation/draw-job.ts";
import { readDemoMachine } from "./truth/harness-file.ts";
import { haveNgspice, Ngspice } from "./truth/ngspice.ts";

/** Share of answers that are wrong. */
const WRONG_SHARE = 0.05;

/** A job as it ended. */
interface Row {
  readonly number: number;
  readonly sort: string;
  /** Undefined where nobody would have noticed the fault. */
  readonly outcome?: Outcome;
  /** Why the job could not be played. */
  readonly trouble?: string;
  readonly checks: number;
  readonly minutes: number;
  readonly badOhms: number;
  readonly implied: number;
  /** Share of the most likely suspect, and whether it was right; and the same of each suspect. */
  readonly claims: readonly (readonly [number, boolean])[];
}

const [jobs = 1000, first = 1] = process.argv.slice(2, 4).map(Number);
const file = process.argv[4];
if (!haveNgspice())
  throw new Error("The simulation needs ngspice (a free circuit simulator): install it, then try again");
const bench = new Bench(readDemoMachine(), new Ngspice());
const kept = new Map<number, Row>();
if (file !== undefined && existsSync(file))
  for (const line of readFileSync(file, "utf8")
    .split("\n")
    .filter((text) => text !== "")) {
    const row = JSON.parse(line) as Row;
    kept.set(row.number, row);
  }

function playNumber(number: number): Row {
  const { drawn, job, world } = drawJob(
    { machine: bench.machine, ngspice: bench.ngspice, sound: (build) => bench.sound(build) },
    number,
  );
  const empty = { ...{ number, sort: drawn.sort, checks: 0, minutes: 0, badOhms: 0, implied: 0 }, claims: [] };
  if (job === undefined) return empty;
  const chance = new Chance(number + 7_000_000);
  const played = playCase(bench, job, { world, slips: () => chance.share() < WRONG_SHARE });
  const { outcome, checks, minutes, badOhms, implied } = scoreOf(job, played);
  const claims = played.shares.map((share, at) => [share, drawn.repairs.includes(played.suspects[at] ?? "")] as const);
  return { ...empty, outcome, checks, minutes, badOhms, implied, claims: claims.filter(([share]) => share > 0.001) };
}

/** Jobs go on where one cannot be played; what went wrong is told. */
function rowOf(number: number): Row {
  try {
    return playNumber(number);
  } catch (error) {
    const trouble = error instanceof Error ? (error.message.split("\n")[0] ?? "") : String(error);
    return { ...{ number, sort: "not played", trouble, checks: 0, minutes: 0, badOhms: 0, implied: 0 }, claims: [] };
  }
}

const rows: Row[] = [];
let noticed = 0;
for (let number = first; noticed < jobs; number++) {
  const row = kept.get(number) ?? rowOf(number);
  if (file !== undefined && !kept.has(number)) appendFileSync(file, `${JSON.stringify(row)}\n`);
  rows.push(row);
  if (row.outcome !== undefined) noticed++;
}
bench.ngspice.close();

const OUTCOMES = ["first", "second", "later", "missed", "certain and wrong", "no end"] as const;
const share = (list: readonly Row[], outcome: Outcome): string =>
  `${((100 * list.filter((row) => row.outcome === outcome).length) / Math.max(1, list.length)).toFixed(0)} %`;
const mean = (list: readonly Row[], of: (row: Row) => number): string =>
  (list.reduce((sum, row) => sum + of(row), 0) / Math.max(1, list.length)).toFixed(1);
const played = rows.filter(({ outcome }) => outcome !== undefined);
console.log(`${String(rows.length)} faults drawn, ${String(played.length)} noticed`);
for (const { number, trouble } of rows.filter((row) => row.trouble !== undefined))
  console.log(`${String(number)}: ${trouble ?? ""}`);
console.log(`| Sort | Jobs | ${OUTCOMES.join(" | ")} | Checks | Minutes | Bad ohms | Implied |`);
console.log(`|${" --- |".repeat(OUTCOMES.length + 6)}`);
for (const sort of ["all", ...new Set(played.map((row) => row.sort))]) {
  const own = played.filter((row) => sort === "all" || row.sort === sort);
  const ends = OUTCOMES.map((outcome) => share(own, outcome));
  const means = [
    mean(own, (row) => row.checks),
    mean(own, (row) => row.minutes),
    mean(own, (row) => row.badOhms),
    mean(own, (row) => row.implied),
  ];
  console.log(`| ${[sort, own.length, ...ends, ...means].join(" | ")} |`);
}
const claim = ([claimed, isRight]: readonly [number, boolean]): {
  readonly share: number;
  readonly isRight: boolean;
} => ({ share: claimed, isRight });
console.log(
  `\nThe most likely suspect at the end\n\n${calibrationTable(played.flatMap(({ claims }) => claims.slice(0, 1).map(claim)))}`,
);
console.log(`\nEvery suspect at the end\n\n${calibrationTable(played.flatMap(({ claims }) => claims.map(claim)))}`);

// node .ci/run-ts.mjs tests/judge/play.ts [--steps] [case ids ...]
// Plays the workshop cases against the planner on a machine that is simulated apart from it, and prints a table. --steps prints every check.
import { readCases } from "./cases.ts";
import { Bench, playCase } from "./player.ts";
import { scoreOf, type Score } from "./score.ts";
import { readDemoMachine } from "./truth/harness-file.ts";
import { haveNgspice, Ngspice } from "./truth/ngspice.ts";

const words = process.argv.slice(2);
const isLong = words.includes("--steps");
const wanted = words.filter((word) => word !== "--steps");
if (!haveNgspice()) throw new Error("Playing needs ngspice (a free circuit simulator): install it, then try again");
const bench = new Bench(readDemoMachine(), new Ngspice());
const cases = readCases().filter(({ id }) => wanted.length === 0 || wanted.includes(id));

console.log(
  "| Case | Ends | Rank | Among suspects | Checks (most) | Minutes (most) | First check | Bad ohms | Implied | Named |",
);
console.log("| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |");
const scores: Score[] = [];
for (const each of cases) {
  const played = playCase(bench, each);
  const score = scoreOf(each, played);
  scores.push(score);
  const first =
    score.first === undefined
      ? "-"
      : `${score.first.title}, ${score.first.state}${score.first.badOhms === undefined ? "" : " (!)"}`;
  const names = [...(played.end?.names ?? []), ...(played.secondEnd?.names ?? [])];
  const cells = [
    ...[each.id, `${score.outcome} (${played.end?.way ?? "none"})`, score.rank, score.suspectRank],
    ...[
      `${String(score.checks)} (${String(each.maxChecks)})`,
      `${score.minutes.toFixed(0)} (${String(each.maxMinutes)})`,
    ],
    ...[first, score.badOhms, score.implied, names.slice(0, 3).join("; ")],
  ];
  console.log(`| ${cells.join(" | ")} |`);
  if (isLong)
    for (const check of played.checks)
      console.log(
        `    [${check.believed}]\n    ${check.title}, ${check.state}: ${check.answer}${check.badOhms === undefined ? "" : ` (${check.badOhms})`}${check.isImplied ? " (implied)" : ""}`,
      );
}
const count = (is: (score: Score) => boolean): string =>
  `${String(scores.filter(is).length)} of ${String(scores.length)}`;
for (const outcome of ["first", "second", "later", "missed", "certain and wrong", "no end"] as const)
  console.log(`${outcome}: ${count((score) => score.outcome === outcome)}`);
console.log(`first check bad ohms: ${count(({ first }) => first?.badOhms !== undefined)}`);
console.log(
  `within the most checks: ${count(({ isInChecks }) => isInChecks)}; within the most minutes: ${count(({ isInMinutes }) => isInMinutes)}`,
);
const sum = (of: (score: Score) => number): number => scores.reduce((total, score) => total + of(score), 0);
console.log(
  `checks ${String(sum(({ checks }) => checks))}, minutes ${sum(({ minutes }) => minutes).toFixed(0)}, bad ohms ${String(sum(({ badOhms }) => badOhms))}, implied ${String(sum(({ implied }) => implied))}`,
);
bench.ngspice.close();

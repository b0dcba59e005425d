import { describe, expect, test } from "vitest";
import { everyNumber } from "./every-number.ts";
import { sweptMachines } from "./machines.ts";
import { atEveryEnd, numbersOf } from "./numbers.ts";
import { caseId, failureText, sweepMachine, type SweepCase } from "./sweep-machine.ts";

/** Where the drawing begins; another number asks other things. */
const SEED = 7;
/** Most seconds of one case of a big machine; what is not reached then is left to `npm run sweep`. */
const MOST_SECONDS = 2;
const QUESTIONS = { questions: 1, jobs: 1, exercises: 0 };

const machines = sweptMachines();

function sweep(swept: SweepCase, mostSeconds = MOST_SECONDS): ReturnType<typeof sweepMachine> {
  const start = process.cpuUsage();
  const secondsUsed = (): number => process.cpuUsage(start).user / 1e6;
  return sweepMachine(swept, () => secondsUsed() > mostSeconds);
}

describe("everything that opens can be asked everything", () => {
  test("files of every sort are read and swept", () => {
    expect(machines.map(({ name }) => name)).toEqual(
      expect.arrayContaining(["demo", "base", "firnlark-excerpt.kbl", "firnlark-excerpt.vec", "generated-1"]),
    );
    expect(machines.some(({ name }) => /\.(?:csv|tsv|xlsx)$/u.test(name))).toBe(true);
  });

  // A failure is told with the command that plays it again.
  test.each(machines.map((of) => [of.name, of] as const))("%s as it is", (_, of) => {
    const isBig = of.document.wires.length > 15;
    const swept = sweep({ of, mutant: 0, seed: SEED, most: { ...QUESTIONS, exercises: isBig ? 0 : 1 } });
    expect(swept.failures.map(failureText)).toEqual([]);
    expect(swept.tasks).toBeGreaterThan(20);
  });

  test.each(machines.filter(({ name }) => name !== "demo").map((of) => [of.name, of] as const))(
    "mutants of %s",
    (_, of) => {
      const cases = [501, 502].map((mutant): SweepCase => ({ of, mutant, seed: SEED, most: QUESTIONS, builds: 1 }));
      expect(cases.flatMap((each) => sweep(each, 1).failures.map(failureText))).toEqual([]);
    },
  );

  test("every number at both ends of what it may be, and nearest to 0", () => {
    const failures: string[] = [];
    const met = new Set<string>();
    for (const of of atEveryEnd()) {
      met.add(of.name.split("=")[0] ?? "");
      // One in twenty is asked everything here; `npm run sweep` does so with all of them.
      const isWhole = met.size % 20 === 0;
      const swept: SweepCase = { of, mutant: 0, seed: SEED, most: { ...QUESTIONS, jobs: 0 }, builds: 1 };
      failures.push(...sweepMachine({ ...swept, only: isWhole ? "all" : "questions" }).failures.map(failureText));
    }
    expect([...numbersOf(everyNumber())].filter(({ path }) => !met.has(path.join(".")))).toEqual([]);
    expect(failures).toEqual([]);
  });

  test("a case is named so that it can be played again, and a mutant is the same one again", () => {
    const [of] = machines.filter(({ name }) => name === "base");
    if (!of) throw new Error("There is no base document");
    const swept: SweepCase = { of, mutant: 3, seed: SEED, most: { questions: 1, jobs: 0, exercises: 0 }, builds: 1 };
    expect(caseId(swept)).toBe(`base#3@${SEED}`);
    expect(sweep(swept).tasks).toBe(sweep(swept).tasks);
  });
});

import { makeExercise, readTaskCode } from "ohmward/training";
import { makeTasks, openMachine, tasksReport, type TaskWish } from "ohmward/application";
import { describe, expect, test } from "vitest";
import { demo } from "../demo-machine.ts";
import { harnessText } from "../../generate/harness-text.ts";

const wish: TaskWish = {
  title: "Monday",
  asksHypothesis: false,
  build: "base",
  level: 1,
  first: 5,
  drills: 0,
  kinds: [],
  exercises: 0,
  written: [],
};

function codesOf(made: ReturnType<typeof makeTasks>): readonly string[] {
  return made.ok ? made.value.list.tasks.flatMap((task) => (task.kind === "code" ? [task.code] : [])) : [];
}

describe("makeTasks", () => {
  test("gives the same list for the same wish, another for another number", () => {
    const first = makeTasks(demo, { ...wish, drills: 2, exercises: 2 });
    expect(first.ok).toBe(true);
    expect(makeTasks(demo, { ...wish, drills: 2, exercises: 2 })).toEqual(first);
    const other = codesOf(makeTasks(demo, { ...wish, drills: 2, exercises: 2, first: 50 }));
    expect(codesOf(first).filter((code) => other.includes(code))).toEqual([]);
  });

  test("takes kinds of drills in turn", () => {
    const codes = codesOf(makeTasks(demo, { ...wish, drills: 3, kinds: ["route", "cavity"] }));
    const topics = codes.map((code) => readTaskCode(demo.document, code));
    expect(topics.map((read) => read.ok && read.value.topic)).toEqual(["route", "cavity", "route"]);
  });

  test("hides no fault twice", () => {
    // OHMWARD_WHOLE=1 draws more.
    const exercises = process.env["OHMWARD_WHOLE"] === "1" ? 8 : 4;
    const codes = codesOf(makeTasks(demo, { ...wish, exercises }));
    const hidden = codes.map((code) => {
      const made = makeExercise(demo.document, { kind: "code", code });
      return made.ok ? made.value.task.hidden.candidate.id : "";
    });
    expect(new Set(hidden).size).toBe(exercises);
  });

  test("says how many hunts there are where there are not enough", () => {
    const opened = openMachine(harnessText({ seed: 1, wires: 20 }));
    if (!opened.ok) throw new Error("The generated machine does not open");
    const build = opened.value.document.builds[0]?.id ?? "";
    const made = makeTasks(opened.value, { ...wish, build, exercises: 200 });
    expect(made.ok ? [] : made.error.map(({ code }) => code)).toEqual(["too-few-faults"]);
    expect(made.ok ? "" : made.error[0]?.message).toMatch(
      /^200 fault-finding exercises of level 1 .*; \d+ with different faults/u,
    );
  });

  test("tells every written fault the machine cannot have, at its row", () => {
    const written = ["open:W999", "blown:FB1.FL2", "high-resistance:W89=0.001"].map((fault, at) => ({
      task: { kind: "written", title: `T${at}`, build: "base", fault, level: 1 } as const,
      at: { file: "f.csv", row: at + 2 },
    }));
    const made = makeTasks(demo, { ...wish, written });
    expect(made.ok ? [] : made.error.map(({ at }) => at.row)).toEqual([2, 4]);
  });
});

describe("tasksReport", () => {
  const made = makeTasks(demo, { ...wish, drills: 1, exercises: 1, asksHypothesis: true });
  const text = made.ok ? made.value.text : "";

  test("tells what a list holds, and the answers only if they are asked for", () => {
    const report = tasksReport(demo, { name: "a", text });
    expect(report.problems).toEqual([]);
    expect(report.list).toMatchObject({ title: "Monday", asksHypothesis: true, isIntact: true, isSameHarness: true });
    expect(report.list?.tasks.map(({ sort, level, build }) => [sort, level, build])).toEqual([
      ["drills", 1, "base"],
      ["exercise", 1, "base"],
    ]);
    expect(JSON.stringify(report)).not.toContain("Hidden");
    const full = tasksReport(demo, { name: "a", text }, true);
    expect(full.list?.tasks.map(({ answers }) => answers?.length ?? 0)[0]).toBe(10);
    expect(full.list?.tasks[1]?.answers?.[0]).toMatch(/^Inserted fault: .* Repair: /u);
  });

  test("keeps all of an edited list, and says so with every task that cannot be made", () => {
    const [code = ""] = made.ok ? codesOf(made) : [];
    const report = tasksReport(demo, { name: "a", text: text.replace(code, "ACDE-FGHJ-KMNP").replace("Monday", "x") });
    expect(report.list?.tasks).toHaveLength(2);
    expect(report.problems.map(({ code: found, severity }) => [found, severity])).toEqual([
      ["edited", "warning"],
      ["no-such-task", "error"],
    ]);
  });

  test("keeps all of a list that was made with other harness data", () => {
    const document = structuredClone(demo.document);
    document.about.revision = "9";
    const other = openMachine(JSON.stringify(document));
    if (!other.ok) throw new Error("The changed machine does not open");
    const report = tasksReport(other.value, { name: "a", text });
    expect(report.list?.tasks).toHaveLength(2);
    expect(report.list?.isSameHarness).toBe(false);
    expect(report.problems.map(({ code }) => code)).toEqual(["other-harness", "no-such-task", "no-such-task"]);
  });
});

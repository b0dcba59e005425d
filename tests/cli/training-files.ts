import { drillsOfCode, newResult, newTaskList, writeTaskCode } from "ohmward/training";
import type { TrainingTask, TrainingWork } from "ohmward/job-records";
import { openDemo } from "../demo-harness/open-demo.ts";

/** A task list and results of the demo machine, as the page on the command line has them. */
export function trainingFiles(): Readonly<Record<string, string>> {
  const document = openDemo();
  const task = (topic: "drills" | "exercise", title: string): Extract<TrainingTask, { kind: "code" }> => ({
    kind: "code",
    code: writeTaskCode(document, { topic, level: 1, build: "base", number: 1 }),
    title,
  });
  const [drills, exercise] = [task("drills", "Drills 1"), task("exercise", "Fault-finding exercise 1")];
  const list = newTaskList(document, { title: "Monday", asksHypothesis: false, tasks: [drills, exercise] });
  const set = drillsOfCode(document, drills.code);
  if (!list.ok || !set.ok) throw new Error("The tasks of the page cannot be made");
  const answers = set.value.drills.map(({ id, accepted }, at) => ({
    drill: id,
    picked: at < 8 ? [...(accepted[0] ?? [])] : [],
  }));
  const done: TrainingWork = { kind: "drills", task: drills, answers, points: 80 };
  const ended: TrainingWork = {
    kind: "exercise",
    task: exercise,
    asksHypothesis: false,
    events: [{ kind: "end" }],
    points: 10,
  };
  const kim = newResult(document, "Kim", [done, ended]);
  return {
    "monday.ohmtasks.json": list.value,
    "kim.ohmresult.json": kim,
    "sam.ohmresult.json": newResult(document, "Sam", [done]),
    "cut.ohmresult.json": kim.slice(0, 300),
  };
}

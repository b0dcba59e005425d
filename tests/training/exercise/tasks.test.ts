import { findSigns, makeExercise, readTaskCode, writeTaskCode, type ReadyExercise } from "ohmward/training";
import { seededRandom } from "ohmward/base";
import { describe, expect, test, vi } from "vitest";
import { demoText } from "../../demo-harness/open-demo.ts";
import { expectedFaults } from "../../simulate/training-expected.ts";
import { disagreements } from "../support/agrees-with-solver.ts";
import { demoDocument, demoIn } from "../support/machines.ts";

const listed = expectedFaults(JSON.parse(demoText("expected.json")));

/** A hunt of a code. */
function drawn(number: number, document = demoDocument): ReadyExercise {
  const build = demoDocument.builds[number % demoDocument.builds.length]?.id ?? "";
  const level = ([1, 2, 3] as const)[number % 3] ?? 1;
  const made = makeExercise(document, {
    kind: "code",
    code: writeTaskCode(demoDocument, { topic: "exercise", level, build, number }),
  });
  if (!made.ok) throw new Error(made.error.message);
  return made.value;
}

describe("the faults listed for the demo machine", () => {
  test.each(listed.map((fault) => [fault.id, fault] as const))("%s shows the codes that are listed", (_, fault) => {
    const { build, comesAndGoes } = fault;
    const made = makeExercise(demoDocument, {
      kind: "written",
      title: fault.id,
      build,
      fault: fault.fault,
      comesAndGoes,
      level: 1,
    });
    expect(made.ok ? "" : made.error.message).toBe("");
    // Source: demo-harness/expected.json. What is found may be more: the list names the codes a driver reads first.
    expect(made.ok && made.value.task.signs.codes).toEqual(expect.arrayContaining([...fault.codes]));
    expect(made.ok && made.value.task.complaint.length).toBeGreaterThan(0);
  });

  test("show nothing else where the list is exact", () => {
    const signs = (faults: Parameters<typeof findSigns>[1]): readonly string[] | undefined =>
      findSigns(demoIn("base"), faults)?.codes;
    expect(signs([{ kind: "open", of: "W81" }])).toEqual(["FE141"]);
    expect(signs([{ kind: "short", of: "W74", to: "GND-E1", ohm: 0.5 }])).toEqual(["FE112", "FE122", "FE152", "FE161"]);
    expect(signs([{ kind: "unplugged", of: "RT1.X" }])).toEqual(["FE412", "FC512"]);
    expect(signs([])).toEqual([]);
  });
});

// OHMWARD_WHOLE=1 draws more of them.
const isWhole = process.env["OHMWARD_WHOLE"] === "1";
const few = isWhole ? [0, 1, 2, 3] : [2];

describe("drawn hunts", () => {
  test("are the same for the same code and differ in what is hidden", () => {
    const ids = Array.from({ length: 12 }, (_, number) => drawn(number).task.hidden.candidate.id);
    expect(new Set(ids).size).toBeGreaterThan(9);
    expect(drawn(4)).toEqual(drawn(4));
  });

  test("are these, on every machine and in every version", () => {
    // Written down once. A change of this list is a change of every code handed out before: raise DRAW_VERSION with it, so that they are refused.
    expect(Array.from({ length: 8 }, (_, number) => drawn(number).task.hidden.candidate.id)).toMatchSnapshot();
  });

  test("have a complaint and codes that agree with the solver", () => {
    const random = seededRandom(11);
    for (let turn = 0; turn < (isWhole ? 12 : 3); turn++) {
      const ready = drawn(random.integer(0, 5000));
      expect([ready.task.title, disagreements(ready)]).toEqual([ready.task.title, []]);
    }
  });

  test("are the same where exponential functions differ in their last digits", () => {
    const before = few.map((number) => drawn(number).task);
    const exact = Math.exp;
    // Far more than the last digit, in which programs may differ by the standard (ECMA-262, 21.3.2: an approximation of their own).
    const spy = vi.spyOn(Math, "exp").mockImplementation((power) => exact(power) * (1 + 1e-9));
    const fresh = structuredClone(demoDocument);
    const after = few.map((number) => drawn(number, fresh).task);
    spy.mockRestore();
    expect(after.map(({ hidden, complaint }) => [hidden.candidate.id, complaint])).toEqual(
      before.map(({ hidden, complaint }) => [hidden.candidate.id, complaint]),
    );
  });
});

test("disagreements() finds a part and a code that the solver does not bear out", () => {
  const ready = drawn(0);
  const { signs } = ready.task;
  const functions = [...signs.functions, { component: "M1", what: "dead", state: "CRANK" } as const];
  const codes = [...signs.codes, "FE111"];
  const task = { ...ready.task, signs: { ...signs, functions, codes } };
  expect(disagreements({ ...ready, task })).toEqual(["M1 dead", "FE111"]);
});

describe("tasks that cannot be made", () => {
  const problem = (fault: string, build = "base"): string => {
    const made = makeExercise(demoDocument, { kind: "written", title: "t", build, fault, level: 1 });
    return made.ok ? "none" : made.error.code;
  };

  test("say why", () => {
    expect(problem("open:W999")).toBe("wrong-fault");
    expect(problem("nonsense")).toBe("wrong-fault");
    expect(problem("open:W81", "no-build")).toBe("unknown-build");
    // A thousandth of an ohm in a signal line shows nowhere.
    expect(problem("high-resistance:W89=0.001")).toBe("no-sign");
    const drills = writeTaskCode(demoDocument, { topic: "drills", level: 1, build: "base", number: 1 });
    const made = makeExercise(demoDocument, { kind: "code", code: drills });
    expect(made.ok ? "" : made.error.code).toBe("not-an-exercise");
    expect(readTaskCode(demoDocument, drills).ok).toBe(true);
  });
});

import { readWrittenFaults } from "ohmward/application";
import { describe, expect, test } from "vitest";

const defaults = { build: "base", level: 2 } as const;

function read(text: string): ReturnType<typeof readWrittenFaults> {
  return readWrittenFaults({ name: "faults.csv", bytes: new TextEncoder().encode(text) }, defaults);
}

describe("readWrittenFaults", () => {
  test("takes build, level and title from elsewhere where a row names none, and gives no answer away", () => {
    const found = read("Fault\nopen:W78\n");
    expect(found.faults).toEqual([
      {
        task: { kind: "written", title: "Fault 1", build: "base", fault: "open:W78", level: 2 },
        at: { file: "faults.csv", row: 2 },
      },
    ]);
  });

  test("reads every column, in any order and with semicolons", () => {
    const found = read(
      "complaint;LEVEL;fault;title;Build;comes and goes\nStarts badly;3;high-resistance:XE1:1=0.25;Start;cold;yes\n",
    );
    expect(found.faults[0]?.task).toEqual({
      kind: "written",
      title: "Start",
      build: "cold",
      fault: "high-resistance:XE1:1=0.25",
      comesAndGoes: true,
      words: "Starts badly",
      level: 3,
    });
  });

  test("keeps the rows that are right beside those that are wrong", () => {
    const found = read("Fault,Level\nopen:W1,1\nopen:W2,9\nopen:W3,2\n");
    expect(found.faults.map(({ at }) => at.row)).toEqual([2, 4]);
    expect(found.problems.map(({ at }) => at.row)).toEqual([3]);
  });

  test.each([
    ["", ["no-fault-column"]],
    ["Title\nA\n", ["no-fault-column"]],
    ["Fault\n", ["no-rows"]],
    ["Fault,Fault\nopen:W1,open:W2\n", ["heading-twice"]],
    ["Fault,Part\nopen:W1,x\n", ["unknown-heading"]],
    ["Fault,Level,Comes and goes\n,4,maybe\nopen:W1,1,no\nopen:W1,0,no\n", Array(4).fill("wrong-cell")],
    ['Fault\n"open:W1\n', ["quote-open"]],
  ])("tells all that is wrong at once: %j", (text, codes) => {
    const found = read(text);
    expect(found.problems.map(({ code }) => code)).toEqual(codes);
    expect(found.problems.map(({ at }) => at.file)).toEqual(codes.map(() => "faults.csv"));
  });
});

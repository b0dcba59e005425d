import {
  CODE_ALPHABET,
  drillsOfCode,
  harnessCheck,
  MOST_NUMBER,
  readTaskCode,
  writeTaskCode,
  type TaskId,
} from "ohmward/training";
import { seededRandom } from "ohmward/base";
import { openHarness, type HarnessDocument } from "ohmward/harness-model";
import { describe, expect, test } from "vitest";
import { demoText } from "../../demo-harness/open-demo.ts";
import { demoDocument } from "../support/machines.ts";

const task: TaskId = { topic: "drills", level: 2, build: "cold", number: 77 };

function problemOf(document: HarnessDocument, code: string): string {
  const read = readTaskCode(document, code);
  return read.ok ? "none" : read.error.code;
}

describe("task codes", () => {
  test("hold 23 characters that are not taken for one another", () => {
    expect(new Set(CODE_ALPHABET).size).toBe(23);
    expect(CODE_ALPHABET).not.toMatch(/[O0I1L2Z5S68BU]/u);
  });

  test("come back as they were written, however they are typed", () => {
    const random = seededRandom(6);
    const topics = ["exercise", "drills", "route", "cavity", "splice"] as const;
    for (let turn = 0; turn < 500; turn++) {
      const written: TaskId = {
        topic: random.pick(topics),
        level: random.pick([1, 2, 3] as const),
        build: random.pick(demoDocument.builds).id,
        number: random.integer(0, MOST_NUMBER),
      };
      const code = writeTaskCode(demoDocument, written);
      expect(code).toMatch(/^[A-Z3479]{4}-[A-Z3479]{4}-[A-Z3479]{4}$/u);
      for (const typed of [code, code.toLowerCase(), ` ${code.replaceAll("-", " ")} `]) {
        expect(readTaskCode(demoDocument, typed)).toEqual({ ok: true, value: written });
      }
    }
  });

  test("find every single wrong character and every swap of neighbours", () => {
    const code = writeTaskCode(demoDocument, task).replaceAll("-", "");
    for (let at = 0; at < code.length; at++) {
      for (const other of CODE_ALPHABET) {
        if (other === code[at]) continue;
        expect(problemOf(demoDocument, code.slice(0, at) + other + code.slice(at + 1))).toBe("mistyped");
      }
      const swapped = code.slice(0, at) + (code[at + 1] ?? "") + (code[at] ?? "") + code.slice(at + 2);
      if (at + 1 < code.length && swapped !== code) expect(problemOf(demoDocument, swapped)).toBe("mistyped");
    }
  });

  test("say what is wrong", () => {
    expect(problemOf(demoDocument, "ACDE")).toBe("wrong-length");
    expect(problemOf(demoDocument, "ACDE-FGHJ-KMN0")).toBe("wrong-character");
  });

  test("tell other harness data", () => {
    const code = writeTaskCode(demoDocument, task);
    const changed = structuredClone(demoDocument);
    const wire = changed.wires.find((each) => each.id === "W89");
    if (wire) wire.colour = "GN";
    expect(problemOf(changed, code)).toBe("other-harness");
  });

  test("do not depend on the order of keys in the file", () => {
    const turned = turnKeys(JSON.parse(demoText("firnlark-45.ohm.json")));
    const opened = openHarness(JSON.stringify(turned));
    expect(opened.ok && harnessCheck(opened.value.document)).toBe(harnessCheck(demoDocument));
  });
});

function turnKeys(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(turnKeys);
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .reverse()
      .map(([key, inner]) => [key, turnKeys(inner)]),
  );
}

describe("the drills of a code", () => {
  test("are the same at every call and others for another number", () => {
    const code = writeTaskCode(demoDocument, task);
    const first = drillsOfCode(demoDocument, code);
    expect(first.ok && first.value.drills.length).toBe(10);
    expect(drillsOfCode(structuredClone(demoDocument), code)).toEqual(first);
    const other = drillsOfCode(demoDocument, writeTaskCode(demoDocument, { ...task, number: 78 }));
    expect(other).not.toEqual(first);
  });

  test("are these, on every machine and in every version", () => {
    // Written down once. A change of this list is a change of every code handed out before: raise DRAW_VERSION with it, so that they are refused.
    const set = drillsOfCode(demoDocument, writeTaskCode(demoDocument, task));
    expect(set.ok ? set.value.drills.map((drill) => drill.id) : set.error).toMatchSnapshot();
  });
});

import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { safeText } from "ohmward/base";
import { openHarness } from "ohmward/harness-model";
import { newResult, newTaskList, writeTaskCode } from "ohmward/training";
import type { TrainingWork } from "ohmward/job-records";
import { demoText } from "../demo-harness/open-demo.ts";
import { run, type World } from "./fake-io.ts";

// A colour change by C0 and by C1, reversed writing, an isolate that is never closed, marks, line ends, a tag character.
const HOSTILE = "\u001b[31m\u009b31m\u009d0;t\u0007\u202e\u2066\u061c\u200f\u2028\u007f\u{e0041}\r\nWrong line\t";
// Source: ECMA-48 (C0, C1); Unicode Standard Annex 9, bidi controls. The line feed ends lines.
const STEERING = /(?!\n)[\p{Cc}\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\u{e0041}]/u;

type Tree = { readonly [key: string]: Tree } | readonly Tree[] | string | number | boolean | null;

/** The data with the hostile text behind every text under a key, how deep ever. */
function spoil(data: Tree, keys: ReadonlySet<string>, key = ""): Tree {
  if (typeof data === "string") return keys.has(key) ? `${data}${HOSTILE}` : data;
  if (Array.isArray(data)) return data.map((each: Tree) => spoil(each, keys, key));
  if (typeof data !== "object" || data === null) return data;
  return Object.fromEntries(Object.entries(data).map(([name, value]) => [name, spoil(value, keys, name)]));
}

function keysOf(data: Tree): readonly string[] {
  if (Array.isArray(data)) return data.flatMap(keysOf);
  if (typeof data !== "object" || data === null) return [];
  return Object.entries(data).flatMap(([name, value]) => [name, ...keysOf(value)]);
}

const demo = JSON.parse(demoText("firnlark-45.ohm.json")) as Tree;
const keys = [...new Set(keysOf(demo))];
/** Every key that takes any text: a document with such a text under it still opens. */
const textKeys = new Set(
  keys.filter((key) => {
    const changed = JSON.stringify(spoil(demo, new Set([key])));
    return changed.includes("Wrong line") && openHarness(changed).ok;
  }),
);
const hostile = JSON.stringify(spoil(demo, textKeys));
const broken = JSON.stringify(spoil(demo, new Set(keys)));

const folder = mkdtempSync(join(tmpdir(), "ohmward-hostile-"));
const jobPath = join(folder, "a.ohmjob.json");
const world: World = {
  files: {
    "h.ohm.json": hostile,
    "broken.ohm.json": broken,
    "list.csv": `Wire;From;To;Colour;Signal\n"W1${HOSTILE}";XT.1:1;S1.X:1;RD;"FEED${HOSTILE}"\nW2;nowhere${HOSTILE.replaceAll(/[\r\n]/gu, "")};;XX;\n`,
    [`odd${HOSTILE}.csv`]: "Wire;From;To\n",
    "no.txt": `text${HOSTILE}`,
    "faults.csv": `Title,Fault,Level\n"Start${HOSTILE}",high-resistance:XE1:1=0.25,2\n`,
  },
  packageFolder: folder,
};

beforeAll(() => {
  mkdirSync(join(folder, "dist", "app"), { recursive: true });
  writeFileSync(join(folder, "dist", "app", "index.html"), "<!doctype html>");
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Runs a command as text and as data, and looks at every byte of both. */
async function look(
  args: readonly string[],
  at: World = world,
): Promise<{ readonly told: string; readonly data: string }> {
  const told = await run(args, at);
  const shown = told.out + told.err;
  expect(STEERING.exec(shown)?.[0].codePointAt(0)?.toString(16), shown.slice(0, 400)).toBeUndefined();
  expect(shown.split("\n").filter((line) => line.startsWith("Wrong line"))).toEqual([]);
  if (["serve", "--help", "--out"].some((word) => args.includes(word))) return { told: shown, data: "" };
  const asData = await run([...args, "--json"], at);
  expect(STEERING.test(asData.out + asData.err)).toBe(false);
  expect(() => JSON.parse(asData.out) as unknown).not.toThrow();
  return { told: shown, data: asData.out };
}

test("the document is hostile wherever text is free, and opens", () => {
  expect([...textKeys]).toEqual(expect.arrayContaining(["machine", "label", "title"]));
  expect(openHarness(hostile).ok).toBe(true);
  expect(openHarness(broken).ok).toBe(false);
});

describe("no command lets through what a document holds to steer a terminal", () => {
  test.each(
    [
      ["circuit", "h.ohm.json", "B3", "-b", "base"],
      ["path", "h.ohm.json", "A1.X1:36", "B3", "-b", "base"],
      ["path", "h.ohm.json", "SP11", "SP11", "-b", "base"],
      ["common", "h.ohm.json", "B3", "B4", "--works", "B5", "-b", "base"],
      ["effect", "h.ohm.json", "XT1", "-b", "base"],
      ["test-points", "h.ohm.json", "A1.X1:36", "-b", "base", "--state", "KOEO"],
      ["expected", "h.ohm.json", "-s", "KOEO", "--red", "B3.X:1", "-b", "base"],
      ["expected", "h.ohm.json", "-s", "KOEO", "--red", "SP11", "-b", "base"],
      ["expected", "h.ohm.json", "-s", "KOEO", "--table", "B3", "-b", "base"],
      ["find", "h.ohm.json", "sensor", "-b", "base"],
      ["find", "h.ohm.json", HOSTILE, "-b", "base"],
      ["circuit", "h.ohm.json", `B3${HOSTILE}`, "-b", `base${HOSTILE}`],
      ["circuit", "h.ohm.json", `B3${HOSTILE}`, "-b", "base"],
      ["circuit", "h.ohm.json", "Y9", "-b", "base"],
      ["circuit", `no${HOSTILE}`, "B3"],
      ["circuit", "broken.ohm.json", "B3"],
      ["validate", "h.ohm.json"],
      ["validate", "broken.ohm.json"],
      ["validate", "no.txt"],
      ["import", "list.csv"],
      ["import", "no.txt"],
      ["import", `odd${HOSTILE}.csv`],
      ["import", "h.ohm.json", "--mate", `A${HOSTILE}=B`],
      ["export", "h.ohm.json", "--format", "wire-list-csv"],
      ["export", "h.ohm.json", "--format", "wire-list-csv", "-b", `x${HOSTILE}`],
      ["export", "h.ohm.json", "--format", `x${HOSTILE}`],
      ["training", "new", "h.ohm.json", "--drills", "1", "-b", "base", "--title", `T${HOSTILE}`],
      ["training", "new", "h.ohm.json", "-b", "base", "--written", "faults.csv"],
      ["training", "check", "h.ohm.json", "no.txt"],
      ["training", "grade", "h.ohm.json", "no.txt"],
      ["training", "results", "h.ohm.json", "no.txt"],
      [`x${HOSTILE}`],
      ["circuit", `--x${HOSTILE}`],
      ["training", "new", "h.ohm.json", "--level", HOSTILE],
      ["serve", "h.ohm.json"],
      ["serve", "broken.ohm.json"],
      ["circuit", "--help"],
    ].map((args) => [safeText(args.join(" ")), args] as const),
  )("%s", async (_, args) => {
    await look(args);
  });

  test("practise, with a list and a result that are hostile too", async () => {
    const opened = openHarness(hostile);
    if (!opened.ok) throw new Error("does not open");
    const { document } = opened.value;
    const code = writeTaskCode(document, { topic: "drills", level: 1, build: "base", number: 1 });
    const task = { kind: "code", code, title: `Drills${HOSTILE}` } as const;
    const list = newTaskList(document, { title: `Monday${HOSTILE}`, asksHypothesis: false, tasks: [task] });
    if (!list.ok) throw new Error("no list");
    const work: TrainingWork = { kind: "drills", task, answers: [], points: 80 };
    const files = { ...world.files, "list.json": list.value, "kim.json": newResult(document, `Kim${HOSTILE}`, [work]) };
    const at = { ...world, files };
    await look(["training", "check", "h.ohm.json", "list.json", "--answers"], at);
    expect((await look(["training", "grade", "h.ohm.json", "list.json", "kim.json"], at)).told).toContain("Kim");
    expect((await look(["training", "results", "h.ohm.json", "list.json", "kim.json"], at)).told).toContain("Kim");
  });

  test("job, from its beginning to its end", async () => {
    const machine = ["--machine", "h.ohm.json"];
    const facts = [
      "-c",
      "FE111",
      "--probability-factor",
      `W78=3: why${HOSTILE.replaceAll(/[\r\n\u2028]/gu, "")}`,
      "--recent-work",
      `off${HOSTILE} = XP1`,
    ];
    const words = ["--complaint", `stops${HOSTILE}`, "--since", HOSTILE, "--note", `n${HOSTILE}`, "--weather", HOSTILE];
    const begin = ["job", "new", "h.ohm.json", "-b", "base", "--job", jobPath, ...facts, ...words];
    expect((await look(begin)).told).toMatch(/FE111|Next test/u);
    for (const step of [
      ["next"],
      ["next", "--all"],
      ["show"],
      ["show", "--probabilities"],
      ["report"],
      ["report", "--sheet"],
      ["skip", HOSTILE],
      ["record", HOSTILE],
      ["undo"],
      ["undo", HOSTILE],
      ["add", "--note", HOSTILE],
      ["repair", HOSTILE, "--cause", HOSTILE, "--part", HOSTILE],
      ["verify", "99", HOSTILE],
      ["close", "--outcome", "referred", "--not-checked", HOSTILE],
    ]) {
      const [name = "", ...rest] = step;
      await look(["job", name, jobPath, ...rest, ...machine]);
    }
    await look(["job", "next", join(folder, `none${HOSTILE}`), ...machine]);
    await look(["job", "next", jobPath, "--machine", `none${HOSTILE}`]);
  });

  test("progress", async () => {
    const shown: string[] = [];
    await run(["import", "list.csv", `odd${HOSTILE}.csv`], { ...world, onProgress: (text) => shown.push(text) });
    expect(shown.length).toBeGreaterThan(0);
    expect(shown.filter((text) => STEERING.test(text))).toEqual([]);
  });
});

test("data holds the text as the document has it", async () => {
  const { data } = await look(["circuit", "h.ohm.json", "B3", "-b", "base"]);
  expect(data).toContain("\\u009b31m");
  expect(JSON.stringify(JSON.parse(data))).toContain(JSON.stringify(HOSTILE).slice(1, -1));
});

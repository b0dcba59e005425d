import { readFileSync } from "node:fs";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { ErrorReport } from "ohmward/application";
import { run, type Ran, type World } from "./fake-io.ts";
import { jobFolder } from "./job-bench.ts";

/** A world in which the program fails as it reads the file `fails`, of itself and not by the file. */
const failing: World = {
  onRead: (path) => {
    if (path === "fails") throw new TypeError("Cannot read properties of undefined", { cause: new Error("deeper") });
  },
};
const words = (line: string): readonly string[] => line.split(" ");

interface Case {
  readonly [key: string]: unknown;
  readonly error: {
    readonly text: string;
    readonly stack: readonly string[];
    readonly cause: { readonly text: string };
  };
  readonly files: readonly { readonly name: string; readonly text?: string; readonly base64?: string }[];
}

function caseOf({ written }: Ran): readonly [name: string, held: Case] {
  const [[name, bytes] = ["", new Uint8Array()]] = [...written];
  return [name, JSON.parse(new TextDecoder().decode(bytes)) as Case];
}

describe("a fault of the program", () => {
  test("is a plain sentence with what to do, ends with 3, and the case is saved without any file", async () => {
    const ran = await run(words("circuit fails B3 -b base"), failing);
    expect([ran.code, ran.out]).toEqual([3, ""]);
    expect(ran.err).toMatch(
      /^The program has failed\. .+ Try again\. If it fails again, send ohmward-case-\S+\.json /u,
    );
    expect(ran.err.trimEnd().split("\n")).toHaveLength(1);
    expect(ran.err).not.toMatch(/TypeError|at \w|\.ts/u);
    const [name, held] = caseOf(ran);
    expect(name).toMatch(/^ohmward-case-\d{8}-\d{9}\.json$/u);
    expect(held).toMatchObject({
      format: "ohmward-case",
      version: 1,
      program: "9.8.7",
      system: "a test",
      asked: ["circuit", "fails", "B3", "-b", "base"],
      files: [],
    });
    expect(held.error.text).toBe("TypeError: Cannot read properties of undefined");
    expect(held.error.stack.join("\n")).toContain("tell-fault.test.ts");
    expect(held.error.cause.text).toBe("Error: deeper");
  });

  test("is data too, where data is wanted", async () => {
    const { code, out, err } = await run(words("circuit fails B3 --json"), failing);
    expect(code).toBe(3);
    expect(ErrorReport.parse(JSON.parse(out))).toMatchObject({ code: "program-fault", problems: [] });
    expect(err).toContain("The program has failed");
  });

  test.each(["--report mine.json", "--report=mine.json"])("is saved where %s says", async (option) => {
    const ran = await run([...words("circuit fails B3"), ...words(option)], failing);
    expect([...ran.written.keys()]).toEqual(["mine.json"]);
    expect(ran.err).toContain("send mine.json");
  });

  test("never replaces a file, says so, and is saved elsewhere", async () => {
    const ran = await run(words("circuit fails B3 --report mine.json"), { ...failing, files: { "mine.json": "mine" } });
    expect(ran.err).toContain("cannot be saved in mine.json: it is there already.");
    expect([...ran.written.keys()]).toEqual([expect.stringMatching(/^ohmward-case-/u)]);
  });

  test("says that it cannot be saved, and then what the error was", async () => {
    const ran = await run(words("circuit fails B3"), { ...failing, unwritable: "it may not be written" });
    expect([ran.code, ran.written.size]).toEqual([3, 0]);
    expect(ran.err).toMatch(
      /cannot be saved in ohmward-case-\S+: it may not be written\. Add --report <file> .+TypeError/u,
    );
  });

  test("holds the files that were read where the person says so", async () => {
    const files = { "list.csv": "Wire;From;To\n", "raw.xlsx": Uint8Array.of(0x50, 0x4b, 0xff) };
    const ran = await run(words("import list.csv raw.xlsx fails --report-files"), { ...failing, files });
    const [, held] = caseOf(ran);
    expect(held.files).toEqual([
      { name: "list.csv", text: "Wire;From;To\n" },
      { name: "raw.xlsx", base64: "UEv/" },
    ]);
  });

  describe("in a job", () => {
    let folder = jobFolder();
    beforeEach(() => (folder = jobFolder()));
    afterEach(() => folder.remove());

    test("leaves the job file as it was", async () => {
      const file = folder.path("a.ohmjob.json");
      const begun = await run(["job", "new", "demo", "-b", "base", "-c", "FE111", "--complaint", "x", "--job", file]);
      expect(begun.code).toBe(0);
      const before = readFileSync(file, "utf8");
      const ran = await run(["job", "record", file, "5", "V", "--machine", "fails"], failing);
      expect(ran.code).toBe(3);
      expect(readFileSync(file, "utf8")).toBe(before);
    });
  });

  test.each(["circuit", "job next", "training grade", "serve", "import"])(
    "%s takes the options about it",
    async (line) => {
      const { err } = await run([
        ...words(line),
        "--report",
        "a.json",
        "--report-files",
        "missing.json",
        "--bad-option",
      ]);
      expect(err).not.toContain("--report");
    },
  );
});

import { spawn, spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { Answer } from "ohmward/application";
import { ensureBuilt } from "../../.ci/ready.mjs";
import { demoText } from "../demo-harness/open-demo.ts";
import { generateHarness } from "../generate/generate-harness.ts";
import { root } from "./fake-io.ts";

const folder = mkdtempSync(join(tmpdir(), "ohmward-cli-"));
const script = join(root, "dist", "cli", "ohmward.js");
const generated = generateHarness({ seed: 11, wires: 1500 });
const code = generated.codes[0];
const point = code?.points[0] ?? "";
const wire = generated.wires.find(({ ends }) => ends.includes(point))?.id ?? "";

beforeAll(() => {
  expect(ensureBuilt(["cli"], { quiet: true })).toBe(true);
  writeFileSync(join(folder, "made.ohm.json"), JSON.stringify(generated));
  writeFileSync(join(folder, "broken.ohm.json"), demoText("firnlark-45.ohm.json").replaceAll('"W89"', '"W88"'));
  writeFileSync(join(folder, "binary.ohm.json"), Buffer.from([0, 1, 2, 255, 254]));
}, 120_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function run(args: readonly string[], input?: string): { code: number | null; out: string; err: string } {
  const child = spawnSync(process.execPath, [script, ...args], {
    cwd: folder,
    encoding: "utf8",
    maxBuffer: 256 * 1024 * 1024,
    ...(input === undefined ? {} : { input }),
  });
  return { code: child.status, out: child.stdout, err: child.stderr };
}

describe("the built command", () => {
  test.each([
    [["circuit", "demo", "B3", "-b", "base"], "circuit"],
    [["path", "demo", "A1.X1:36", "B3", "-b", "base"], "path"],
    [["common", "demo", "B3", "B4", "--works", "B5", "-b", "base"], "common"],
    [["effect", "demo", "XT1", "-b", "base"], "effect"],
    [["test-points", "demo", "B3", "-b", "base", "--state", "KOEO"], "test-points"],
    [["expected", "demo", "--red", "B3.X:1", "-b", "base", "--state", "KOEO"], "value"],
    [["expected", "demo", "--circuit", "B3", "-b", "base", "--state", "KOEO"], "table"],
    [["find", "demo", "rail", "sensor"], "find"],
  ])("answers %j on the demo machine", (args, kind) => {
    const text = run(args);
    expect([text.code, text.err]).toEqual([0, ""]);
    expect(text.out.endsWith("\n")).toBe(true);
    const data = run([...args, "--json"]);
    expect([data.code, data.err]).toEqual([0, ""]);
    expect(Answer.parse(JSON.parse(data.out)).kind).toBe(kind);
  });

  // OHMWARD_WHOLE=1 asks all of them.
  const asked: readonly (readonly [readonly string[], string])[] = [
    [["circuit", "made.ohm.json", point], "circuit"],
    [["path", "made.ohm.json", point, "G1-", "-b", "full"], "path"],
    [["common", "made.ohm.json", point, code?.id ?? ""], "common"],
    [["effect", "made.ohm.json", "G1+"], "effect"],
    [["test-points", "made.ohm.json", point], "test-points"],
    [["expected", "made.ohm.json", "--red", point, "--state", "KEY-ON", "--calculate-only"], "value"],
    [["expected", "made.ohm.json", "--circuit", point, "--state", "KEY-ON", "--fault", `open:${wire}`], "table"],
    [["find", "made.ohm.json", "splice"], "find"],
  ];
  test.each(asked.slice(0, process.env["OHMWARD_WHOLE"] === "1" ? 8 : 3))(
    "answers %j on a generated machine of 1,500 wires",
    (args, kind) => {
      const data = run([...args, "--json"]);
      expect([data.code, data.err]).toEqual([0, ""]);
      expect(Answer.parse(JSON.parse(data.out)).kind).toBe(kind);
      expect(run(args).out).toContain("Generated machine");
    },
  );

  test("checks files and standard input", () => {
    expect(run(["validate", "made.ohm.json"])).toMatchObject({ code: 0, err: "" });
    expect(run(["validate", "-"], demoText("firnlark-45.ohm.json"))).toMatchObject({ code: 0, err: "" });
    const broken = run(["validate", "broken.ohm.json"]);
    expect(broken.code).toBe(1);
    expect(broken.out).toMatch(/does not open[^]*error duplicate-id at wires\[\d+\]/u);
    expect(run(["circuit", "broken.ohm.json", "B3"])).toMatchObject({ code: 2, out: "" });
    expect(run(["circuit", "binary.ohm.json", "B3"]).err).toMatch(/not UTF-8/u);
    expect(run(["circuit", "missing.ohm.json", "B3"]).err).toMatch(/there is no such file/u);
    expect(run(["circuit", ".", "B3"]).err).toMatch(/it is a folder/u);
  });

  test("tells wrong questions with 2 and its version with 0", () => {
    expect(run(["circuit", "demo", "Y9"])).toMatchObject({ code: 2, out: "" });
    expect(run(["nonsense"])).toMatchObject({ code: 2, out: "" });
    expect(run([]).code).toBe(2);
    expect(run(["--version"]).out).toMatch(/^\d+\.\d+\.\d+\n$/u);
  });

  test("does not mind a reader that stops reading", async () => {
    const child = spawn(process.execPath, [script, "circuit", "made.ohm.json", "G1-", "--json"], { cwd: folder });
    let err = "";
    child.stderr.on("data", (data) => (err += String(data)));
    child.stdout.once("data", () => child.stdout.destroy());
    const ended = await new Promise((resolve) => child.once("close", (status, signal) => resolve([status, signal])));
    expect(ended).toEqual([0, null]);
    expect(err).toBe("");
  });
});

describe("the built command serves", () => {
  const parcel = join(folder, "parcel");

  beforeAll(() => {
    mkdirSync(join(parcel, "dist", "app"), { recursive: true });
    cpSync(join(root, "dist", "cli"), join(parcel, "dist", "cli"), { recursive: true });
    cpSync(join(root, "package.json"), join(parcel, "package.json"));
    cpSync(join(root, "demo-harness"), join(parcel, "demo-harness"), { recursive: true });
    symlinkSync(join(root, "node_modules"), join(parcel, "node_modules"));
    writeFileSync(join(parcel, "dist", "app", "index.html"), "<!doctype html><title>Screen</title>");
  });

  test.each([
    [[], "Tarnwick Firnlark 45"],
    [["made.ohm.json"], "Generated machine"],
  ])("%j until it is interrupted", async (args, name) => {
    const child = spawn(process.execPath, [join(parcel, "dist", "cli", "ohmward.js"), "serve", ...args], {
      cwd: folder,
    });
    let out = "";
    const address = await new Promise<string>((resolve, reject) => {
      child.stdout.on("data", (data) => {
        out += String(data);
        const found = /http:\/\/127\.0\.0\.1:\d+\//u.exec(out)?.[0];
        if (found !== undefined) resolve(found);
      });
      child.once("close", () => reject(new Error(`ended early: ${out}`)));
    });
    const ended = new Promise((resolve) => child.once("close", (status) => resolve(status)));
    const page = await fetch(address);
    expect(await page.text()).toContain("Screen");
    expect(page.headers.get("content-security-policy")).toContain("default-src 'self'");
    expect(await (await fetch(`${address}machine.ohm.json`)).text()).toContain(name);
    expect((await fetch(`${address}..%2f..%2fpackage.json`)).status).toBe(400);
    expect(out).toContain(name);
    child.kill("SIGINT");
    expect(await ended).toBe(0);
  });

  test("not without its screen, nor a file that does not open", () => {
    const args = (file: string): readonly string[] => [join(parcel, "dist", "cli", "ohmward.js"), "serve", file];
    const broken = spawnSync(process.execPath, args("broken.ohm.json"), { cwd: folder, encoding: "utf8" });
    expect([broken.status, broken.stdout]).toEqual([2, ""]);
    expect(broken.stderr).toMatch(/Cannot open broken\.ohm\.json:\nerror duplicate-id/u);
    rmSync(join(parcel, "dist", "app"), { recursive: true });
    const bare = spawnSync(process.execPath, args("demo"), { cwd: folder, encoding: "utf8" });
    expect([bare.status, bare.stdout]).toEqual([2, ""]);
    expect(bare.stderr).toMatch(/The screen is not built/u);
  });
});

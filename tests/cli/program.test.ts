import { describe, expect, test } from "vitest";
import { z } from "zod";
import { Answer, ErrorReport, FileReport } from "ohmward/application";
import { demoText } from "../demo-harness/open-demo.ts";
import { run } from "./fake-io.ts";

const Document = z.union([Answer, ErrorReport, FileReport]);

/** The one JSON document on standard output; throws if there is more or less than one. */
function document(out: string): z.infer<typeof Document> {
  return Document.parse(JSON.parse(out));
}

const words = (line: string): readonly string[] => line.split(" ");

describe("every question on the demo machine", () => {
  test.each([
    ["circuit demo B3 --build base", 0, /^Circuit of B3 /u],
    ["path demo A1.X1:36 B3 --build base", 0, /^Path from A1\.X1:36 to B3: 1 wire/u],
    ["path demo A1.X1:36 B3 -b base -t conductors", 0, /through wires, contacts, splices and terminal studs only/u],
    ["path demo S1.X:50 XC1:3 -b base -t conductors", 1, /: none/u],
    ["path demo SP11 SP11 -b base", 1, /same point/u],
    ["common demo B3 B4 B6 --works B5 -b base", 0, /In all that fail and in none that work/u],
    ["common demo B3 --works B5 --unknown B6 -b base", 0, /B6 +not known/u],
    ["common demo B7 Y1 -b base", 1, /The data has no wire, contact, splice/u],
    ["effect demo XT1 -b base", 0, /3 items stop/u],
    ["effect demo W02 -b base", 0, /Nothing stops/u],
    ["test-points demo A1.X1:36 -b base --state KOEO", 0, /^1\. P0 /mu],
    ["expected demo -s KOEO --red B3.X:1 --black B3.X:2 -b base", 0, /^Expected at B3\.X\.harness:1 .*: 4\.99 V/u],
    ["expected demo -s KOEO -r XF1e:2 -f open:XF1:1 -b base", 0, /Floating point: not 0 V/u],
    [
      "expected demo -s OFF -r A1.X1.harness:33 -k A1.X1.harness:34 -m resistance -u A1.X1 -u B1.X -b base",
      0,
      /over range/u,
    ],
    [
      "expected demo -s KOEO -r XD1:C -k XD1:D -m resistance -b base",
      1,
      /do not measure in this state[^]*Disconnect first/u,
    ],
    [
      "expected demo -s CRANK -r W29 -m dc-current --calculate-only -b base",
      0,
      /^Expected at wire W29 \(current clamp\): 9\.04 A/u,
    ],
    [
      "expected demo -s CRANK -r W29 -m dc-current -b base",
      1,
      /^Expected at wire W29 \(current clamp\): no reading[^]*clamp is not permitted at W29/u,
    ],
    ["expected demo -s KOEO -r SP11 -b base", 1, /no reading[^]*permitted: B3\.X\.harness:1 \(P2, /u],
    ["expected demo -s RUN -r Y8.X:2 -m duty-cycle --set A1.drv-fan=25% --calculate-only -b base", 0, /: 75 %/u],
    ["expected demo -s KOEO -r G2+ -a TL-S2 -b base", 0, /adapter +TL-S2/u],
    ["expected demo -s HEAT --circuit R1.element-1 -f blown:FB1.FL2 -b base", 0, /from the supply[^]*to ground/u],
    ["find demo rail sensor -b base", 0, /^"rail sensor": 6 hits/u],
    ["find demo zzzz -b base", 1, /0 hits/u],
    ["validate demo", 0, /^demo: opens/u],
  ])("%s ends with %i", async (line, code, text) => {
    const told = await run(words(line));
    expect([told.code, told.err]).toEqual([code, ""]);
    expect(told.out).toMatch(text);
    const asData = await run([...words(line), "--json"]);
    expect([asData.code, asData.err]).toEqual([code, ""]);
    expect(document(asData.out)).toEqual(JSON.parse(asData.out));
  });

  test("data says the same as text and nothing is lost on the way", async () => {
    const { out } = await run(words("path demo A1.X1:36 B3 -b base --json"));
    const answer = document(out);
    expect(answer.kind === "path" && answer.path.map((facts) => facts.id)).toEqual(["A1.X1:36", "W89", "B3.X:3"]);
  });
});

describe("expected", () => {
  test("as data has value, unit, low, high, kind and because, null where there is no figure", async () => {
    const line = "expected demo -b base -s KOEO --black G2- --json --red";
    const { out } = await run([...words(line), "A1.X1:36"]);
    expect(JSON.parse(out)).toMatchObject({ kind: "value", unit: "V", because: expect.any(Array) as unknown });
    const answer = document(out);
    if (answer.kind !== "value" || answer.low === null || answer.high === null) throw new Error(out);
    expect(answer.value).toBeCloseTo(0.52, 2);
    expect(answer.low).toBeLessThan(answer.value ?? NaN);
    expect(answer.high).toBeGreaterThan(answer.value ?? NaN);
    const floating = await run([...words(line), "XF1e:2", "--fault", "open:XF1:1"]);
    expect(JSON.parse(floating.out)).toMatchObject({ kind: "floating", value: null, low: null, high: null, unit: "V" });
  });

  test("takes several faults and several connectors", async () => {
    const line =
      "expected demo -b base -s OFF -r XD1:C -k XD1:D -m resistance -u RT1.X -u RT2.X -f open:W44 -f open:W45 --json";
    expect(JSON.parse((await run(words(line))).out)).toMatchObject({
      unplugged: ["RT1.X", "RT2.X"],
      faults: [{ text: "open:W44" }, { text: "open:W45" }],
    });
  });

  test("ends with 1 where a machine has no figure", async () => {
    const ideal = (id: string, voltageVolt: number): object => ({
      ...{ id, kind: "source", role: "battery", between: ["G2+", "G2-"], voltageVolt, resistanceOhm: 0 },
    });
    const twice = demoText("firnlark-45.ohm.json").replace(
      '"components": [',
      `"components": [{"id": "G9", "label": "Ideal", "kind": "battery", "elements": [${JSON.stringify(ideal("a", 12))}, ${JSON.stringify(ideal("b", 11))}]},`,
    );
    for (const what of ["--red", "--circuit"]) {
      const told = await run(["expected", "twice.json", what, "G2+", "-b", "base", "-s", "KOEO"], {
        files: { "twice.json": twice },
      });
      expect([told.code, told.err]).toEqual([1, ""]);
      expect(told.out).toMatch(/G9\.a, G9\.b/u);
    }
  });
});

describe("what is no answer ends with 2, is told on standard error and, as data, on standard output", () => {
  const broken = demoText("firnlark-45.ohm.json").replace('"id": "SP11"', '"id": "SP99"');
  const files = {
    "broken.json": broken,
    "latin.json": new Uint8Array([0x7b, 0xe4, 0x7d]),
    "cut.json": broken.slice(0, 900),
  };

  test.each([
    ["an unknown name", "circuit demo nonsense -b base", "unknown", /Nothing has the name "nonsense"/u],
    ["a name of several things", "circuit demo key_switch -b base", "ambiguous", /names several items[^]*S1\.X/u],
    ["a thing not fitted", "path demo Y9 B3 -b base", "not-fitted", /It is in: tiller, cold-tiller/u],
    ["an empty cavity", "test-points demo A1.X1:3 -b base", "empty", /No wire in the data ends at A1.X1:3/u],
    ["an unknown build", "circuit demo B3 -b winter", "choose-build", /no build "winter"[^]*cold-tiller/u],
    ["an unknown state", "test-points demo B3 -b base -s asleep", "choose-state", /no state "asleep"[^]*KOEO/u],
    [
      "a reading in an unknown state",
      "expected demo -r G2+ -b base -s asleep",
      "choose-state",
      /no state "asleep"[^]*KOEO/u,
    ],
    [
      "a fault of no kind",
      "expected demo -r G2+ -b base -f rust:W1",
      "wrong-question",
      /kinds are open, high-resistance, short/u,
    ],
    ["a fault in nothing", "expected demo -r G2+ -b base -f open:W999", "unknown", /Nothing has the name "W999"/u],
    [
      "a lead on many points",
      "expected demo -r B3 -b base",
      "ambiguous",
      /B3 \(component\) has more than one point[^]*B3\.X:1/u,
    ],
    ["a reading without a lead", "expected demo -b base", "error", /red lead with --red/u],
    ["a reading and a table", "expected demo -b base -r G2+ -t B3", "error", /not both/u],
    ["a table of ohms", "expected demo -b base -m resistance -t B3", "error", /are DC voltages/u],
    [
      "an unknown meter",
      "expected demo -b base -m nose -r G2+",
      "error",
      /Allowed choices are dc-voltage, resistance, voltage-drop/u,
    ],
    [
      "a file that is not there",
      "circuit nothing.json B3",
      "error",
      /Cannot read nothing\.json: there is no such file/u,
    ],
    [
      "a file that does not open",
      "circuit broken.json B3",
      "error",
      /Cannot open broken\.json:\nerror dangling-end at /u,
    ],
    ["a file that is cut off", "circuit cut.json B3", "error", /not JSON/u],
    ["a file that is no text", "circuit latin.json B3", "error", /not UTF-8/u],
    ["an unreadable file to check", "validate nothing.json", "error", /Cannot read nothing\.json/u],
    ["one thing to compare", "common demo B3", "error", /two or more/u],
    ["a missing argument", "path demo B3", "error", /^Missing required argument 'to'\nFor help/u],
    ["an argument too many", "circuit demo B3 B4", "error", /Too many arguments/u],
    ["an unknown option", "circuit demo B3 --biuld base", "error", /Unknown option '--biuld'.*Did you mean --build/u],
    ["an unknown width", "path demo B3 B4 -t walls", "error", /Allowed choices are conductors/u],
    ["an unknown command", "circuitt demo B3", "error", /Unknown command 'circuitt'.*Did you mean circuit/u],
  ])("%s: %s", async (_label, line, kind, text) => {
    const args = words(line).map((word) => word.replace("_", " "));
    const told = await run(args, { files });
    expect([told.code, told.out]).toEqual([2, ""]);
    expect(told.err).toMatch(text);
    const asData = await run([...args, "--json"], { files });
    expect(asData.code).toBe(2);
    expect(document(asData.out).kind).toBe(kind);
    expect(asData.err).toBe(told.err);
  });

  test("all problems of a file come with the error", async () => {
    const { out } = await run(["circuit", "broken.json", "B3", "--json"], { files });
    const report = ErrorReport.parse(JSON.parse(out));
    const checked = await run(["validate", "broken.json", "--json"], { files });
    expect(checked.code).toBe(1);
    expect(report.problems.length).toBeGreaterThan(1);
    expect(FileReport.parse(JSON.parse(checked.out)).problems).toEqual(report.problems);
  });
});

describe("the build", () => {
  test("may be left out where one build only has no options, and the answer says so", async () => {
    const { out, code } = await run(["effect", "demo", "XT1"]);
    expect(code).toBe(0);
    expect(out).toContain('No build was given. Assumed: "base", the build without options.');
  });

  test("must be given where that is not so", async () => {
    const twice = demoText("firnlark-45.ohm.json").replace('"options": ["OPT-COLD"]', '"options": []');
    const { code, err } = await run(["circuit", "twice.json", "B3"], { files: { "twice.json": twice } });
    expect(code).toBe(2);
    expect(err).toMatch(/several builds[^]*base[^]*cold-tiller/u);
  });
});

describe("files", () => {
  test("are read from standard input, with a byte order mark or without", async () => {
    const input = demoText("firnlark-45.ohm.json");
    for (const text of [input, `\uFEFF${input}`]) {
      expect((await run(["validate", "-"], { input: text })).out).toMatch(/^standard input: opens/u);
      expect((await run(["find", "-", "rail"], { input: text })).code).toBe(0);
    }
    expect((await run(["validate", "-"])).code).toBe(1);
  });

  test("with warnings only are valid, and the warnings are listed", async () => {
    const short = demoText("firnlark-45.ohm.json").replace('"lengthMm": 1060', '"lengthMm": 1');
    const { code, out } = await run(["validate", "a.json"], { files: { "a.json": short } });
    expect(code).toBe(0);
    expect(out).toMatch(/opens \(0 errors, 1 warning\)[^]*warning length-below-route/u);
  });
});

describe("help", () => {
  test.each([["--help"], ["help"], ["-h"]])("%s lists every command and ends with 0", async (arg) => {
    const { code, out, err } = await run([arg]);
    expect([code, err]).toEqual([0, ""]);
    for (const name of [
      "circuit",
      "path",
      "common",
      "effect",
      "test-points",
      "expected",
      "find",
      "validate",
      "import",
      "export",
      "serve",
    ]) {
      expect(out).toMatch(new RegExp(`^ {2}${name} `, "mu"));
    }
  });

  test("of one command is shown either way round", async () => {
    const [first, second] = [await run(["help", "path"]), await run(["path", "--help"])];
    expect(first.out).toBe(second.out);
    expect(first.out).toMatch(/--include <what>/u);
  });

  test("no command at all is a wrong command", async () => {
    const { code, out, err } = await run([]);
    expect([code, out]).toEqual([2, ""]);
    expect(err).toMatch(/Usage: ohmward/u);
  });

  test("the version is told", async () => {
    expect(await run(["--version"])).toMatchObject({ code: 0, out: "9.8.7\n", err: "" });
  });
});

import { describe, expect, test } from "vitest";
import {
  ask,
  openMachine,
  reportOnFile,
  writeAnswer,
  writeReport,
  type OpenSetting,
  type Question,
} from "ohmward/application";
import { demo, open } from "./demo-machine.ts";
import { smallMachine } from "./small-machine.ts";

const text = (question: Question, setting: OpenSetting = { build: "base" }): string =>
  writeAnswer(ask(demo, setting, question));

/** The lines from a heading to the next empty line, without the heading. */
function part(written: string, heading: RegExp): readonly string[] {
  const lines = written.split("\n");
  const start = lines.findIndex((line) => heading.test(line));
  const end = lines.indexOf("", start);
  return start < 0 ? [] : lines.slice(start + 1, end);
}

describe("writeAnswer()", () => {
  test("lists a way with colour letters and words, size, length, net, zone and minutes", () => {
    const written = text({ kind: "path", from: "A1.X1:36", to: "B3" });
    expect(written.split("\n").slice(0, 3)).toEqual([
      "Path from A1.X1:36 to B3: 1 wire, 1.06 m of wire, 2 contacts",
      "Tarnwick Firnlark 45 snow groomer (invented), build base, state OFF",
      "As in the harness data.",
    ]);
    expect(part(written, /^Path (also )?through/u)).toEqual([
      "  1  contact  A1.X1:36  Engine control unit, engine side, cavity 36  0.64 mm terminal, sealed                  zone Z1, 4 min, Side panel lifted",
      "  2  wire     W89       WH/RD white with red stripe                  0.5 mm²                   1.06 m  RAIL-P",
      "  3  contact  B3.X:3    Rail pressure sensor, cavity 3               0.64 mm terminal, sealed                  zone Z2, 2 min",
    ]);
    expect(written).toContain("All of these are on every path.");
    expect(part(written, /^Harness segments of the route/u)).toHaveLength(4);
  });

  test("writes a circuit side by side with wires in words", () => {
    expect(part(text({ kind: "circuit", point: "A1.X1:36" }), /^Serves B3/u)).toEqual([
      "  to control unit  B3.X:1 - W72 (PK pink, 0.5 mm², 510 mm) - SP11 - W71 (PK pink, 0.75 mm², 610 mm) - A1.X1:1",
      "  to control unit  B3.X:3 - W89 (WH/RD white with red stripe, 0.5 mm², 1.06 m) - A1.X1:36",
      "  to control unit  B3.X:2 - W79 (BN brown, 0.5 mm², 710 mm) - SP13 - W78 (BN brown, 0.75 mm², 410 mm) - A1.X1:17",
    ]);
    expect(text({ kind: "circuit", point: "A1.X1:43" })).toMatch(
      /No wire in the data is joined to it in this build\.[^]*No supply or consumer is known on this net/u,
    );
  });

  test("tells suspects before what is merely shared", () => {
    const items = [
      { text: "B3", mark: "bad" },
      { text: "B4", mark: "bad" },
      { text: "B5", mark: "good" },
    ] as const;
    const written = text({ kind: "common", items });
    expect(part(written, /^In all that fail and in none that work/u)[0]).toMatch(
      /splice +SP11 .*fails 2 of 2, works 0 of 1/u,
    );
    expect(part(written, /^Common to some/u)[0]).toMatch(/SP13 .*fails 2 of 2, works 1 of 1/u);
    expect(text({ kind: "common", items: [{ text: "B3", mark: "bad" }] })).toContain("Name two or more items");
    const apart = [
      { text: "B7", mark: "bad" },
      { text: "Y1", mark: "bad" },
    ] as const;
    expect(text({ kind: "common", items: apart })).toContain(
      "The data has no wire, contact, splice, connector or segment that is common to two of them.",
    );
  });

  test("tells why each thing stops", () => {
    const written = text({ kind: "effect", item: "XT1" });
    expect(part(written, /^Stops$/u)).toHaveLength(3);
    expect(written).toMatch(/M1\.motor .*loses its supply +because M1\.hold stops/u);
    expect(text({ kind: "effect", item: "W02" })).toMatch(
      /0 items stop[^]*Nothing stops\.[^]*still supplied over another path/u,
    );
  });

  test("tells where a meter may go, for which reading, and what is refused and why", () => {
    const written = text({ kind: "test-points", item: "A1.X1:36" });
    expect(written).toMatch(/^1\. P0 /mu);
    expect(written).toMatch(/^ {3}not for test lamp: /mu);
    expect(part(written, /^Not permitted/u).join("\n")).toMatch(
      /back-probing: .*\[.+\]\n.*A1\.X1\.harness:36 \(instead: test point \d+\)/u,
    );
  });

  test("tells a reading with leads, band, what it means, faults and where the leads go", () => {
    const koeo = { build: "base", state: "KOEO" };
    const written = text({ kind: "expected", red: "A1.X1:36", faults: ["open:W78"] }, koeo);
    expect(written.split("\n").slice(0, 2)).toEqual([
      "Expected at A1.X1.harness:36 against G2-: 5.01 V (4.78 V to 5.24 V)",
      "Tarnwick Firnlark 45 snow groomer (invented), build base, state KOEO",
    ]);
    expect(written).toMatch(/^ {2}red +A1\.X1\.harness:36 +Engine control unit, engine side, cavity 36$/mu);
    expect(written).toMatch(/^ {2}normal +0\.52 V \(.+\)$/mu);
    expect(written).toMatch(/^ {2}fault +open:W78 +W78 open$/mu);
    expect(part(written, /^Where the leads go/u)).toHaveLength(2);
    expect(written).toMatch(/^Assumptions$/mu);
    const aside = text({ kind: "expected", red: "A1.X1:36", faults: ["open:W81"] }, koeo);
    expect(aside).toContain("a meter cannot separate the two");
  });

  test("tells what to take off before ohms, and what a lead without a place means", () => {
    const written = text(
      { kind: "expected", red: "XD1:C", black: "XD1:D", meter: "resistance" },
      { build: "base", state: "RUN" },
    );
    expect(written).toMatch(/^Expected .*: do not measure in this state$/mu);
    expect(part(written, /^Disconnect first/u).join("\n")).toMatch(/G2 .*open the isolator/u);
    const splice = text({ kind: "expected", red: "SP11" }, { build: "base", state: "KOEO" });
    expect(splice).toMatch(/^Expected at SP11 against G2-: no reading, a lead is not permitted there$/mu);
    expect(part(splice, /^Where the leads go/u).join("\n")).toMatch(
      /No contact is permitted at SP11 itself[^]*permitted: B3\.X\.harness:1 \(P2, 3 min\)/u,
    );
    const wanted = text({ kind: "expected", red: "SP11", calculateOnly: true }, { build: "base", state: "KOEO" });
    expect(wanted).toMatch(/: 5\.\d+ V[^]*for understanding only[^]*No contact is permitted at SP11 itself/u);
  });

  test("tells a circuit as a table of points, with and without the fault", () => {
    const written = text(
      { kind: "table", item: "R1.element-1", faults: ["blown:FB1.FL2"] },
      { build: "base", state: "HEAT" },
    );
    const rows = part(written, /^R1\.element-1, from the supply/u);
    expect(rows[0]).toMatch(/^ {2}at +reads +normal +limits +voltage drop +test point +through$/u);
    expect(rows.find((row) => row.includes("K10.30"))).toMatch(
      / \* +11\.86 V .* 12\.63 V +P1 probe on exposed terminal +FB1\.FL2$/u,
    );
    expect(written).toMatch(/^R1\.element-1, to ground$/mu);
  });

  test("lists what is wrong with a question", () => {
    expect(text({ kind: "expected", red: "G2+", faults: ["rust:W1"] })).toMatch(
      /^There is no answer to this question:\n {2}- "rust:W1" does not start with a known fault\. The kinds are open, /u,
    );
  });

  test("writes what is no answer yet: names, builds, states", () => {
    expect(text({ kind: "circuit", point: "Y9" })).toMatch(
      /^Y9 is not fitted in build base\. It is in: tiller, cold-tiller\.\n/u,
    );
    expect(text({ kind: "circuit", point: "B3" }, { build: "x" })).toMatch(
      /no build "x"[^]*\n {2}cold-tiller {2}Cold package and tiller\n/u,
    );
    expect(text({ kind: "circuit", point: "B3" }, { state: "x" })).toMatch(/no state "x"/u);
    expect(text({ kind: "find", text: "Y9" })).toContain("Found in: tiller, cold-tiller.");
    expect(text({ kind: "path", from: "SP11", to: "SP11" })).toContain("none");
  });

  test("lets nothing through that would steer a terminal", () => {
    const label = "Lamp \u001b[31mred\u001b[0m\r\nCautions\u0007 \u202Eturned";
    const machine = smallMachine([{ id: "bare", label, options: [] }], { about: { title: "t", machine: label } });
    const written = writeAnswer(ask(machine, {}, { kind: "circuit", point: "E1" }));
    expect(written).not.toMatch(/[^\n\P{Cc}]|\p{Cf}/u);
    expect(written.split("\n").filter((line) => line.startsWith("Cautions"))).toHaveLength(1);
  });

  test("needs no lengths, colours or zones", () => {
    const machine = smallMachine([{ id: "bare", label: "Bare", options: [] }]);
    const written = writeAnswer(ask(machine, {}, { kind: "path", from: "E1.X:2", to: "G1-" }));
    expect(written).toMatch(/^Path from E1\.X:2 to G1-: 1 wire, 1 contact\n/u);
    expect(written).not.toMatch(/undefined|NaN/u);
  });
});

describe("writeReport()", () => {
  test("counts what a document holds", () => {
    expect(writeReport(reportOnFile("demo", demo))).toBe(
      [
        "demo: opens (0 errors, 0 warnings)",
        "Tarnwick Firnlark 45 snow groomer (invented)",
        "  builds base, cold, tiller, cold-tiller; states OFF, KOEO, PRIME, HEAT, CRANK, RUN",
        "  34 components, 36 connectors, 126 wires, 11 splices, 20 terminal studs, 50 segments",
        "",
        "What you can ask now",
        "  - Circuits and paths: 126 wires, all with both ends.",
        "  - Expected readings: calculated for the whole machine.",
        "  - Meter tests: the data needed for a test is known at 36 of 36 connectors; 4 of those may not be disconnected.",
        "  - Jobs: on wires, contacts, splices and 34 components.",
        "  What is missing: ohmward gaps demo",
        "",
      ].join("\n"),
    );
  });

  test("gives each problem its severity, code, place, sentence and hint", () => {
    const opened = openMachine('{\n  "format": "x",\n}');
    expect(writeReport(reportOnFile("a.json", opened.ok ? opened.value : opened.error))).toMatch(
      /^a\.json: does not open \(1 error, 0 warnings\)\n\nerror not-json at line 3, column \d+\n {2}The text is not JSON: .+\n {2}Correct .+\n$/u,
    );
  });

  test("lists warnings of a document that opens all the same", () => {
    const short = JSON.stringify(demo.document).replace('"lengthMm":1060', '"lengthMm":1');
    expect(writeReport(reportOnFile("a", open(short)))).toMatch(
      /opens \(0 errors, 1 warning\)[^]*warning length-below-route at wires/u,
    );
  });
});

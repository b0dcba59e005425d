import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { pinTableTemplate } from "ohmward/import-export";
import { ErrorReport, FileReport, ImportReport } from "ohmward/application";
import { root, run, type World } from "./fake-io.ts";

const demoFile = (name: string): Uint8Array => readFileSync(join(root, "demo-harness", name));
const words = (line: string): readonly string[] => line.split(" ");
const decode = (data: Uint8Array | undefined): string => new TextDecoder().decode(data);

const GOOD = "Wire;From;To;Colour;Size (mm2)\nW1;X1:1;X2:1;RD;1\nW2;X1:2;X2:2;BK;1\n";
const HALVES = "Wire;From;To;Colour\nW1;A1.X:1;XC1m:1;RD\nW2;B1.X:1;XC1e:1;RD\n";
const OWN_CODES = "Wire;From;To;Colour\nW1;X1:1;X2:1;B/W\n";
/** Two cables whose connectors differ in one number, with the same nets at the same cavities. */
const CABLE = (name: string, far: string): string =>
  `Wire;From;To;Colour;Signal\nW1;${name}:1;${far}:1;RD;FEED\nW2;${name}:2;${far}:2;BK;BACK\n`;

const world: World = {
  files: {
    "good.csv": GOOD,
    "halves.csv": HALVES,
    "codes.csv": OWN_CODES,
    "bare.csv": "a;b;c\nW1;lamp;pump\n",
    "broken.csv": "Wire;From;To;Colour\n=W1;;;beige\nW2;;;\n",
    "one.csv": CABLE("TX.1A1", "K1.X"),
    "two.csv": CABLE("TX.2A1", "K2.X"),
    "part.kbl": demoFile("firnlark-excerpt.kbl"),
    "part.vec": demoFile("firnlark-excerpt.vec"),
    "charts.csv": "Connector,Pin,Signal,Size\nECU,1,5V,0.75\nTANK,A,5V,0.75\n",
    "ecu.csv": "Connector,Pin,Colour,To\nECU,1,RD,TANK:A\n",
    "tank.csv": "Connector,Pin,Colour,To\nTANK,A,RD,ECU:1\n",
    "empty.csv": "",
    "paper.pdf": "%PDF-1.4 nothing",
    "bad.kbl": '<!DOCTYPE x><KBL_container xmlns="http://www.prostep.org/Car_electric_container/KBL2.3/KBLSchema"/>',
  },
};

async function report(line: string, from: World = world): Promise<{ code: number; report: ImportReport }> {
  const { code, out, err } = await run([...words(line), "--json"], from);
  expect(err).toBe("");
  return { code, report: ImportReport.parse(JSON.parse(out)) };
}

describe("import", () => {
  test.each([
    ["good.csv", "csv", 2],
    ["part.kbl", "kbl", 20],
    ["part.vec", "vec", 20],
    ["demo", "json", 126],
  ])("reads %s, tells its format %s by its content, and writes nothing unasked", async (file, format, wires) => {
    const read = await report(`import ${file}`);
    expect(read.code).toBe(0);
    expect(read.report).toMatchObject({
      kind: "imported",
      errors: 0,
      files: [{ name: file, format }],
      holds: { wires },
    });
    const told = await run(["import", file], world);
    expect([told.code, told.err, told.written.size]).toEqual([0, "", 0]);
    expect(told.out).toMatch(/can be imported \(0 errors, [^]*Nothing was written; --out/u);
  });

  test("writes a harness document that opens, to a file or to standard output, with the report beside it", async () => {
    const told = await run(words("import good.csv -o made.ohm.json"), world);
    expect([told.code, told.err]).toEqual([0, ""]);
    expect(told.out).toMatch(/Written to made\.ohm\.json\n\nWhat you can ask now\n/u);
    const text = decode(told.written.get("made.ohm.json"));
    const checked = await run(words("validate made.ohm.json --json"), { files: { "made.ohm.json": text } });
    expect(FileReport.parse(JSON.parse(checked.out))).toMatchObject({ kind: "valid", holds: { wires: 2 } });
    const piped = await run(words("import good.csv -o -"), world);
    expect(piped.out).toBe(text);
    expect(piped.err).toMatch(/^good\.csv: imported/u);
  });

  test("names a file without its folder, unless that tells two apart", async () => {
    const files = { "a/x.csv": GOOD, "b/x.csv": GOOD };
    const told = await run(words("import a/x.csv -o -"), { files });
    expect(told.out).not.toContain("a/x.csv");
    expect(told.out).toContain("x.csv");
    const { report: data } = await report("import a/x.csv b/x.csv", { files });
    expect(data.files.map((file) => file.name)).toEqual(["a/x.csv", "b/x.csv"]);
  });

  test("reads standard input", async () => {
    const told = await run(words("import - --json"), { input: GOOD });
    expect(ImportReport.parse(JSON.parse(told.out)).files[0]?.name).toBe("standard input");
  });

  test("replaces no file unless that is said", async () => {
    const files = { ...world.files, "made.ohm.json": "old" };
    const told = await run(words("import good.csv -o made.ohm.json"), { files });
    expect([told.code, told.written.size]).toEqual([2, 0]);
    expect(told.err).toMatch(/Cannot write made\.ohm\.json: it is there already \(--force replaces it\)/u);
    const forced = await run(words("import good.csv -o made.ohm.json --force"), { files });
    expect([forced.code, forced.written.size]).toEqual([0, 1]);
  });

  test("ends with 1 where problems prevented it, writes them as a guarded table, and no document", async () => {
    const told = await run(words("import broken.csv -o made.ohm.json --problems p.csv"), world);
    expect([told.code, told.err]).toEqual([1, ""]);
    expect(told.out).toMatch(/^broken\.csv: not imported \([1-9]\d* errors?, /u);
    expect([...told.written.keys()]).toEqual(["p.csv"]);
    const [head, ...rows] = decode(told.written.get("p.csv")).split("\r\n");
    expect(head).toBe("Severity,Code,File,Sheet,Row,Column,Line,Path,Problem,What to do");
    expect(rows.join("\n")).toMatch(/error,.*broken\.csv/u);
    const { report: data } = await report("import broken.csv");
    expect(rows.filter((row) => row !== "")).toHaveLength(data.problems.length);
  });

  test("a hostile file is refused with its code", async () => {
    const { code, report: data } = await report("import bad.kbl");
    expect([code, data.kind, data.problems.map((problem) => problem.code)]).toEqual([
      1,
      "not-imported",
      ["xml-doctype"],
    ]);
  });

  test("shows how a table was understood, and reads codes of its own only when they are given", async () => {
    const { report: data } = await report("import good.csv");
    expect(data.table).toMatchObject({ shape: "wire", headingRow: 1, rows: 2, delimiter: ";" });
    expect(data.table?.columns.map(({ column, field, unit }) => [column, field, unit])).toEqual([
      [1, "wire", undefined],
      [2, "from", undefined],
      [3, "to", undefined],
      [4, "colour", undefined],
      [5, "crossSection", "mm2"],
    ]);
    expect((await report("import codes.csv")).report.table?.colours).toEqual([{ written: "B/W", count: 1 }]);
    const told = await run(words("import codes.csv --colour-code B=BU,W=WH -o -"), world);
    expect(told.out).toMatch(/"colour": "BU\/WH"/u);
  });

  test("uses a map, writes one that gives the same document, and refuses one for other headings", async () => {
    const map = {
      shape: "wire",
      columns: [
        { column: 1, field: "wire" },
        { column: 2, field: "from" },
        { column: 3, field: "to" },
      ],
    };
    const files = { ...world.files, "map.json": JSON.stringify(map), "typo.json": '{"shap": "wire"}' };
    expect((await report("import bare.csv", { files })).code).toBe(1);
    const told = await run(words("import bare.csv --columns map.json --save-columns kept.json -o made.ohm.json"), {
      files,
    });
    expect(told.code).toBe(0);
    const kept = decode(told.written.get("kept.json"));
    expect(JSON.parse(kept)).toMatchObject({ columns: [{ column: 1, heading: "a", field: "wire" }, {}, {}] });
    const again = await run(words("import bare.csv --columns kept.json -o -"), {
      files: { ...files, "kept.json": kept },
    });
    expect(again.out).toBe(decode(told.written.get("made.ohm.json")));
    const other = await report("import good.csv --columns kept.json", { files: { ...files, "kept.json": kept } });
    expect([other.code, other.report.problems.map((problem) => problem.code)]).toEqual([1, ["mapping-wrong"]]);
    const typo = await run(words("import bare.csv --columns typo.json"), { files });
    expect([typo.code, typo.err]).toEqual([2, expect.stringMatching(/Cannot use the map typo\.json: /u)]);
  });

  test("applies repairs that are kept beside a table, and refuses them where they fit nothing", async () => {
    const files = {
      ...world.files,
      "fix.json": '{"repairs": [{"row": 2, "column": 5, "text": "2.5"}]}',
      "typo.json": '{"repairs": [{"row": 2}]}',
    };
    const told = await run(words("import good.csv --repairs fix.json -o -"), { files });
    const written = GOOD.replace("RD;1", "RD;2.5");
    expect(told.out).toBe((await run(words("import good.csv -o -"), { files: { "good.csv": written } })).out);
    const typo = await run(words("import good.csv --repairs typo.json"), { files });
    expect([typo.code, typo.err]).toEqual([2, expect.stringMatching(/Cannot use the repairs typo\.json: /u)]);
    const two = await run(words("import one.csv two.csv --repairs fix.json"), { files });
    expect([two.code, two.err]).toEqual([2, expect.stringMatching(/--repairs/u)]);
  });

  test("proposes the halves of one connector in a table and joins them when they are confirmed", async () => {
    expect(
      (await report("import halves.csv")).report.pairs.map(({ first, second }) => [first.connector, second.connector]),
    ).toEqual([["XC1m", "XC1e"]]);
    const told = await run(words("import halves.csv --mate XC1m=XC1e -o -"), world);
    expect(told.code).toBe(0);
    const between = await run(words("path - A1.X:1 B1.X:1 -t conductors"), { input: told.out });
    expect([between.code, between.out]).toEqual([0, expect.stringMatching(/2 wires/u)]);
  });

  test("joins several files at the connectors that are confirmed, and at no others", async () => {
    const { report: data } = await report("import one.csv two.csv");
    expect(data.pairs[0]).toMatchObject({
      first: { file: "one.csv", connector: "TX.1A1" },
      second: { file: "two.csv", connector: "TX.2A1" },
      ...{ cavities: 2, agreeing: 2, against: 0 },
    });
    const ways = ["K1.X:1", "K2.X:1"];
    const apart = await run(words("import one.csv two.csv -o -"), world);
    expect((await run(["path", "-", ...ways], { input: apart.out })).code).toBe(1);
    const joined = await run(words("import one.csv two.csv --mate TX.1A1=TX.2A1 -o -"), world);
    expect(joined.code).toBe(0);
    expect((await run(["path", "-", ...ways], { input: joined.out })).out).toMatch(/: 2 wires/u);
  });

  test("asks about a table by sort, and joins what is confirmed", async () => {
    const asked = (await report("import charts.csv")).report;
    expect(asked.proposals.map(({ kind, isAccepted }) => [kind, isAccepted])).toEqual([
      ["size-unit", false],
      ["same-signal", false],
    ]);
    const apart = await run(words("import charts.csv -o -"), world);
    expect((await run(words("path - ECU:1 TANK:A"), { input: apart.out })).code).toBe(1);
    const joined = await run(words("import charts.csv --accept size-unit,same-signal -o -"), world);
    expect(joined.out).toMatch(/"crossSectionMm2": 0.75/u);
    expect((await run(words("path - ECU:1 TANK:A"), { input: joined.out })).code).toBe(0);
    const told = await run(words("import charts.csv --accept size-unit"), world);
    expect(told.out).toMatch(/size-unit: Are sizes without a unit mm²\?\n {4}Confirmed/u);
    expect((await run(words("import charts.csv --accept everything"), world)).code).toBe(2);
  });

  test("reads charts in several files as one harness where a person confirms that", async () => {
    const asked = (await report("import ecu.csv tank.csv")).report;
    expect(asked.proposals[0]).toMatchObject({ kind: "same-connectors", isAccepted: false });
    const told = await run(words("import ecu.csv tank.csv --accept same-connectors -o -"), world);
    const document = JSON.parse(told.out) as { connectors: { id: string }[]; wires: { ends: string[] }[] };
    expect(document.connectors.map(({ id }) => id)).toEqual(["ECU", "TANK"]);
    expect(document.wires.map(({ ends }) => ends)).toEqual([["ECU:1", "TANK:A"]]);
  });

  test.each([
    ["pins", "pin"],
    ["wires", "wire"],
  ] as const)("writes a template for %s that can be imported as it is", async (name, shape) => {
    const told = await run(["import", "--template", name, "-o", "empty.csv"]);
    expect([told.code, told.out, told.err]).toEqual([0, "", ""]);
    const bytes = told.written.get("empty.csv");
    expect(decode(bytes)).toBe(pinTableTemplate(shape));
    const { code, report: data } = await report("import a.csv", { files: { "a.csv": bytes ?? "" } });
    expect([code, data.table?.shape, data.holds?.wires]).toEqual([0, shape, 3]);
  });

  test("shows on a terminal how far it has come, and takes it away", async () => {
    const shown: string[] = [];
    await run(words("import good.csv"), { ...world, onProgress: (text) => shown.push(text) });
    expect(shown.some((text) => /^good\.csv: .*, \d+ %$/u.test(text))).toBe(true);
    expect(shown.at(-1)).toBe("");
  });

  test("takes the name and the voltage of the machine", async () => {
    const told = await run([...words("import good.csv -o - --voltage 24 --machine"), "Firnlark trailer"], world);
    expect(JSON.parse(told.out)).toMatchObject({ about: { machine: "Firnlark trailer" }, system: { nominalVolt: 24 } });
  });

  test("makes a build of options of a KBL file", async () => {
    const { report: data } = await report("import part.kbl --variant plain=");
    expect(data.holds?.builds).toEqual(["plain"]);
  });
});

describe("a command that is wrong ends with 2 and writes nothing", () => {
  test.each([
    ["import", /Name a file to import/u],
    ["import nothing.csv", /Cannot read nothing\.csv: there is no such file/u],
    ["import empty.csv", /Cannot import empty\.csv: The file is empty/u],
    ["import paper.pdf", /Cannot import paper\.pdf: .*it is a PDF/u],
    ["import good.csv --template pins", /Leave them out/u],
    ["import --template walls", /Allowed choices are pins, wires/u],
    ["import good.csv -o good.csv --force", /A file that is read cannot be replaced/u],
    ["import good.csv -o a.json --problems a.json", /Two outputs cannot be written to one file/u],
    ["import good.csv --mate X1", /"X1" is no pair/u],
    ["import good.csv --mate X1=X9", /no connector "X9"/u],
    ["import one.csv two.csv --mate TX.1A1=X9", /no connector "X9" in any file/u],
    ["import one.csv two.csv --sheet Pins", /apply to one file/u],
    ["import part.kbl --sheet Pins", /only for a pin table or wire list/u],
    ["import good.csv --colour-code red", /Write iec-60757/u],
    ["import good.csv --voltage much", /A voltage is a number/u],
    ["import - -", /Standard input can be read once/u],
  ])("%s", async (line, text) => {
    const told = await run(words(line), world);
    expect([told.code, told.out, told.written.size]).toEqual([2, "", 0]);
    expect(told.err).toMatch(text);
    const asData = await run([...words(line), "--json"], world);
    expect(ErrorReport.parse(JSON.parse(asData.out)).text).not.toBe("");
  });

  test("data and document do not share standard output", async () => {
    expect((await run(words("import good.csv -o - --json"), world)).code).toBe(2);
  });
});

describe("a question about a file that is no harness document says to import it", () => {
  test.each(["good.csv", "part.kbl", "part.vec"])("%s", async (file) => {
    for (const line of [`circuit ${file} X1:1`, `validate ${file}`, `export ${file} --format svg`]) {
      const told = await run(words(line), world);
      expect([told.code, told.out]).toEqual([2, ""]);
      expect(told.err).toContain(`Import it first: ohmward import ${file} --out machine.ohm.json`);
    }
  });
});

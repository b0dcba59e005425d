import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import {
  encodeUtf8,
  rememberMapping,
  runReading,
  type AnyReadOptions,
  type ImportedHarness,
  type MappingMemory,
  type ReadResult,
} from "ohmward/import-export";
import {
  findPair,
  importFile,
  importFormat,
  importReport,
  ImportReport,
  joinImports,
  previewImport,
  problemsCsv,
  proposePairs,
  readImportMap,
  tableOptionsOf,
  writeImportMap,
  writeImportReport,
  type ImportPreview,
} from "ohmward/application";
import { parseCsv } from "ohmward/import-export";
import { root } from "../../structure/support/project-files.ts";

const bytesOf = (text: string): Uint8Array => encodeUtf8(text);

function done<Value>(value: Value | undefined): Value {
  if (value === undefined) throw new Error("stopped");
  return value;
}

function read(bytes: Uint8Array, options: AnyReadOptions): ReadResult {
  return done(runReading(importFile(bytes, options)));
}

function good(bytes: Uint8Array, options: AnyReadOptions): ImportedHarness {
  const result = read(bytes, options);
  if (!result.ok) throw new Error(result.error.map((problem) => problem.message).join("\n"));
  return result.value;
}

function look(text: string, options: Partial<AnyReadOptions> = {}, memory: MappingMemory = []): ImportPreview {
  const seen = done(runReading(previewImport(bytesOf(text), { fileName: "a.csv", ...options }, memory)));
  if (!seen.ok) throw new Error(seen.error.map((problem) => problem.code).join());
  return seen.value;
}

const WIRES = "Wire;From;To\nW1;X1:1;X2:1\n";
const SPEECHLESS = "p;q;r\nW1;lamp;pump\nW2;tank;cab\n";

describe("importFile()", () => {
  test("reads KBL and VEC of the demo excerpt to the same wires", () => {
    const [kbl, vec] = ["kbl", "vec"].map((ending) => {
      const bytes = readFileSync(join(root, "demo-harness", `firnlark-excerpt.${ending}`));
      const { document } = good(bytes, { fileName: "no name" });
      return document.wires
        .map(({ id, ends }) => [id, ...ends.filter((end) => end !== undefined).toSorted()].join(" "))
        .sort();
    });
    expect(kbl).toHaveLength(20);
    expect(kbl).toEqual(vec);
  });

  test("can be stopped between steps", () => {
    const bytes = readFileSync(join(root, "demo-harness", "firnlark-excerpt.kbl"));
    expect(runReading(importFile(bytes, { fileName: "a" }), () => false)).toBeUndefined();
  });

  test("answers to what is no file of a known format", () => {
    expect(read(new Uint8Array(), { fileName: "a" })).toMatchObject({ ok: false, error: [{ code: "file-empty" }] });
    expect(read(bytesOf("%PDF-1.4"), { fileName: "a" })).toMatchObject({ error: [{ code: "format-unknown" }] });
    expect(importFormat(bytesOf("%PDF-1.4"), "a").ok).toBe(false);
    expect(importFormat(bytesOf(WIRES), "a")).toMatchObject({ value: { id: "csv" } });
  });
});

describe("previewImport()", () => {
  test("proposes a mapping from the headings", () => {
    const seen = look(WIRES);
    expect(seen).toMatchObject({ kind: "table", mappingFrom: "proposed", preview: { mapping: { shape: "wire" } } });
  });

  test("takes what is said before what is remembered before what is proposed", () => {
    const said = {
      shape: "wire",
      columns: [
        { column: 1, field: "from" },
        { column: 2, field: "to" },
      ],
    } as const;
    const remembered = {
      shape: "wire",
      columns: [
        { column: 2, field: "from" },
        { column: 1, field: "to" },
      ],
    } as const;
    const memory = rememberMapping([], ["Wire", "From", "To"], remembered);
    expect(look(WIRES, { table: { mapping: said } }, memory)).toMatchObject({
      mappingFrom: "said",
      preview: { mapping: said },
    });
    expect(look(WIRES, {}, memory)).toMatchObject({ mappingFrom: "remembered", preview: { mapping: remembered } });
  });

  test("shows a table whose headings say nothing, to be mapped by hand, and remembers it", () => {
    const seen = look(SPEECHLESS);
    if (seen.kind !== "table") throw new Error(seen.kind);
    expect(seen.mappingFrom).toBe("needed");
    expect(seen.preview).toMatchObject({ headings: ["p", "q", "r"], mapping: { columns: [] }, firstWires: [] });
    expect(seen.preview.firstRows.map((row) => row.cells)).toEqual([
      ["W1", "lamp", "pump"],
      ["W2", "tank", "cab"],
    ]);
    expect(seen.preview.problems.map((problem) => problem.code)).toEqual(["headings-unknown"]);
    const mapping = {
      shape: "wire",
      columns: [
        { column: 1, field: "from" },
        { column: 2, field: "to" },
      ],
    } as const;
    const memory = rememberMapping([], seen.preview.headings, mapping);
    expect(look(SPEECHLESS, {}, memory)).toMatchObject({ mappingFrom: "remembered", preview: { mapping } });
  });

  test("has nothing to map in other formats, and answers to broken tables", () => {
    expect(look('{"format": "ohmward-harness"}')).toMatchObject({ kind: "whole", format: { id: "json" } });
    const broken = done(runReading(previewImport(bytesOf("From;To\n"), { fileName: "a.csv" })));
    expect(broken).toMatchObject({ ok: false, error: [{ code: "table-no-rows" }] });
  });
});

describe("writeImportMap() and readImportMap()", () => {
  test("keep everything that was said about a table", () => {
    const options = {
      headingRow: 1,
      decimal: "comma",
      colours: { kind: "codes", codes: [["B", "BU"]] },
      splicePrefixes: ["SP"],
      endSeparator: ":",
      inlinePairs: [{ sides: ["XC1m", "XC1e"] }],
    } as const;
    const seen = look("Wire;From;To;Size (mm2)\nW1;X1:1;X2:1;0,5\n", { table: options });
    if (seen.kind !== "table") throw new Error(seen.kind);
    const map = readImportMap(writeImportMap(seen.preview, options));
    if (!map.ok) throw new Error(map.error);
    const { mapping, ...rest } = tableOptionsOf(map.value);
    expect(mapping).toEqual(seen.preview.mapping);
    expect(rest).toEqual({ ...options, delimiter: ";" });
  });

  test.each([
    ["no JSON", "{", "it is not JSON"],
    ["an unknown key", '{"shap": 1}', /shap/u],
    ["an unknown field", '{"shape": "wire", "columns": [{"column": 1, "field": "price"}]}', /^at columns\.0\.field: /u],
    [
      "a column before the first",
      '{"shape": "wire", "columns": [{"column": 0, "field": "to"}]}',
      /columns\.0\.column/u,
    ],
    ["a shape without columns", '{"shape": "wire"}', /go together/u],
  ])("refuse %s", (_label, text, reason) => {
    const map = readImportMap(text);
    expect(map).toEqual({ ok: false, error: expect.stringMatching(reason) as unknown });
  });
});

describe("joinImports()", () => {
  const cable = (name: string, far: string): ImportedHarness =>
    good(bytesOf(`Wire;From;To;Colour;Signal\nW1;${name}:1;${far}:1;RD;FEED\nW2;${name}:2;${far}:2;BK;BACK\n`), {
      fileName: `${name}.csv`,
    });
  const parts = [cable("TX.1A1", "K1.X"), cable("TX.2A1", "K2.X")].map((imported) => ({ imported }));

  test("joins what is proposed and confirmed", () => {
    const [pair] = proposePairs(parts);
    const joined = joinImports(parts, pair ? [pair] : []);
    if (!joined.ok) throw new Error("not joined");
    expect(joined.value.document.connectors.filter((each) => each.kind === "inline")).toHaveLength(1);
    expect(joined.value.warnings.filter((each) => each.code === "system-assumed").length).toBeGreaterThan(0);
    expect(new Set(joined.value.document.wires.map((wire) => wire.id)).size).toBe(4);
  });

  test("leaves a single import as it is", () => {
    expect(joinImports(parts.slice(0, 1), [])).toEqual({ ok: true, value: parts[0]?.imported });
  });

  test.each([
    ["TX.1A1=TX.2A1", [0, "TX.1A1", 1, "TX.2A1"]],
    [" tx.2a1 = tx.1a1 ", [1, "TX.2A1", 0, "TX.1A1"]],
    ["2/TX.2A1=1/K1.X", [1, "TX.2A1", 0, "K1.X"]],
  ])("findPair() reads %s", (text, wanted) => {
    const found = findPair(parts, text);
    if (!found.ok) throw new Error(found.error);
    const { first, second } = found.value;
    expect([first.part, first.connector, second.part, second.connector]).toEqual(wanted);
  });

  test.each([
    ["TX.1A1", /no pair/u],
    ["=TX.1A1", /no pair/u],
    ["A=B=C", /no pair/u],
    ["TX.1A1=X9", /no connector "X9" in any file/u],
    ["3/TX.1A1=TX.2A1", /no connector/u],
    ["TX.1A1=TX.1A1", /one connector twice/u],
  ])("findPair() refuses %s", (text, reason) => {
    expect(findPair(parts, text)).toEqual({ ok: false, error: expect.stringMatching(reason) as unknown });
  });

  test("findPair() asks where a name is in several files", () => {
    const same = [parts[0], parts[0], parts[1]].flatMap((part) => part ?? []);
    expect(findPair(same, "TX.1A1=TX.2A1")).toEqual({
      ok: false,
      error: expect.stringMatching(/number of the file/u) as unknown,
    });
    expect(findPair(same, "2/TX.1A1=TX.2A1").ok).toBe(true);
  });
});

describe("importReport()", () => {
  const bytes = bytesOf("Wire;From;To;Colour\n=W1;X1:1;X2:1;beige\n");
  const format = { id: "csv", label: "Table" };
  const result = read(bytes, { fileName: "=a.csv" });
  const report = importReport({ files: [{ fileName: "=a.csv", format }], result });

  test("is plain data as its schema has it, with counts and holdings", () => {
    expect(ImportReport.parse(report)).toEqual(report);
    expect(JSON.parse(JSON.stringify(report))).toEqual(report);
    expect(report.errors + report.warnings).toBe(report.problems.length);
    expect(report.kind).toBe(result.ok ? "imported" : "not-imported");
  });

  test("gives problems as a table that no spreadsheet runs", () => {
    const problems = result.ok ? result.value.warnings : result.error;
    const text = new TextDecoder().decode(problemsCsv(problems));
    const parsed = parseCsv(text, { delimiter: "," });
    if (!parsed.ok) throw new Error("no CSV");
    expect(parsed.value.rows).toHaveLength(problems.length + 1);
    expect(text).not.toMatch(/(?:^|,)"?[=+@]/mu);
    expect(text).toContain("'=a.csv");
  });

  test("as text shows the first problems of a kind and counts the others", () => {
    const many = `Wire;From;To;Colour\n${Array.from({ length: 40 }, (_, at) => `W${at};X1:${at};X2:${at};mud\n`).join("")}`;
    const made = read(bytesOf(many), { fileName: "m.csv" });
    const text = writeImportReport(importReport({ files: [{ fileName: "m.csv", format }], result: made }));
    expect(text.match(/^(?:error|warning) colour-unknown at /gmu)?.length).toBe(10);
    expect(text).toMatch(/^and 30 more of colour-unknown$/mu);
  });
});

test("an import of KBL reports the ledger of each file, whole as data and by class as text", () => {
  const [fileName, format] = ["firnlark-excerpt.kbl", { id: "kbl", label: "KBL harness description" }];
  const result = read(new Uint8Array(readFileSync(join(root, "demo-harness", fileName))), { fileName });
  const report = importReport({ files: [{ fileName, format }], result });
  const [ledger] = ImportReport.parse(report).ledgers;
  expect(ledger?.rows.find((row) => row.class === "Connection")).toEqual({
    class: "Connection",
    found: 20,
    kept: [{ what: "wire", count: 20 }],
    leftOut: [],
  });
  const text = writeImportReport(report);
  expect(text).toContain(`Ledger of ${fileName}`);
  expect(text).toMatch(/Fixing +1 +0 +1 +1 a clip is kept with its own name only/u);
});

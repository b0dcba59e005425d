import { strToU8, zipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { fileProblemTexts } from "../../src/import-export/import-problem-texts.ts";
import { tableProblemTexts } from "../../src/import-export/table-problem-texts.ts";
import { inlineRows, makeXlsx } from "./support/make-xlsx.ts";
import { errorCodes, problemsOf, readFile, readGood, warningCodes } from "./support/read-file.ts";
import type { TableOptions } from "ohmward/import-export";

/** One hostile or broken file: what it is, its content, and the codes it has to end with. */
interface Case {
  readonly name: string;
  readonly file: string;
  readonly content: string | Uint8Array;
  readonly options?: TableOptions;
  readonly mostBytes?: number;
  /** Codes of the errors, in order; an empty list means that the file is read. */
  readonly errors: readonly string[];
  /** Codes that have to be among the warnings. */
  readonly warnings?: readonly string[];
}

const HEAD = "Wire,From,To,Colour,Size (mm²),Length (mm)";
const GOOD = "W1,X1:1,X2:1,RD,0.5,500";
const table = (...rows: readonly string[]): string => [HEAD, ...rows].join("\n");
const pins = (...rows: readonly string[]): string => ["Connector,Pin,Wire,To,Colour", ...rows].join("\n");
const csv = (
  name: string,
  content: string | Uint8Array,
  errors: readonly string[],
  warnings?: readonly string[],
): Case => ({
  name,
  file: "pins.csv",
  content,
  errors,
  ...(warnings === undefined ? {} : { warnings }),
});
const xlsx = (name: string, content: Uint8Array, errors: readonly string[], warnings?: readonly string[]): Case => ({
  ...csv(name, content, errors, warnings),
  file: "pins.xlsx",
});
const ROWS = [
  ["Wire", "From", "To", "Colour"],
  ["W1", "X1:1", "X2:1", "RD"],
];
const GOOD_XLSX = makeXlsx({ sheet: inlineRows(ROWS) });

/** Changes one number of the directory entry of the sheet, at an offset from the start of that entry. */
function changedEntry(offset: number, value: number, size: 2 | 4): Uint8Array {
  const bytes = Uint8Array.from(GOOD_XLSX);
  const view = new DataView(bytes.buffer);
  for (let at = 0; at < bytes.length - 46; at++) {
    if (view.getUint32(at, true) !== 0x02014b50) continue;
    const length = view.getUint16(at + 28, true);
    const name = String.fromCharCode(...bytes.subarray(at + 46, at + 46 + length));
    if (name !== "xl/worksheets/sheet1.xml") continue;
    if (size === 4) view.setUint32(at + offset, value, true);
    else view.setUint16(at + offset, value, true);
    return bytes;
  }
  throw new Error("The test workbook has no sheet");
}

/** A sheet that unpacks to far more than its directory entry says. */
function realBomb(): Uint8Array {
  const bytes = makeXlsx({ wholeSheet: `<worksheet>${" ".repeat(30_000_000)}</worksheet>` });
  const view = new DataView(bytes.buffer);
  for (let at = 0; at < bytes.length - 46; at++) {
    if (view.getUint32(at, true) === 0x02014b50 && view.getUint32(at + 24, true) > 20_000_000)
      view.setUint32(at + 24, 1000, true);
  }
  return bytes;
}

/** Two directory entries that share the same packed bytes. */
function overlapping(): Uint8Array {
  const bytes = zipSync({ "a.csv": strToU8("x".repeat(5000)), "b.csv": strToU8("y".repeat(5000)) });
  const view = new DataView(bytes.buffer);
  const starts: number[] = [];
  for (let at = 0; at < bytes.length - 46; at++) if (view.getUint32(at, true) === 0x02014b50) starts.push(at);
  view.setUint32((starts[1] ?? 0) + 42, view.getUint32((starts[0] ?? 0) + 42, true), true);
  return bytes;
}

const archives: readonly Case[] = [
  xlsx("a zip that claims to unpack to a terabyte", changedEntry(24, 0xf0000000, 4), ["zip-too-large"]),
  xlsx("a zip that really unpacks to more than it claims", realBomb(), ["zip-broken"]),
  xlsx("entries that lie over one another", overlapping(), ["zip-broken"]),
  xlsx("a zip that is cut off", GOOD_XLSX.subarray(0, GOOD_XLSX.length - 30), ["zip-broken"]),
  xlsx("a zip of four bytes", GOOD_XLSX.subarray(0, 4), ["zip-broken"]),
  xlsx("a wrong check sum", changedEntry(16, 0x12345678, 4), ["zip-broken"]),
  xlsx("a size that is too large by one", changedEntry(24, 407, 4), ["zip-broken"]),
  xlsx("a method that is not deflate", changedEntry(10, 99, 2), ["zip-broken"]),
  xlsx("a password", changedEntry(8, 1, 2), ["zip-encrypted"]),
  xlsx("a name that leads upwards", makeXlsx({ more: { "../../evil.xml": strToU8("x") } }), ["zip-path"]),
  xlsx("a name from the top", makeXlsx({ more: { "/etc/passwd": strToU8("x") } }), ["zip-path"]),
  xlsx("a name with a drive", makeXlsx({ more: { "C:\\evil.xml": strToU8("x") } }), ["zip-path"]),
  xlsx("bytes of a zip and then nothing of one", strToU8("PK\u0003\u0004 nothing of the kind"), ["zip-broken"]),
  { ...xlsx("a zip with nothing that is read", zipSync({ "a.txt": strToU8("x") }), ["format-unknown"]), file: "a.zip" },
  { ...xlsx("an old workbook", Uint8Array.of(0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1), ["format-unknown"]), file: "a.xls" },
  { ...csv("XML of some other kind", "<html><body/></html>", ["format-unknown"]), file: "a.csv" },
];

const MAIN = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"';
const workbooks: readonly Case[] = [
  xlsx(
    "a document type in the sheet",
    makeXlsx({
      wholeSheet: `<!DOCTYPE worksheet [<!ENTITY a "aaaa">]><worksheet ${MAIN}><sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>&a;</t></is></c></row></sheetData></worksheet>`,
    }),
    ["xml-doctype"],
  ),
  xlsx("an entity that is defined nowhere", makeXlsx({ sheet: inlineRows([["&a;", "b"]]) }), ["xml-not-well-formed"]),
  xlsx("elements nested without end", makeXlsx({ sheet: "<x>".repeat(500) }), ["xml-too-deep"]),
  xlsx("a sheet that is cut off", makeXlsx({ wholeSheet: `<worksheet ${MAIN}><sheetData><row r="1">` }), [
    "xml-not-well-formed",
  ]),
  xlsx(
    "a sheet in a wrong encoding",
    makeXlsx({ more: { "xl/worksheets/sheet1.xml": Uint8Array.of(0x3c, 0x81, 0xff, 0xfe, 0xfe) } }),
    ["encoding-unknown"],
  ),
  xlsx("no workbook part", zipSync({ "xl/workbook.xml": strToU8("<workbook/>") }), ["xlsx-broken"]),
  xlsx("a workbook without sheets", makeXlsx({ more: { "xl/workbook.xml": strToU8("<workbook/>") } }), ["xlsx-broken"]),
  xlsx(
    "a string that is not there",
    makeXlsx({ sheet: '<sheetData><row r="1"><c r="A1" t="s"><v>7</v></c></row></sheetData>', sharedStrings: "" }),
    ["xlsx-broken"],
  ),
  xlsx(
    "a cell in column XFD",
    makeXlsx({ sheet: '<sheetData><row r="1"><c r="XFD1"><v>1</v></c></row></sheetData>' }),
    ["too-many-columns"],
  ),
  { ...xlsx("a sheet that is not there", GOOD_XLSX, ["sheet-unknown"]), options: { sheet: "Nowhere" } },
  xlsx("an empty sheet", makeXlsx({}), ["file-empty"]),
  xlsx(
    "formulas, with and without a value",
    makeXlsx({
      sheet: inlineRows([...ROWS, ["W2", "X1:2", "X2:2"]]).replace(
        "</row></sheetData>",
        '<c r="D3" t="str"><f>"R"&amp;"D"</f><v>RD</v></c><c r="E3"><f>1+1</f></c></row></sheetData>',
      ),
    }),
    [],
    ["cell-is-formula", "formula-without-value"],
  ),
  xlsx(
    "a pin that the spreadsheet took for a date",
    makeXlsx({
      sheet:
        '<sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>Connector</t></is></c><c r="B1" t="inlineStr"><is><t>Pin</t></is></c></row><row r="2"><c r="A2" t="inlineStr"><is><t>X1</t></is></c><c r="B2" s="1"><v>45293</v></c></row></sheetData>',
      styles: '<cellXfs><xf numFmtId="0"/><xf numFmtId="14"/></cellXfs>',
    }),
    ["no-row-read"],
    ["pin-missing"],
  ),
  xlsx(
    "an error value",
    makeXlsx({
      sheet: inlineRows(ROWS).replace(
        '<c r="D2" t="inlineStr"><is><t xml:space="preserve">RD</t></is></c>',
        '<c r="D2" t="e"><v>#REF!</v></c>',
      ),
    }),
    [],
    ["cell-is-error"],
  ),
  xlsx(
    "a range merged over the whole sheet",
    makeXlsx({
      sheet: `${inlineRows([
        ["Connector", "Pin", "Function"],
        ["X1", "1", "Signal"],
        ["", "2", "Supply"],
      ])}<mergeCells><mergeCell ref="A2:A3"/><mergeCell ref="C2:XFD1048576"/></mergeCells>`,
    }),
    [],
    ["cells-merged"],
  ),
];

const texts: readonly Case[] = [
  csv("an empty file", "", ["file-empty"]),
  csv("blank lines only", "\n\n  \n", ["file-empty"]),
  csv("headings only", HEAD, ["table-no-rows"]),
  csv("no headings", "W1,X1:1,X2:1\nW2,X1:2,X2:2", [], ["read-as"]),
  csv("a picture of words", "one two three\nfour five six", ["headings-unknown"]),
  { ...csv("a file that is too large", table(GOOD), ["file-too-large"]), mostBytes: 20 },
  csv("NULs", table(`${GOOD}\0\0`), ["text-with-nul"]),
  csv("UTF-16 without its mark", Uint8Array.from(Buffer.from(table(GOOD), "utf16le")), ["encoding-unknown"]),
  csv("UTF-32", Uint8Array.from([0xff, 0xfe, 0, 0, 0x57, 0, 0, 0]), ["encoding-unknown"]),
  csv("a byte no encoding has", Uint8Array.from([...strToU8(table(GOOD)), 0x81]), ["encoding-unknown"]),
  csv(
    "Windows-1252",
    Uint8Array.from(Buffer.from(`${HEAD.replace("²", "\u00b2")}\n${GOOD}`, "latin1")),
    [],
    ["encoding-assumed"],
  ),
  csv("a quote that never ends", table('W1,"X1:1,X2:1,RD,0.5,500', GOOD), ["quote-open"]),
  csv("a quote that is not doubled", table('W1,"X1:1" x,X2:1,RD,0.5,500'), ["quote-stray"]),
  csv("a row divided by semicolons", table(GOOD, "W2;X1:2;X2:2;RD;0,5;500"), ["delimiter-mixed"]),
  csv("a million columns", `${HEAD}${",x".repeat(1_000_000)}\n${GOOD}`, ["too-many-columns"]),
  csv("a cell of a million characters", table(`W1,X1:1,X2:1,${"R".repeat(1_000_000)}`), ["cell-too-long"]),
  csv("a row that goes on", table(`${GOOD},and,more`), [], ["row-too-long"]),
  csv("headings that come twice", `${HEAD},Colour\n${GOOD},BU`, [], ["heading-twice"]),
  csv("headings nobody knows", `${HEAD},Price,__proto__,constructor\n${GOOD},9,a,b`, [], ["column-unmapped"]),
  csv("formulas in a CSV file", table("=HYPERLINK(1),X1:1,X2:1,RD,0.5,500"), [], ["id-changed"]),
  {
    ...csv("a mapping that names a column that is not there", table(GOOD), ["mapping-wrong"]),
    options: {
      mapping: {
        shape: "wire",
        columns: [
          { column: 0, field: "from" },
          { column: 99, field: "to" },
        ],
      },
    },
  },
  {
    ...csv("a mapping without a second end", table(GOOD), ["mapping-wrong"]),
    options: { mapping: { shape: "wire", columns: [{ column: 0, field: "from" }] } },
  },
];

const rows: readonly Case[] = [
  csv("a negative size", table("W1,X1:1,X2:1,RD,-0.5,500"), [], ["number-impossible"]),
  csv("a negative length", table("W1,X1:1,X2:1,RD,0.5,-3"), [], ["number-impossible"]),
  csv("a length of zero", table("W1,X1:1,X2:1,RD,0.5,0"), [], ["number-impossible"]),
  csv("thousands or decimals", table('W1,X1:1,X2:1,RD,,"1,234"'), [], ["number-ambiguous"]),
  csv("a size in words", table("W1,X1:1,X2:1,RD,thick,500"), [], ["number-unreadable"]),
  csv("a size without a unit", "Wire,From,To,Size\nW1,X1:1,X2:1,0.5", [], ["unit-missing"]),
  csv("two wires in one pin", table(GOOD, "W2,X1:1,X2:2,RD,0.5,500"), []),
  csv("two nets in one pin", "Wire,From,To,Signal\nW1,X1:1,X2:1,A\nW2,X1:1,X2:2,B", [], ["nets-joined"]),
  csv("a wire from a pin to itself", table(GOOD, "W2,X1:2,X1:2,RD,0.5,500"), [], ["wire-joins-itself"]),
  csv("a pin unlike all others", table(GOOD, "W2,X1:2,X2:2,RD,0.5,500", "W3,X1:3,X2:8oo,RD,0.5,500"), [], ["pin-odd"]),
  csv(
    "terminals with a wire on one side",
    "To (intern),Terminal,To (extern)\nX2:1,1,X3:1\nX2:2,2,",
    [],
    ["terminals-one-sided"],
  ),
  csv("one colour for two wires", "Terminal,To (intern),Colour,To (extern)\n1,X2:1,RD,X3:1", [], ["side-unclear"]),
  csv("two pins in one cell", table(GOOD, 'W2,X1:2,"X2:2, 3",RD,0.5,500'), [], ["pin-several"]),
  csv(
    "several wires to a name without a pin",
    table("W1,X1:1,Fuse box,,,", "W2,X1:2,Fuse box,,,"),
    [],
    ["pins-not-given"],
  ),
  {
    ...csv("a repair of a row that is not there", table(GOOD), [], ["repair-lost"]),
    options: { repairs: [{ row: 9, leaveOut: true }] },
  },
  csv("a line of text below the rows", table(GOOD, "Checked by the foreman,,,,,"), [], ["row-ignored"]),
  csv("one signal in two colours", "Connector,Pin,Signal,Colour\nX1,1,A,RD\nX2,1,A,BU", [], ["colours-differ"]),
  csv("a net with one point", 'Net,Points\nA,"X1-1, X2-1"\nB,"X1-2, X3-2"\nC,X1-3', [], ["net-one-point"]),
  csv("a point without a net", 'Net,Points\nA,"X1-1, X2-1"\n,"X1-2, X3-2"', [], ["net-missing"]),
  csv(
    "a thousand remarks",
    table(GOOD, ...Array.from({ length: 900 }, (_, at) => `W${at + 2},,,${"x".repeat(590)}`)),
    [],
    ["notes-cut"],
  ),
  csv("a wire with one end", table("W1,X1:1,,RD,0.5,500"), [], ["wire-one-end"]),
  csv("a wire with no end", table("W1,,,RD,0.5,500"), ["no-row-read"], ["end-missing"]),
  csv("a pin whose wire goes nowhere", pins("X1,1,W1,,RD", "X1,2,,,"), [], ["wire-one-end"]),
  csv("a wire with three pins", pins("X1,1,W1,,RD", "X2,1,W1,,RD", "X3,1,W1,,RD"), [], ["wire-many-ends"]),
  csv("rows of a wire that disagree", pins("X1,1,W1,,RD", "X2,1,W1,,BU"), [], ["wire-rows-differ"]),
  csv("a wire id with other ends", table(GOOD, "W1,X1:2,X2:2,RD,0.5,500"), [], ["wire-twice"]),
  csv("a splice with one leg", table("W1,X1:1,SP1,RD,0.5,500"), [], ["splice-one-wire", "points-assumed"]),
  csv("an end that may be anything", table("W1,X1:1,Rear plate,RD,0.5,500"), [], ["points-assumed"]),
  csv("a pin without a connector", pins(",1,W1,,RD"), ["no-row-read"], ["connector-missing"]),
  csv("a connector without a pin", pins("X1,,W1,,RD"), ["no-row-read"], ["pin-missing"]),
  csv("a type nobody knows", "Wire,From,To type,To connector\nW1,X1:1,wormhole,S1", [], ["end-type-unknown"]),
  csv("a stated connector without a pin", "Wire,From,To type,To connector\nW1,X1:1,connector,X2", [], ["pin-missing"]),
  csv(
    "a connector name that two components have",
    "Wire,From component,From connector,From pin,To component,To connector,To pin\nW1,A1,X1,1,A2,X1,1\nW2,A1,X1,2,,X1,2",
    [],
    ["component-missing"],
  ),
  csv("bare colour letters", table("W1,X1:1,X2:1,B,0.5,500"), [], ["colour-unknown"]),
  csv("colours of a scheme that was not declared", table(GOOD), [], ["colour-scheme-assumed"]),
  csv("options joined in some way", `${HEAD},Option\n${GOOD},"A, B"`, [], ["option-unclear"]),
  csv("an option expression that is cut off", `${HEAD},Option\n${GOOD},A &`, [], ["option-unclear"]),
  csv("a kind of net nobody knows", `${HEAD},Signal,Signal kind\n${GOOD},KL30,fat`, [], ["net-kind-unknown"]),
  csv(
    "a connector with two mates",
    "Connector,Mates with,Pin\nX1m,X1c,1\nX1m,X9c,2\nX1c,,1\nX9c,,2",
    [],
    ["mate-differs"],
  ),
  csv(
    "connectors that may be halves",
    table("W1,X5m:1,X2:1,RD,0.5,500", "W2,X5c:1,X3:1,RD,0.5,500"),
    [],
    ["inline-possible"],
  ),
  csv(
    "more than two halves",
    "Connector,Half,Pin,Wire,To connector,To pin,Option\nX7,m,1,W1,X1,1,\nX7,t,1,W2,X2,1,T\nX7,j,1,W3,X3,1,!T",
    [],
    ["half-option-assumed"],
  ),
  csv("an id of a thousand letters", table(`${"W".repeat(1000)},X1:1,X2:1,RD,0.5,500`), [], ["id-changed"]),
  csv("a note that is too long", `${HEAD},Note\n${GOOD},${"n".repeat(2000)}`, [], ["text-cut"]),
];

const all = [...archives, ...workbooks, ...texts, ...rows];
const optionsOf = ({ options, mostBytes }: Case): { table?: TableOptions; mostBytes?: number } => ({
  ...(options === undefined ? {} : { table: options }),
  ...(mostBytes === undefined ? {} : { mostBytes }),
});

describe("a hostile or broken table", () => {
  test.each(all)("with $name ends in its problems", (each) => {
    const problems = problemsOf(each.content, each.file, optionsOf(each));
    expect(errorCodes(problems)).toEqual(each.errors);
    expect(warningCodes(problems)).toEqual(expect.arrayContaining([...(each.warnings ?? [])]));
  });

  test("always says in which file, and with a hint", () => {
    for (const each of all) {
      for (const problem of problemsOf(each.content, each.file, optionsOf(each))) {
        expect(problem.message, each.name).not.toBe("");
        expect(problem.hint, each.name).not.toBe("");
        if (problem.severity === "error") expect(problem.at.file, `${each.name}: ${problem.code}`).toBeDefined();
      }
    }
  });

  test("leaves no prototype changed", () => {
    for (const each of all) readFile(each.content, each.file, optionsOf(each));
    expect(({} as Record<string, unknown>)["polluted"]).toBeUndefined();
    expect(Object.keys(Object.prototype)).toEqual([]);
  });

  test("names the row and column of a fault", () => {
    const [found] = problemsOf(table(GOOD, "W2,X1:2,X2:2,B,0.5,500"), "pins.csv").filter(
      (each) => each.code === "colour-unknown",
    );
    expect(found?.at).toEqual({ file: "pins.csv", row: 3, line: 3, column: "Colour" });
    const nets = "Wire,From,To,Signal\nW1,X1:1,X2:1,A\nW2,X1:1,X2:2,B";
    const [twice] = problemsOf(nets, "pins.csv").filter((each) => each.code === "nets-joined");
    expect(twice?.at).toMatchObject({ file: "pins.csv", row: 3 });
  });

  test("of the text kind is told by line where a quoted cell has several", () => {
    const content = table('W1,X1:1,X2:1,RD,0.5,"5\n0\n0"', "W2,X1:2,X2:2,B,0.5,500");
    const found = problemsOf(content, "pins.csv").find((each) => each.code === "colour-unknown");
    expect(found?.at).toMatchObject({ row: 3, line: 5 });
  });
});

test("every problem of files and tables has a case here, apart from those of the full set", () => {
  const seen = new Set(
    all.flatMap((each) => problemsOf(each.content, each.file, optionsOf(each)).map((problem) => problem.code)),
  );
  const codes = [...Object.keys(fileProblemTexts), ...Object.keys(tableProblemTexts)];
  const elsewhere = codes.filter(
    (code) => code.startsWith("set-") || code === "export-loses" || code === "too-many-rows",
  );
  expect(codes.filter((code) => !elsewhere.includes(code) && !(seen as ReadonlySet<string>).has(code))).toEqual([]);
});

/** OHMWARD_WHOLE=1 reads a hundred thousand. */
const MANY = process.env["OHMWARD_WHOLE"] === "1" ? 100_000 : 20_000;

test(`a table of ${MANY} rows is read`, { timeout: 120_000 }, () => {
  const lines = Array.from(
    { length: MANY },
    (_, at) => `W${at},X${at % 500}:${Math.floor(at / 500)},Y${at % 500}:${Math.floor(at / 500)},RD,0.5,500`,
  );
  expect(readGood(table(...lines), "large.csv").document.wires).toHaveLength(MANY);
});

test("a table of more than 250,000 rows is refused", { timeout: 60_000 }, () => {
  const content = `${HEAD}\n${`${GOOD}\n`.repeat(250_001)}`;
  expect(errorCodes(problemsOf(content, "large.csv"))).toEqual(["too-many-rows"]);
});

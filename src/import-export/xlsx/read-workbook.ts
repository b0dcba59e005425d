import { SaxesParser } from "saxes";
import { importProblem, type ImportProblem } from "../import-problem.ts";
import { decodeText } from "../text.ts";
import { XML_LIMITS, XmlStop } from "../xml/read-xml.ts";
import { type TableLimits, TABLE_LIMITS, type Table } from "../tables/table.ts";
import { err, ok, type Result } from "../../base/index.ts";
import { unpackEntry, readZipDirectory } from "../zip.ts";
import { runToEnd, type ReadProgress } from "../format-reader.ts";

/** The number of a column or cell name, from 0: `A` is 0, `AA12` is 26; undefined if it does not start with one to three letters. */
export function columnNumber(name: string): number | undefined {
  const letters = /^[A-Z]{1,3}(?![A-Z])/u.exec(name)?.[0];
  if (letters === undefined) return undefined;
  let number = 0;
  for (const letter of letters) number = number * 26 + letter.charCodeAt(0) - 64;
  return number - 1;
}

/** The letters of a spreadsheet column, from its number from 0. */
export function columnName(number: number): string {
  const before = Math.floor(number / 26);
  return (before > 0 ? columnName(before - 1) : "") + String.fromCharCode(65 + (number % 26));
}

/** A rectangle of cells; rows from 1, columns from 0, both ends included. */
interface CellRange {
  readonly top: number;
  readonly bottom: number;
  readonly left: number;
  readonly right: number;
}

/** Reads a range of cells such as `A2:A5`; undefined if the text is none. */
export function readRange(text: string): CellRange | undefined {
  const match = /^([A-Z]{1,3})([0-9]{1,7}):([A-Z]{1,3})([0-9]{1,7})$/u.exec(text);
  const [left, right] = [columnNumber(match?.[1] ?? ""), columnNumber(match?.[3] ?? "")];
  if (!match || left === undefined || right === undefined) return undefined;
  return { top: Number(match[2]), bottom: Number(match[4]), left, right };
}

/** What is told while a part of a workbook is read: names without prefix, attributes by name without prefix. */
export interface XmlListener {
  readonly open: (name: string, attributes: ReadonlyMap<string, string>) => void;
  readonly close: (name: string) => void;
  readonly text: (text: string) => void;
}

const PIECE = 64 * 1024;
const YIELD_EVERY = 16;

/**
 * Goes through one XML part of a workbook without building a tree, in steps that tell the share done. Document types are refused, depth
 * and attributes are capped as for the other XML files.
 *
 * @param file Its name in the packed file, for problems.
 * @returns The problem that ended the scan, or undefined if it came to the end.
 */
export function* scanXml(
  bytes: Uint8Array,
  file: string,
  listener: XmlListener,
): Generator<number, ImportProblem | undefined, void> {
  const decoded = decodeText(bytes);
  if (!decoded.ok) return { ...decoded.error, at: { file } };
  const { text } = decoded.value;
  const parser = makeParser(listener);
  try {
    for (let at = 0, pieces = 0; at < text.length; at += PIECE, pieces++) {
      parser.write(text.slice(at, at + PIECE));
      if (pieces % YIELD_EVERY === YIELD_EVERY - 1) yield at / text.length;
    }
    parser.close();
    return undefined;
  } catch (fault) {
    if (fault instanceof XmlStop) return { ...fault.problem, at: { file, line: parser.line, ...fault.problem.at } };
    throw fault;
  }
}

function makeParser(listener: XmlListener): SaxesParser<{ xmlns: false }> {
  const parser = new SaxesParser<{ xmlns: false }>({ xmlns: false, position: true } as { xmlns: false });
  const stop = (problem: ImportProblem): never => {
    throw new XmlStop(problem);
  };
  let attributes = new Map<string, string>();
  let depth = 0;
  parser.on("doctype", (text) => stop(importProblem("xml-doctype", {}, { name: text.trim().slice(0, 40) })));
  parser.on("opentagstart", () => {
    attributes = new Map();
    depth += 1;
    if (depth > XML_LIMITS.deepest) stop(importProblem("xml-too-deep", {}, { limit: XML_LIMITS.deepest }));
  });
  parser.on("attribute", ({ name, value }) => {
    attributes.set(withoutPrefix(name), value);
    const limit = XML_LIMITS.mostAttributes;
    if (attributes.size > limit) stop(importProblem("xml-too-many-attributes", {}, { limit }));
  });
  parser.on("opentag", ({ name }) => {
    listener.open(withoutPrefix(name), attributes);
  });
  parser.on("closetag", ({ name }) => {
    depth -= 1;
    listener.close(withoutPrefix(name));
  });
  parser.on("text", listener.text);
  parser.on("cdata", listener.text);
  parser.on("error", (fault) => {
    const reason = fault.message.replace(/^[0-9]+:[0-9]+: /u, "").replace(/\.$/u, "");
    stop(importProblem("xml-not-well-formed", {}, { reason: reason.slice(0, 200) }));
  });
  return parser;
}

function withoutPrefix(name: string): string {
  return name.slice(name.indexOf(":") + 1);
}

/** Numbers of the built-in formats that show a date or a time. Source: ISO/IEC 29500-1, numFmts. */
const isBuiltInDate = (format: number): boolean =>
  (format >= 14 && format <= 22) || (format >= 27 && format <= 36) || (format >= 45 && format <= 58);

/** Whether a format of somebody's own shows a date: it holds day, month, year or hour letters outside of quotes and brackets. */
function isDateFormat(code: string): boolean {
  const bare = code.replace(/"[^"]*"|\\.|\[[^\]]*\]/gu, "");
  return /[dmyhs]/iu.test(bare) && !/general/iu.test(bare);
}

/**
 * Decodes `_x000D_` and the like: office files write characters so that XML cannot hold.
 *
 * Source: ISO/IEC 29500-1, type ST_Xstring.
 */
export function decodeXstring(text: string): string {
  if (!text.includes("_x")) return text;
  return text.replace(/_x([0-9A-Fa-f]{4})_/gu, (_, hex: string) => String.fromCharCode(Number.parseInt(hex, 16)));
}

/** Collects which cell styles show a date, by the number of the style. */
function dateStyles(): { readonly isDate: readonly boolean[]; readonly listener: XmlListener } {
  const own = new Map<string | undefined, boolean>();
  const isDate: boolean[] = [];
  let isInCellFormats = false;
  const open: XmlListener["open"] = (name, attributes) => {
    const format = attributes.get("numFmtId");
    if (name === "numFmt") own.set(format, isDateFormat(attributes.get("formatCode") ?? ""));
    if (name === "cellXfs") isInCellFormats = true;
    if (name === "xf" && isInCellFormats) isDate.push(own.get(format) ?? isBuiltInDate(Number(format ?? 0)));
  };
  const close = (name: string): void => {
    if (name === "cellXfs") isInCellFormats = false;
  };
  return { isDate, listener: { open, close, text: () => undefined } };
}

/** Collects the strings that cells refer to by number. Phonetic guides are no part of them. */
function sharedStrings(): { readonly strings: readonly string[]; readonly listener: XmlListener } {
  const strings: string[] = [];
  let [parts, isText, isPhonetic]: [string[], boolean, boolean] = [[], false, false];
  const open = (name: string): void => {
    if (name === "si") parts = [];
    else if (name === "rPh") isPhonetic = true;
    else if (name === "t") isText = !isPhonetic;
  };
  const close = (name: string): void => {
    if (name === "si") strings.push(decodeXstring(parts.join("")));
    else if (name === "rPh") isPhonetic = false;
    else if (name === "t") isText = false;
  };
  const text = (piece: string): void => {
    if (isText) parts.push(piece);
  };
  return { strings, listener: { open, close, text } };
}

/** A row of a sheet as it is collected. */
interface SheetRow {
  readonly row: number;
  readonly cells: string[];
  readonly numbers: Set<number>;
}

/** A cell whose content is of a kind that tables of wires do not have. */
interface InvalidCell {
  readonly kind: "formula" | "formula-without-value" | "date" | "error";
  readonly row: number;
  readonly column: string;
}

/** What a sheet is read with. */
interface SheetContext {
  readonly strings: readonly string[];
  readonly isDate: readonly boolean[];
  readonly limits: TableLimits;
}

/** Collects the cells of one sheet as texts, the merged ranges, and what was odd. */
class SheetCells implements XmlListener {
  readonly rows: SheetRow[] = [];
  readonly merged: CellRange[] = [];
  readonly odd: InvalidCell[] = [];
  readonly #context: SheetContext;
  #row: SheetRow = { row: 0, cells: [], numbers: new Set() };
  #column = -1;
  #cell: ReadonlyMap<string, string> = new Map();
  #texts: string[] = [];
  #hasFormula = false;
  #hasValue = false;
  #takes = false;
  #isPhonetic = false;

  constructor(context: SheetContext) {
    this.#context = context;
  }

  open = (name: string, attributes: ReadonlyMap<string, string>): void => {
    if (name === "row") this.#beginRow(Number(attributes.get("r") ?? this.#row.row + 1));
    else if (name === "c") this.#beginCell(attributes);
    else if (name === "f") this.#hasFormula = true;
    else if (name === "rPh") this.#isPhonetic = true;
    else if (name === "v" || (name === "t" && !this.#isPhonetic)) {
      this.#takes = true;
      this.#hasValue = true;
    } else if (name === "mergeCell") {
      const range = readRange(attributes.get("ref") ?? "");
      if (range) this.merged.push(range);
    }
  };

  close = (name: string): void => {
    if (name === "v" || name === "t") this.#takes = false;
    else if (name === "rPh") this.#isPhonetic = false;
    else if (name === "c") this.#endCell();
    else if (name === "row" && this.#row.cells.some((cell) => cell.trim() !== "")) this.#keepRow();
  };

  text = (text: string): void => {
    if (this.#takes) this.#texts.push(text);
  };

  #beginRow(row: number): void {
    this.#row = { row: Number.isSafeInteger(row) && row > 0 ? row : this.#row.row + 1, cells: [], numbers: new Set() };
    this.#column = -1;
  }

  #keepRow(): void {
    const { mostRows } = this.#context.limits;
    if (this.rows.length >= mostRows)
      throw new XmlStop(importProblem("too-many-rows", { row: this.#row.row }, { limit: mostRows }));
    this.rows.push(this.#row);
  }

  #beginCell(attributes: ReadonlyMap<string, string>): void {
    this.#cell = attributes;
    this.#column = columnNumber(attributes.get("r") ?? "") ?? this.#column + 1;
    this.#texts = [];
    this.#hasFormula = false;
    this.#hasValue = false;
  }

  #endCell(): void {
    const text = this.#cellText();
    if (text === "") return;
    const { mostColumns, longestCell } = this.#context.limits;
    const place = { row: this.#row.row, column: columnName(this.#column) };
    if (this.#column >= mostColumns)
      throw new XmlStop(importProblem("too-many-columns", place, { columns: this.#column + 1, limit: mostColumns }));
    if (text.length > longestCell)
      throw new XmlStop(importProblem("cell-too-long", place, { length: text.length, limit: longestCell }));
    while (this.#row.cells.length < this.#column) this.#row.cells.push("");
    this.#row.cells[this.#column] = text;
  }

  #cellText(): string {
    const raw = this.#texts.join("");
    if (this.#hasFormula) this.#tellOdd(this.#hasValue ? "formula" : "formula-without-value");
    switch (this.#cell.get("t")) {
      case "s":
        return this.#shared(raw);
      case "inlineStr":
      case "str":
        return decodeXstring(raw);
      case "b":
        return raw === "1" ? "TRUE" : "FALSE";
      case "e":
        this.#tellOdd("error");
        return "";
      case "d":
        this.#tellOdd("date");
        return "";
      case undefined:
      default:
        return this.#number(raw);
    }
  }

  #shared(raw: string): string {
    const string = this.#context.strings[Number(raw)];
    if (string !== undefined) return string;
    const reason = `cell ${columnName(this.#column)}${this.#row.row} refers to string ${raw.slice(0, 20)}, which is not there`;
    throw new XmlStop(importProblem("xlsx-broken", {}, { reason }));
  }

  #number(raw: string): string {
    if (raw.trim() === "") return "";
    if (this.#context.isDate[Number(this.#cell.get("s"))] === true) {
      this.#tellOdd("date");
      return "";
    }
    const number = Number(raw);
    if (!Number.isFinite(number)) return raw;
    this.#row.numbers.add(this.#column);
    // Sheets hold 15 digits; what is beyond them is dust of the binary form.
    return String(Number(number.toPrecision(15)));
  }

  #tellOdd(kind: InvalidCell["kind"]): void {
    this.odd.push({ kind, row: this.#row.row, column: columnName(this.#column) });
  }
}

/** One sheet of a workbook. */
export interface WorkbookSheet {
  readonly name: string;
  readonly isHidden: boolean;
  /** Name of its part in the packed file. */
  readonly part: string;
}

/** A workbook that is open: its sheets in order, and the means to unpack its parts. */
export interface Workbook {
  readonly sheets: readonly WorkbookSheet[];
  /** Unpacks a part; undefined if the workbook has none of that name. */
  readonly unpack: (part: string) => Result<Uint8Array, ImportProblem> | undefined;
}

/** Most bytes a workbook may hold, unpacked. */
const MOST_BYTES = 192 * 1024 * 1024;

/**
 * Opens an XLSX workbook and lists its sheets; their cells are read by `readSheet`.
 *
 * @param bytes The file.
 *
 * Source: ISO/IEC 29500-1 and 29500-2.
 */
export function openWorkbook(bytes: Uint8Array): Result<Workbook, readonly ImportProblem[]> {
  const directory = readZipDirectory(bytes, { mostEntries: 2000, mostBytes: MOST_BYTES });
  if (!directory.ok) return err([directory.error]);
  const entries = directory.value;
  const scanPart = (name: string, open: XmlListener["open"]): ImportProblem | undefined => {
    const entry = entries.get(name);
    if (!entry) return importProblem("xlsx-broken", {}, { reason: `its part "${name}" is missing` });
    const part = unpackEntry(bytes, entry);
    const nothing = (): void => undefined;
    return part.ok ? runToEnd(scanXml(part.value, name, { open, close: nothing, text: nothing })) : part.error;
  };
  const listed: { name: string; isHidden: boolean; relation: string }[] = [];
  const targets = new Map<string, string>();
  const fault =
    scanPart("xl/workbook.xml", (name, attributes) => {
      if (name !== "sheet") return;
      const isHidden = (attributes.get("state") ?? "visible") !== "visible";
      listed.push({ name: attributes.get("name") ?? "", isHidden, relation: attributes.get("id") ?? "" });
    }) ??
    scanPart("xl/_rels/workbook.xml.rels", (name, attributes) => {
      if (name !== "Relationship" || attributes.get("TargetMode") === "External") return;
      targets.set(attributes.get("Id") ?? "", partName(attributes.get("Target") ?? ""));
    });
  if (fault) return err([fault]);
  const sheets = listed.flatMap(({ relation, ...sheet }): WorkbookSheet[] => {
    const part = targets.get(relation);
    // Chart sheets and the like have no part with cells.
    return part !== undefined && entries.has(part) && part.includes("worksheets/") ? [{ ...sheet, part }] : [];
  });
  if (sheets.length === 0) return err([importProblem("xlsx-broken", {}, { reason: "it has no sheet" })]);
  const unpack: Workbook["unpack"] = (part) => {
    const entry = entries.get(part);
    return entry && unpackEntry(bytes, entry);
  };
  return ok({ sheets, unpack });
}

/** Targets are given from the folder `xl`, or from the top with a slash. */
function partName(target: string): string {
  return target.startsWith("/") ? target.slice(1) : `xl/${target}`;
}

/** A sheet as a table of texts, with what was odd in it. */
export interface SheetRead {
  readonly table: Table;
  readonly warnings: readonly ImportProblem[];
}

/** Most odd cells that are listed one by one. */
const MOST_LISTED = 20;

/**
 * Reads the cells of one sheet as texts, in steps. Numbers come with a decimal point, formulas as the value that was last computed, dates
 * and error values not at all; each of these is reported. In merged ranges every cell has the text of the first.
 *
 * @param workbook The open workbook.
 * @param sheet One of its sheets.
 * @param limits Caps; absent means the usual ones.
 */
export function* readSheet(
  workbook: Workbook,
  sheet: WorkbookSheet,
  limits: TableLimits = TABLE_LIMITS,
): Generator<ReadProgress, Result<SheetRead, readonly ImportProblem[]>, void> {
  const { strings, listener: ofStrings } = sharedStrings();
  const { isDate, listener: ofStyles } = dateStyles();
  const cells = new SheetCells({ strings, isDate, limits });
  const parts: readonly (readonly [string, XmlListener, string])[] = [
    ["xl/styles.xml", ofStyles, "Reading the styles"],
    ["xl/sharedStrings.xml", ofStrings, "Reading the texts"],
    [sheet.part, cells, `Reading sheet ${sheet.name}`],
  ];
  for (const [part, listener, doing] of parts) {
    const bytes = workbook.unpack(part);
    if (!bytes) continue;
    if (!bytes.ok) return err([bytes.error]);
    const scan = scanXml(bytes.value, part, listener);
    let step = scan.next();
    for (; step.done !== true; step = scan.next()) yield { share: step.value, doing };
    const problem = step.value;
    if (problem)
      return err([{ ...problem, at: { ...problem.at, ...(part === sheet.part ? { sheet: sheet.name } : {}) } }]);
  }
  const filled = fillMerged(cells);
  const warnings = [...oddProblems(cells.odd, sheet.name)];
  if (filled > 0) warnings.push(importProblem("cells-merged", { sheet: sheet.name }, { cells: filled }));
  return ok({ table: { sheet: sheet.name, rows: cells.rows }, warnings });
}

/** Gives every cell of a merged range the text of its first one; returns how many cells got one. Only rows that exist are filled. */
function fillMerged({ rows, merged }: SheetCells): number {
  const byNumber = new Map<number, SheetRow>(rows.map((row) => [row.row, row]));
  const columns = Math.max(0, ...rows.slice(0, 1000).map((row) => row.cells.length));
  const last = rows.at(-1)?.row ?? 0;
  let filled = 0;
  // A range may claim the whole sheet, and there may be any number of ranges.
  let looked = 0;
  for (const range of merged) {
    const text = byNumber.get(range.top)?.cells[range.left] ?? "";
    if (text === "") continue;
    for (let number = range.top; number <= Math.min(range.bottom, last); number++) {
      const row = byNumber.get(number);
      for (let column = range.left; row && column <= Math.min(range.right, columns - 1); column++) {
        if (++looked > 1_000_000) return filled;
        if ((row.cells[column] ?? "") !== "") continue;
        while (row.cells.length < column) row.cells.push("");
        row.cells[column] = text;
        filled += 1;
      }
    }
  }
  return filled;
}

const CODES = {
  formula: "cell-is-formula",
  "formula-without-value": "formula-without-value",
  date: "cell-is-date",
  error: "cell-is-error",
} as const;

function oddProblems(odd: readonly InvalidCell[], sheet: string): readonly ImportProblem[] {
  const problems: ImportProblem[] = [];
  for (const [kind, code] of Object.entries(CODES)) {
    const found = odd.filter((cell) => cell.kind === kind);
    for (const { row, column } of found.slice(0, MOST_LISTED))
      problems.push(importProblem(code, { sheet, row, column }, { count: 1 }));
    const rest = found.length - MOST_LISTED;
    if (rest > 0) problems.push(importProblem(code, { sheet }, { count: rest }));
  }
  return problems;
}

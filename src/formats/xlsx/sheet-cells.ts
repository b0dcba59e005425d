import { importProblem } from "../import-problem.ts";
import type { TableLimits } from "../tables/table.ts";
import { columnName, columnNumber, readRange, type CellRange } from "./cell-names.ts";
import type { DateStyles } from "./date-styles.ts";
import { decodeXstring } from "./escape-text.ts";
import { ScanStop, type XmlListener } from "./scan-xml.ts";

/** A row of a sheet as it is collected. */
export interface SheetRow {
  readonly row: number;
  readonly cells: string[];
  readonly numbers: Set<number>;
}

/** A cell whose content is of a kind that tables of wires do not have. */
export interface OddCell {
  readonly kind: "formula" | "formula-without-value" | "date" | "error";
  readonly row: number;
  readonly column: string;
}

/** What a sheet is read with. */
export interface SheetContext {
  readonly strings: readonly string[];
  readonly dates: DateStyles;
  readonly limits: TableLimits;
}

/** Collects the cells of one sheet as texts, the merged ranges, and what was odd. */
export class SheetCells implements XmlListener {
  readonly rows: SheetRow[] = [];
  readonly merged: CellRange[] = [];
  readonly odd: OddCell[] = [];
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
      throw new ScanStop(importProblem("too-many-rows", { row: this.#row.row }, { limit: mostRows }));
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
      throw new ScanStop(importProblem("too-many-columns", place, { columns: this.#column + 1, limit: mostColumns }));
    if (text.length > longestCell)
      throw new ScanStop(importProblem("cell-too-long", place, { length: text.length, limit: longestCell }));
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
    throw new ScanStop(importProblem("xlsx-broken", {}, { reason }));
  }

  #number(raw: string): string {
    if (raw.trim() === "") return "";
    if (this.#context.dates.isDate(this.#cell.get("s"))) {
      this.#tellOdd("date");
      return "";
    }
    const number = Number(raw);
    if (!Number.isFinite(number)) return raw;
    this.#row.numbers.add(this.#column);
    // Sheets hold 15 digits; what is beyond them is dust of the binary form.
    return String(Number(number.toPrecision(15)));
  }

  #tellOdd(kind: OddCell["kind"]): void {
    this.odd.push({ kind, row: this.#row.row, column: columnName(this.#column) });
  }
}

import { err, ok, type Result } from "../../base/index.ts";
import { runToEnd, type ReadProgress } from "../format-reader.ts";
import { importProblem, type ImportProblem } from "../import-problem.ts";
import { TABLE_LIMITS, type Table, type TableRow } from "../tables/table.ts";
import { scanXml, type XmlListener } from "../xlsx/read-workbook.ts";
import { XmlStop } from "../xml/read-xml.ts";
import { readZipDirectory, unpackEntry } from "../zip.ts";

/** Most bytes a document may hold, unpacked. */
const MOST_BYTES = 192 * 1024 * 1024;
/** Empty rows and cells are repeated by the million to fill a sheet. */
const MOST_REPEATED = 100_000;

/** A cell that goes on below or beside its place. */
interface Spanned {
  readonly text: string;
  readonly until: number;
}

/** Collects the cells of all sheets as texts. */
class SheetsOfText implements XmlListener {
  readonly tables: Table[] = [];
  #rows: TableRow[] = [];
  #row = 0;
  #repeatRow = 1;
  #cells: string[] = [];
  #numbers = new Set<number>();
  #cell: ReadonlyMap<string, string> = new Map();
  #text: string[] = [];
  #inCell = 0;
  #inNote = 0;
  #isHidden = false;
  #name = "";
  readonly #hidden = new Set<string>();
  readonly #below = new Map<number, Spanned>();
  #styleName = "";

  open = (name: string, attributes: ReadonlyMap<string, string>): void => {
    if (name === "style") this.#styleName = attributes.get("name") ?? "";
    else if (name === "table-properties" && attributes.get("display") === "false") this.#hidden.add(this.#styleName);
    else if (name === "table") {
      [this.#rows, this.#row, this.#name] = [[], 0, attributes.get("name") ?? ""];
      this.#below.clear();
      this.#isHidden = this.#hidden.has(attributes.get("style-name") ?? "");
    } else if (name === "table-row") {
      this.#repeatRow = repeated(attributes.get("number-rows-repeated"));
      [this.#cells, this.#numbers] = [[], new Set()];
      this.#row += 1;
    } else if (name === "table-cell" || name === "covered-table-cell") {
      [this.#cell, this.#text, this.#inCell] = [attributes, [], this.#inCell + 1];
    } else if (name === "annotation") this.#inNote += 1;
    else if ((name === "p" || name === "line-break") && this.#text.length > 0) this.#text.push(" ");
    else if (name === "s" && this.#inCell > 0)
      this.#text.push(" ".repeat(Math.min(100, Number(attributes.get("c") ?? 1) || 1)));
    else if (name === "tab" && this.#inCell > 0) this.#text.push(" ");
  };

  close = (name: string): void => {
    if (name === "annotation") this.#inNote -= 1;
    else if (name === "table-cell" || name === "covered-table-cell") this.#endCell(name);
    else if (name === "table-row") this.#endRow();
    else if (name === "table" && !this.#isHidden) this.tables.push({ sheet: this.#name, rows: this.#rows });
  };

  text = (text: string): void => {
    if (this.#inCell > 0 && this.#inNote === 0 && text.trim() !== "") this.#text.push(text);
  };

  #endCell(name: string): void {
    this.#inCell -= 1;
    const at = this.#cells.length;
    const above = this.#below.get(at);
    const isCovered = name === "covered-table-cell" && above !== undefined && above.until >= this.#row;
    const text = isCovered ? above.text : this.#valueOf();
    const times = repeated(this.#cell.get("number-columns-repeated"));
    const isFilled = text.trim() !== "";
    if (isFilled && text.length > TABLE_LIMITS.longestCell)
      throw new XmlStop(
        importProblem(
          "cell-too-long",
          { sheet: this.#name, row: this.#row },
          { length: text.length, limit: TABLE_LIMITS.longestCell },
        ),
      );
    if (isFilled && at + times > TABLE_LIMITS.mostColumns)
      throw new XmlStop(
        importProblem(
          "too-many-columns",
          { sheet: this.#name, row: this.#row },
          { columns: at + times, limit: TABLE_LIMITS.mostColumns },
        ),
      );
    for (let count = 0; count < Math.min(times, TABLE_LIMITS.mostColumns); count++) {
      if (isFilled && this.#cell.get("value-type") === "float") this.#numbers.add(this.#cells.length);
      this.#cells.push(text);
    }
    if (isCovered || !isFilled) return;
    const [down, along] = [this.#cell.get("number-rows-spanned"), this.#cell.get("number-columns-spanned")].map(
      repeated,
    );
    if ((down ?? 1) < 2 && (along ?? 1) < 2) return;
    for (let column = at; column < at + (along ?? 1); column++)
      this.#below.set(column, { text, until: this.#row + (down ?? 1) - 1 });
  }

  /** Numbers as they are stored, with a decimal point; anything else as it is shown. */
  #valueOf(): string {
    const kind = this.#cell.get("value-type");
    const value = this.#cell.get("value");
    if (kind === "float" && value !== undefined) return String(Number(Number(value).toPrecision(15)));
    return this.#text.join("");
  }

  #endRow(): void {
    const isFilled = this.#cells.some((cell) => cell.trim() !== "");
    while (this.#cells.at(-1)?.trim() === "") this.#cells.pop();
    for (let count = 0; isFilled && count < this.#repeatRow; count++) {
      if (this.#rows.length >= TABLE_LIMITS.mostRows)
        throw new XmlStop(importProblem("too-many-rows", { sheet: this.#name }, { limit: TABLE_LIMITS.mostRows }));
      this.#rows.push({ row: this.#row + count, cells: [...this.#cells], numbers: this.#numbers });
    }
    this.#row += this.#repeatRow - 1;
  }
}

function repeated(text: string | undefined): number {
  const times = Number(text ?? 1);
  return Number.isInteger(times) && times > 0 ? Math.min(times, MOST_REPEATED) : 1;
}

/**
 * Reads the visible sheets of an OpenDocument spreadsheet (ODS) as texts, in steps. Cells in merged ranges have the text of the first.
 *
 * @param bytes The file.
 *
 * Source: OpenDocument 1.3 part 3 (OASIS), tables.
 */
export function* readOds(
  bytes: Uint8Array,
): Generator<ReadProgress, Result<readonly Table[], readonly ImportProblem[]>, void> {
  const directory = readZipDirectory(bytes, { mostEntries: 2000, mostBytes: MOST_BYTES });
  if (!directory.ok) return err([directory.error]);
  const entry = directory.value.get("content.xml");
  if (!entry) return err([importProblem("xlsx-broken", {}, { reason: 'its part "content.xml" is missing' })]);
  const content = unpackEntry(bytes, entry);
  if (!content.ok) return err([content.error]);
  yield { share: 0.1, doing: "Reading the sheets" };
  const sheets = new SheetsOfText();
  const problem = runToEnd(scanXml(content.value, "content.xml", sheets));
  return problem ? err([problem]) : ok(sheets.tables);
}

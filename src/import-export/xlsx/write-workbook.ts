import type { CellValue } from "../csv.ts";
import { encodeUtf8 } from "../text.ts";
import { writeZip } from "../zip.ts";
import { columnName } from "./read-workbook.ts";

/** Encodes a text for an XML part of a workbook: the signs of XML, characters XML cannot hold, and what looks like such an escape. */
function encodeXstring(text: string): string {
  return (
    text
      .replace(/_(?=x[0-9A-Fa-f]{4}_)/gu, "_x005F_")
      // Half surrogate pairs cannot be written in any encoding, so they are kept as escapes too. A bare carriage return
      // would be read back as a line feed.
      .replace(/\p{Cc}|\p{Cs}|[\ufffe\uffff]/gu, (character) =>
        /[\t\n]/u.test(character) ? character : escape(character),
      )
      .replaceAll("&", "&amp;")
      .replaceAll("<", "&lt;")
      .replaceAll(">", "&gt;")
      .replaceAll('"', "&quot;")
  );
}

function escape(character: string): string {
  return `_x${character.charCodeAt(0).toString(16).toUpperCase().padStart(4, "0")}_`;
}

/** A sheet to be written: its rows, the heading row first. */
export interface SheetToWrite {
  readonly name: string;
  readonly rows: readonly (readonly CellValue[])[];
}

const HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE = "http://schemas.openxmlformats.org/package/2006";
const TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml";

/**
 * Writes a workbook: texts as texts, numbers as numbers, the first row kept in sight. The same rows give the same bytes.
 *
 * @param sheets The sheets in order; names are cut to the 31 characters a sheet may have.
 *
 * Source: ISO/IEC 29500-1 and 29500-2.
 */
export function writeWorkbook(sheets: readonly SheetToWrite[]): Uint8Array {
  const numbered = sheets.map((sheet, at) => ({ ...sheet, number: at + 1, part: `worksheets/sheet${at + 1}.xml` }));
  const types = numbered.map(({ part }) => `<Override PartName="/xl/${part}" ContentType="${TYPE}.worksheet+xml"/>`);
  const listed = numbered.map(
    ({ name, number }) => `<sheet name="${encodeXstring(name.slice(0, 31))}" sheetId="${number}" r:id="rId${number}"/>`,
  );
  const relations = numbered.map(
    ({ part, number }) => `<Relationship Id="rId${number}" Type="${RELATIONS}/worksheet" Target="${part}"/>`,
  );
  const parts: [string, string][] = [
    [
      "[Content_Types].xml",
      `<Types xmlns="${PACKAGE}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="${TYPE}.sheet.main+xml"/>${types.join("")}</Types>`,
    ],
    [
      "_rels/.rels",
      `<Relationships xmlns="${PACKAGE}/relationships"><Relationship Id="rId1" Type="${RELATIONS}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    ],
    [
      "xl/workbook.xml",
      `<workbook xmlns="${MAIN}" xmlns:r="${RELATIONS}"><sheets>${listed.join("")}</sheets></workbook>`,
    ],
    [
      "xl/_rels/workbook.xml.rels",
      `<Relationships xmlns="${PACKAGE}/relationships">${relations.join("")}</Relationships>`,
    ],
    ...numbered.map(({ part, rows }): [string, string] => [`xl/${part}`, sheetXml(rows)]),
  ];
  return writeZip(parts.map(([name, text]) => [name, encodeUtf8(HEAD + text)]));
}

function sheetXml(rows: readonly (readonly CellValue[])[]): string {
  const lines = rows.map((row, at) => {
    const cells = row.map((value, column) => cellXml(value, `${columnName(column)}${at + 1}`));
    return `<row r="${at + 1}">${cells.join("")}</row>`;
  });
  const view = `<sheetViews><sheetView workbookViewId="0"><pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/></sheetView></sheetViews>`;
  return `<worksheet xmlns="${MAIN}">${view}<sheetData>${lines.join("\n")}</sheetData></worksheet>`;
}

function cellXml(value: CellValue, name: string): string {
  if (value === undefined || value === "") return "";
  if (typeof value === "number") return `<c r="${name}"><v>${value}</v></c>`;
  return `<c r="${name}" t="inlineStr"><is><t xml:space="preserve">${encodeXstring(value)}</t></is></c>`;
}

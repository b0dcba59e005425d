import { strToU8, zipSync, type Zippable } from "fflate";

const HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
const MAIN = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"';
const REL = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

/** Parts of a workbook that a test wants to be different from the plain one. */
export interface XlsxParts {
  /** Content of `sheetData` and what follows it. */
  readonly sheet?: string;
  /** The whole sheet part, in place of the usual frame. */
  readonly wholeSheet?: string;
  readonly sharedStrings?: string;
  readonly styles?: string;
  /** Further entries of the packed file. */
  readonly more?: Zippable;
  readonly sheetName?: string;
  readonly sheetState?: string;
}

/** Packs a workbook with one sheet, written by hand as a spreadsheet program would lay it out. */
export function makeXlsx(parts: XlsxParts): Uint8Array {
  const state = parts.sheetState === undefined ? "" : ` state="${parts.sheetState}"`;
  const sheet = parts.wholeSheet ?? `${HEAD}<worksheet ${MAIN}>${parts.sheet ?? "<sheetData/>"}</worksheet>`;
  return zipSync({
    "xl/workbook.xml": strToU8(
      `${HEAD}<workbook ${MAIN} xmlns:r="${REL}"><sheets><sheet name="${parts.sheetName ?? "Pins"}" sheetId="1"${state} r:id="rId1"/></sheets></workbook>`,
    ),
    "xl/_rels/workbook.xml.rels": strToU8(
      `${HEAD}<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="${REL}/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`,
    ),
    "xl/worksheets/sheet1.xml": strToU8(sheet),
    ...(parts.sharedStrings === undefined
      ? {}
      : { "xl/sharedStrings.xml": strToU8(`${HEAD}<sst ${MAIN}>${parts.sharedStrings}</sst>`) }),
    ...(parts.styles === undefined
      ? {}
      : { "xl/styles.xml": strToU8(`${HEAD}<styleSheet ${MAIN}>${parts.styles}</styleSheet>`) }),
    ...parts.more,
  });
}

/** Rows of texts as inline strings. */
export function inlineRows(rows: readonly (readonly string[])[]): string {
  const letters = "ABCDEFGHIJ";
  const written = rows.map((cells, row) => {
    const written = cells.map(
      (text, column) =>
        `<c r="${letters[column] ?? "Z"}${row + 1}" t="inlineStr"><is><t xml:space="preserve">${text}</t></is></c>`,
    );
    return `<row r="${row + 1}">${written.join("")}</row>`;
  });
  return `<sheetData>${written.join("")}</sheetData>`;
}

import { hasMarkdownTable } from "./tables/markup-tables.ts";
import { decodeText } from "./text.ts";
import { openWorkbook } from "./xlsx/read-workbook.ts";
import { readZipDirectory } from "./zip.ts";

/** What a file is, by its content. */
export type FileKind =
  | {
      readonly kind:
        | "json"
        | "table-set-zip"
        | "table-set-xlsx"
        | "xlsx"
        | "kbl"
        | "vec"
        | "vec-package"
        | "csv"
        | "ods"
        | "markdown"
        | "html";
    }
  /** It is none of the formats that are read; the reason is for people. */
  | { readonly kind: "unknown"; readonly reason: string };

/** Bytes looked at where the whole file need not be. */
const HEAD_BYTES = 64 * 1024;

/** First bytes of files that people take for tables. */
const FOREIGN: readonly (readonly [bytes: readonly number[], what: string])[] = [
  [[0xd0, 0xcf, 0x11, 0xe0], "it is a workbook of the old kind (XLS) or another office file; save it as XLSX or CSV"],
  [[0x25, 0x50, 0x44, 0x46], "it is a PDF; copy its table into a spreadsheet first"],
  [[0x89, 0x50, 0x4e, 0x47], "it is a picture"],
  [[0xff, 0xd8, 0xff], "it is a picture"],
  [[0x1f, 0x8b], "it is packed (gzip); unpack it first"],
  [[0x37, 0x7a, 0xbc, 0xaf], "it is packed (7z); unpack it first"],
  [[0x52, 0x61, 0x72, 0x21], "it is packed (RAR); unpack it first"],
];

/**
 * Finds out what a file is, by its content; the name only decides where content does not.
 *
 * @param bytes The file.
 * @param fileName Its name.
 * @example
 * ```ts
 * import { recogniseFile } from "ohmward/import-export";
 * const bytes = Uint8Array.from('{"format": "ohmward-harness"}', (character) => character.charCodeAt(0));
 * expect(recogniseFile(bytes, "machine.txt").kind).toBe("json");
 * ```
 */
export function recogniseFile(bytes: Uint8Array, fileName: string): FileKind {
  if (bytes.length === 0) return { kind: "unknown", reason: "it is empty" };
  const foreign = FOREIGN.find(([start]) => start.every((byte, at) => bytes[at] === byte));
  if (foreign) return { kind: "unknown", reason: foreign[1] };
  if (bytes[0] === 0x50 && bytes[1] === 0x4b) return recogniseZip(bytes);
  // A cut in the middle of a character would make the head of a UTF-8 text look like something else.
  const head = headOf(bytes);
  const decoded = decodeText(head);
  // Whoever reads the table then tells what is wrong with its encoding.
  if (!decoded.ok) return { kind: "csv" };
  const text = decoded.value.text.trimStart();
  if (text.startsWith("{") && /"format"\s*:|"ohmward/u.test(text)) return { kind: "json" };
  if (text.startsWith("{") || /\.json$/iu.test(fileName)) return { kind: "json" };
  if (/^<(?:!doctype html|html|table|body|head|h\d)[\s>]/iu.test(text)) return recogniseHtml(text);
  if (text.startsWith("<")) return recogniseXml(text);
  return { kind: hasMarkdownTable(text) ? "markdown" : "csv" };
}

function headOf(bytes: Uint8Array): Uint8Array {
  if (bytes.length <= HEAD_BYTES) return bytes;
  let end = HEAD_BYTES;
  // UTF-16, which has an even number of bytes, has its mark first.
  const isWide = (bytes[0] ?? 0) >= 0xfe;
  while (!isWide && end > 0 && ((bytes[end] ?? 0) & 0xc0) === 0x80) end -= 1;
  return bytes.subarray(0, end);
}

function recogniseZip(bytes: Uint8Array): FileKind {
  const directory = readZipDirectory(bytes);
  // The reader of workbooks tells what is wrong with the archive.
  if (!directory.ok) return { kind: "xlsx" };
  const names = [...directory.value.keys()];
  if (names.includes("xl/workbook.xml")) return { kind: isTableSet(bytes) ? "table-set-xlsx" : "xlsx" };
  if (names.includes("content.xml")) return { kind: "ods" };
  if (names.includes("index.vec")) return { kind: "vec-package" };
  if (names.includes("wires.csv") && names.includes("about.csv")) return { kind: "table-set-zip" };
  return { kind: "unknown", reason: "it is a packed file, and holds neither a workbook nor a set of tables" };
}

/** A workbook with the sheets that every full set of tables has. */
function isTableSet(bytes: Uint8Array): boolean {
  const workbook = openWorkbook(bytes);
  const names = new Set(workbook.ok ? workbook.value.sheets.map((sheet) => sheet.name) : []);
  return ["about", "builds", "connectors", "wires"].every((name) => names.has(name));
}

/** A page is read for its tables. */
function recogniseHtml(text: string): FileKind {
  return /<table[\s>]/iu.test(text) ? { kind: "html" } : { kind: "unknown", reason: "it is a page without a table" };
}

function recogniseXml(text: string): FileKind {
  const root = /<(?![?!])(?:[\w.-]+:)?([\w.-]+)/u.exec(text.replace(/<!--[\s\S]*?-->/gu, ""))?.[1];
  if (root === "KBL_container") return { kind: "kbl" };
  if (root === "VecContent") return { kind: "vec" };
  return { kind: "unknown", reason: `it is XML whose first element is "${root ?? ""}"` };
}

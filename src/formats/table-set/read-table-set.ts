import { err, ok, type Result } from "../../base/index.ts";
import { FORMAT_NAME, FORMAT_VERSION } from "../../model/index.ts";
import { parseCsv } from "../csv/parse-csv.ts";
import { judgeDocument } from "../draft/judge-document.ts";
import type { FormatReader, Reading, ReadOptions, ReadProgress } from "../format-reader.ts";
import { importProblem, type ImportPlace, type ImportProblem } from "../import-problem.ts";
import { recogniseFile } from "../recognise-file.ts";
import { decodeText } from "../text/decode-text.ts";
import { openWorkbook } from "../xlsx/open-workbook.ts";
import { readSheet } from "../xlsx/read-sheet.ts";
import { unpackEntry } from "../zip/unpack-entry.ts";
import { readZipDirectory } from "../zip/zip-directory.ts";
import type { FoundTable } from "./found-table.ts";
import { setRecords, type SetRecords } from "./set-records.ts";

type Loading = Generator<ReadProgress, Result<ReadonlyMap<string, FoundTable>, readonly ImportProblem[]>, void>;

/** Most bytes of a set, packed. */
const MOST_BYTES = 128 * 1024 * 1024;
/** Cells of a set may hold a whole curve. */
const LIMITS = { mostRows: 250_000, mostColumns: 300, longestCell: 100_000 };

/** Reads the full set of tables from one XLSX workbook. */
export const tableSetXlsxReader: FormatReader = {
  id: "table-set-xlsx",
  label: "Full set of tables, XLSX",
  extensions: [".xlsx"],
  recognises: (bytes, fileName) => recogniseFile(bytes, fileName).kind === "table-set-xlsx",
  read: (bytes, options) => readSet(loadSheets(bytes), bytes, options),
};

/** Reads the full set of tables from CSV files in one zip file. */
export const tableSetZipReader: FormatReader = {
  id: "table-set-zip",
  label: "Full set of tables, CSV files in a zip file",
  extensions: [".zip"],
  recognises: (bytes, fileName) => recogniseFile(bytes, fileName).kind === "table-set-zip",
  read: (bytes, options) => readSet(loadFiles(bytes), bytes, options),
};

function* readSet(loading: Loading, bytes: Uint8Array, options: ReadOptions): Reading {
  const inFile = (problems: readonly ImportProblem[]): readonly ImportProblem[] =>
    problems.map((problem) => ({ ...problem, at: { ...problem.at, file: problem.at.file ?? options.fileName } }));
  const limit = options.mostBytes ?? MOST_BYTES;
  if (bytes.length > limit) return err(inFile([importProblem("file-too-large", {}, { bytes: bytes.length, limit })]));
  const loaded = yield* loading;
  if (!loaded.ok) return err(inFile(loaded.error));
  yield { share: 0.6, doing: "Reading the rows" };
  const records = setRecords(loaded.value);
  if (records.problems.some((problem) => problem.severity === "error")) return err(inFile(records.problems));
  yield { share: 0.8, doing: "Checking the harness" };
  const document = { format: FORMAT_NAME, version: FORMAT_VERSION, ...records.document };
  return judgeDocument(document, inFile(records.problems), (path) => placeOf(path, records, options.fileName));
}

function* loadSheets(bytes: Uint8Array): Loading {
  const workbook = openWorkbook(bytes);
  if (!workbook.ok) return workbook;
  const tables = new Map<string, FoundTable>();
  for (const sheet of workbook.value.sheets) {
    const read = yield* readSheet(workbook.value, sheet, LIMITS);
    if (!read.ok) return read;
    tables.set(sheet.name, { table: read.value.table, isDecimalComma: false });
  }
  return ok(tables);
}

function* loadFiles(bytes: Uint8Array): Loading {
  const directory = readZipDirectory(bytes);
  if (!directory.ok) return err([directory.error]);
  const tables = new Map<string, FoundTable>();
  for (const [fileName, entry] of directory.value) {
    const name = /^([^/]+)\.csv$/u.exec(fileName)?.[1];
    if (name === undefined) continue;
    yield { share: (0.5 * tables.size) / directory.value.size, doing: `Reading ${fileName}` };
    const unpacked = unpackEntry(bytes, entry);
    if (!unpacked.ok) return err([unpacked.error]);
    const decoded = decodeText(unpacked.value);
    if (!decoded.ok) return err([{ ...decoded.error, at: { file: fileName } }]);
    const parsed = parseCsv(decoded.value.text, { limits: LIMITS });
    if (!parsed.ok) return err(parsed.error.map((problem) => ({ ...problem, at: { ...problem.at, file: fileName } })));
    // A spreadsheet that divides cells by semicolons writes numbers with a comma.
    tables.set(name, { table: parsed.value, isDecimalComma: parsed.value.delimiter === ";" });
  }
  return ok(tables);
}

/** Where a way into the document leads to: the row of the innermost record that has one of its own. */
function placeOf(path: string, records: SetRecords, file: string): ImportPlace | undefined {
  const steps = /^(\w+)\[(\d+)\](?:\.(\w+)\[(\d+)\])?/u.exec(path);
  if (!steps) return { file, sheet: "about", path };
  const [, list = "", at = "", inner, innerAt] = steps;
  const found =
    records.places.get(`${list}[${at}].${inner ?? ""}[${innerAt ?? ""}]`) ?? records.places.get(`${list}[${at}]`);
  return found && { file, ...found };
}

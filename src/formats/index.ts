// Floor 2: readers and writers. Every reader fills the one draft; every problem has a code, a place, a text and a hint.
export { carryProblem, importProblem, type ImportPlace, type ImportProblem } from "./import-problem.ts";
export {
  importProblemTexts,
  type ImportProblemCode,
  type ImportProblemFacts,
  type ProblemText,
} from "./import-problem-texts.ts";
export {
  runReading,
  type FormatReader,
  type ImportedHarness,
  type Reading,
  type ReadOptions,
  type ReadProgress,
  type ReadResult,
} from "./format-reader.ts";
export type { Ledger, LedgerRow, LedgerShare } from "./ledger.ts";
export { recogniseFile, type FileKind } from "./recognise-file.ts";
export { readerOf, readers, type AnyReadOptions } from "./reader-of.ts";

export { cleanId } from "./draft/clean-id.ts";
export type * from "./draft/draft-types.ts";
export type { DraftStart } from "./draft/draft-parts.ts";
export { HarnessDraft, type Loose } from "./draft/harness-draft.ts";
export type { LooseCavity } from "./draft/lay-out-cavities.ts";

export { decodeText, type DecodedText } from "./text/decode-text.ts";
export { encodeUtf8 } from "./text/encode-utf8.ts";

export { jsonReader } from "./json/read-json.ts";
export { harnessJsonBytes, writeHarnessJson } from "./json/write-json.ts";
export { writeGraphml } from "./graphml/write-graphml.ts";

export type { Delimiter } from "./csv/find-delimiter.ts";
export { guardCell, unguardCell } from "./csv/guard-cell.ts";
export { parseCsv, type CsvOptions, type CsvTable } from "./csv/parse-csv.ts";
export { csvBytes, writeCsv, type CellValue } from "./csv/write-csv.ts";
export { openWorkbook, type Workbook, type WorkbookSheet } from "./xlsx/open-workbook.ts";
export { readSheet, type SheetRead } from "./xlsx/read-sheet.ts";
export { writeWorkbook, type SheetToWrite } from "./xlsx/write-workbook.ts";

export { PIN_TABLE_COLUMNS, type ColumnField, type PinTableColumn, type TableShape } from "./tables/columns.ts";
export { recallMapping, rememberMapping, type MappingMemory, type RememberedMapping } from "./tables/mapping-memory.ts";
export { generatedFiles } from "./tables/pin-table-columns-file.ts";
export { pinTableTemplate } from "./tables/pin-table-template.ts";
export { previewTable, type ColourCode, type PreviewWire, type TablePreview } from "./tables/preview-table.ts";
export { proposeMapping } from "./tables/propose-mapping.ts";
export { readColourText, type ColourReading, type ColourScheme } from "./tables/read-colour-text.ts";
export { csvReader, xlsxReader } from "./tables/read-table.ts";
export type { MappedColumn, ProposedMapping, TableMapping } from "./tables/table-mapping.ts";
export type { InlinePair, TableOptions, TableReadOptions } from "./tables/table-options.ts";
export type { Table, TableLimits, TableRow } from "./tables/table.ts";
export { readUnit, toMillimetres, type Unit } from "./tables/units.ts";
export {
  tableRows,
  writeTableCsv,
  writeTableXlsx,
  type WriteTableOptions,
  type WrittenTable,
} from "./tables/write-pin-table.ts";

export { tableSetXlsxReader, tableSetZipReader } from "./table-set/read-table-set.ts";
export { fillTableSet, writeTableSetXlsx, writeTableSetZip, type FilledTable } from "./table-set/write-table-set.ts";

// The XML formats.
export { kblReader } from "./kbl/kbl-reader.ts";
export { vecReader } from "./vec/vec-reader.ts";
export type { HarnessReadOptions } from "./xml/source/assembly.ts";
export type { WantedBuild } from "./xml/source/choose-builds.ts";
export { joinDocuments, type ConfirmedMating } from "./xml/join/join-documents.ts";
export type { JoinPart } from "./xml/join/join-part.ts";
export { proposeMatings, type ConnectorOfPart, type MatingProposal } from "./xml/join/propose-matings.ts";
export { isUnusedSignal } from "./tables/unused-signal.ts";

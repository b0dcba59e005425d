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
  type Ledger,
  type LedgerRow,
  type LedgerShare,
} from "./format-reader.ts";
export { recogniseFile, type FileKind } from "./recognise-file.ts";
export { readerOf, readers, type AnyReadOptions } from "./reader-of.ts";

export { cleanId } from "./draft/draft-parts.ts";
export type * from "./draft/draft-parts.ts";
export { HarnessDraft, type Loose } from "./draft/harness-draft.ts";

export { decodeText, type DecodedText, encodeUtf8 } from "./text.ts";

export { jsonReader, harnessJsonBytes, writeHarnessJson } from "./json.ts";
export { writeGraphml } from "./graphml/write-graphml.ts";

export {
  type Delimiter,
  guardCell,
  unguardCell,
  parseCsv,
  type CsvOptions,
  type CsvTable,
  csvBytes,
  writeCsv,
  type CellValue,
} from "./csv.ts";
export { openWorkbook, type Workbook, type WorkbookSheet, readSheet, type SheetRead } from "./xlsx/read-workbook.ts";
export { writeWorkbook, type SheetToWrite } from "./xlsx/write-workbook.ts";

export {
  PIN_TABLE_COLUMNS,
  type ColumnField,
  type PinTableColumn,
  type TableShape,
  generatedFiles,
  type MappedColumn,
  type ProposedMapping,
  type TableMapping,
  readUnit,
  toMillimetres,
  type Unit,
} from "./tables/columns.ts";
export {
  recallMapping,
  rememberMapping,
  type MappingMemory,
  type RememberedMapping,
  proposeMapping,
} from "./tables/find-headings.ts";
export {
  pinTableTemplate,
  tableRows,
  writeTableCsv,
  writeTableXlsx,
  type WriteTableOptions,
  type WrittenTable,
} from "./tables/write-pin-table.ts";
export {
  previewTable,
  type ColourCode,
  type PreviewWire,
  type TablePreview,
  csvReader,
  xlsxReader,
} from "./tables/read-table.ts";
export { isUnusedSignal, readColourText, type ColourReading } from "./tables/wire-facts.ts";
export type { ColourScheme, InlinePair, TableOptions, TableReadOptions } from "./tables/table-options.ts";
export type { Table, TableLimits, TableRow } from "./tables/table.ts";

export { tableSetXlsxReader, tableSetZipReader } from "./table-set/read-table-set.ts";
export { fillTableSet, writeTableSetXlsx, writeTableSetZip, type FilledTable } from "./table-set/write-table-set.ts";

// The XML formats.
export { kblReader } from "./kbl/kbl-reader.ts";
export { vecReader } from "./vec/vec-reader.ts";
export type { HarnessReadOptions, WantedBuild } from "./xml/assembly.ts";
export { joinDocuments, type ConfirmedMating } from "./xml/join-documents.ts";
export type { JoinPart } from "./xml/mate-connectors.ts";
export { proposeMatings, type ConnectorOfPart, type MatingProposal } from "./xml/propose-matings.ts";

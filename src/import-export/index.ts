// Floor 2: readers and writers. Every reader fills the one draft; every problem has a code, a place, a text and a hint.
export { importProblem, type ImportProblem } from "./import-problem.ts";
export { importProblemTexts, type ImportProblemCode } from "./import-problem-texts.ts";
export {
  runReading,
  type FormatReader,
  type ImportedHarness,
  type Reading,
  type ReadProgress,
  type ReadResult,
  type Ledger,
  type LedgerRow,
} from "./format-reader.ts";
export { recogniseFile } from "./recognise-file.ts";
export { readerOf, readers, type AnyReadOptions } from "./reader-of.ts";

export { cleanId } from "./draft/draft-parts.ts";
export type * from "./draft/draft-parts.ts";
export { HarnessDraft, type Loose } from "./draft/harness-draft.ts";

export { decodeText, encodeUtf8 } from "./text.ts";

export { harnessJsonBytes, writeHarnessJson } from "./json.ts";
export { writeGraphml } from "./graphml/write-graphml.ts";

export {
  guardCell,
  unguardCell,
  parseCsv,
  csvBytes,
  writeCsv,
  type Delimiter,
  type CsvTable,
  type CellValue,
} from "./csv.ts";
export { openWorkbook, readSheet } from "./xlsx/read-workbook.ts";
export { writeWorkbook } from "./xlsx/write-workbook.ts";

export {
  PIN_TABLE_COLUMNS,
  generatedFiles,
  readUnit,
  toMillimetres,
  type ColumnField,
  type PinTableColumn,
  type TableShape,
  type TableMapping,
  type Unit,
} from "./tables/columns.ts";
export { recallMapping, rememberMapping, type MappingMemory } from "./tables/mapping-memory.ts";
export { proposeMapping } from "./tables/propose-mapping.ts";
export { pinTableTemplate, tableRows, writeTableCsv, writeTableXlsx } from "./tables/write-pin-table.ts";
export {
  previewTable,
  csvReader,
  isTableFormat,
  readTableFiles,
  type TableFile,
  type TablePart,
  type TablePreview,
} from "./tables/read-table.ts";
export type { TableRepair } from "./tables/repair-tables.ts";
export type { FaultyRow } from "./tables/faulty-rows.ts";
export { isUnusedSignal, readColourText } from "./tables/wire-facts.ts";
export { PROPOSAL_KINDS, type ProposalKind, type TableProposal } from "./tables/table-proposal.ts";
export type { ColourScheme, InlinePair, TableOptions, TableReadOptions } from "./tables/table-options.ts";
export type { Table, TableRow } from "./tables/table.ts";

export { tableSetXlsxReader, tableSetZipReader } from "./table-set/read-table-set.ts";
export { fillTableSet, writeTableSetXlsx, writeTableSetZip, type FilledTable } from "./table-set/write-table-set.ts";

// The XML formats.
export { kblReader } from "./kbl/kbl-reader.ts";
export { vecReader } from "./vec/vec-reader.ts";
export type { HarnessReadOptions, WantedBuild } from "./xml/assembly.ts";
export { joinDocuments, type ConfirmedMating } from "./xml/join-documents.ts";

export { proposeMatings, type ConnectorOfPart, type MatingProposal } from "./xml/propose-matings.ts";

// Floor 6: what a person can do, once, for the screen and the command line.
export * from "./answer.ts";
export { ask } from "./ask.ts";
export { generatedFiles } from "./answer-schemas.ts";
export { chooseBuild, type ChosenBuild } from "./choose-build.ts";
export { ExpectAnswer, type LeadFacts } from "./expect/expect-answer.ts";
export { TableAnswer, type TableReading, type TableRow } from "./expect/table-answer.ts";
export { WrongQuestionAnswer } from "./expect/wrong-question.ts";
export { bandOf, meaningOf, shortReading } from "./expect/meaning.ts";
export { checkFaults, type CheckedFault } from "./expect/check-faults.ts";
export { leadReach, type LeadReach } from "./expect/lead-reach.ts";
export {
  readingsAlongPath,
  type PathReading,
  type PathReadings,
  type VoltsOnPath,
} from "./expect/readings-along-path.ts";
export { ErrorReport, FileReport, Holdings, reportOnFile } from "./file-report.ts";
export { EXPORT_FORMATS, type ExportFormat, type ExportFormatId } from "./export/export-formats.ts";
export { exportMachine, type ExportedFile, type ExportWanted } from "./export/export-machine.ts";
export { ExportReport, exportReport, writeExportReport } from "./export/export-report.ts";
export type { Frozen } from "./frozen.ts";
export { FileProblem, fileProblem } from "./import/file-problem.ts";
export { findPair } from "./import/find-pair.ts";
export { importFile, importFormat, type ImportFormat } from "./import/import-file.ts";
export { headingFault, ImportMap, readImportMap, tableOptionsOf, writeImportMap } from "./import/import-map.ts";
export { ImportReport, importReport, PossiblePair, type ImportFindings } from "./import/import-report.ts";
export { joinImports, proposePairs, type ImportPart } from "./import/join-imports.ts";
export { previewImport, type ImportPreview, type Previewing } from "./import/preview-import.ts";
export { problemsCsv } from "./import/problems-csv.ts";
export { TableSummary, tableSummary } from "./import/table-summary.ts";
export { writeImportReport } from "./import/write-import-report.ts";
export { machineOf, openMachine, type Machine } from "./open-machine.ts";
export {
  EXPECT_METERS,
  type Conditions,
  type ExpectMeter,
  type ExpectQuestion,
  type MarkedText,
  type OpenSetting,
  type Question,
  type Setting,
  type TableQuestion,
} from "./question.ts";
export { readQuestionLink, writeQuestionLink, type LinkedQuestion } from "./question-link.ts";
export { writeAnswer, writeReport } from "./write-answer.ts";

// Floor 6: what a person can do, once, for the screen and the command line.
export * from "./answer.ts";
export { ask } from "./ask.ts";
export { askPath } from "./ask-path.ts";
export { askFind } from "./ask-find.ts";
export { askTestPoints } from "./ask-test-points.ts";
export { askCommon } from "./ask-common.ts";
export { askCircuit } from "./ask-circuit.ts";
export { askEffect } from "./ask-effect.ts";
export { askExpectedReading } from "./expect/ask-expected.ts";
export { generatedFiles } from "./answer-schemas.ts";
export { caseFileName, writeCase, type CaseContent, type CaseFacts } from "./case-file.ts";
export { isHardStop } from "./cautions.ts";
export { chooseBuild, type ChosenBuild } from "./choose-build.ts";
export { ExpectedReadingAnswer, type LeadFacts } from "./expect/expected-answer.ts";
export { TableAnswer, type TableReading, type TableRow } from "./expect/table-answer.ts";
export { WrongQuestionAnswer } from "./expect/wrong-question-answer.ts";
export { bandOf, meaningOf, shortReading } from "./expect/meaning.ts";
export { checkFaults, type CheckedFault } from "./expect/check-faults.ts";
export { leadReach, type LeadReach } from "./expect/lead-reach.ts";
export * from "./job/index.ts";
export * from "./service/index.ts";
export {
  readingsAlongPath,
  type PathReading,
  type PathReadings,
  type VoltsOnPath,
} from "./expect/readings-along-path.ts";
export { diagramMarks, type MarksWanted } from "./diagram-marks.ts";
export { circuitDiagramFile, type CircuitDiagramFile } from "./export/circuit-diagram-file.ts";
export { ErrorReport, FileReport, DocumentSummary, reportOnFile } from "./file-report.ts";
export { EXPORT_FORMATS, type ExportFormat, type ExportFormatId } from "./export/export-formats.ts";
export { exportMachine, type ExportedFile, type ExportWanted } from "./export/export-machine.ts";
export { ExportReport, exportReport, writeExportReport } from "./export/export-report.ts";
export type { Frozen } from "./frozen.ts";
export { FileProblem, fileProblem } from "./import/file-problem.ts";
export {
  ACCEPTED_KINDS,
  acceptJoins,
  importProposals,
  ImportProposal,
  sharedConnectors,
  tableKinds,
  type AcceptedKind,
} from "./import/accept-proposals.ts";
export { FIND_GROUPS, GROUP_TITLES, type FindGroup } from "./find-groups.ts";
export { actionsOf, ITEM_ACTIONS, type ItemAction } from "./item-actions.ts";
export { findPair } from "./import/find-pair.ts";
export { importFile, importFormat, type ImportFormat } from "./import/import-file.ts";
export { headingFault, ImportMap, readImportMap, tableOptionsOf, writeImportMap } from "./import/import-map.ts";
export { ImportReport, importReport, PossiblePair, type ImportFindings } from "./import/import-report.ts";
export { FileLedger, ledgerText } from "./import/file-ledger.ts";
export { joinImports, proposePairs, type ImportPart } from "./import/join-imports.ts";
export { parseWantedBuild } from "./import/parse-wanted-build.ts";
export { previewImport, type ImportPreview, type Previewing } from "./import/preview-import.ts";
export { problemsCsv } from "./import/problems-csv.ts";
export {
  activeRepairs,
  readTableRepairs,
  TableRepairs,
  writeTableRepairs,
  type MadeRepair,
} from "./import/table-repairs.ts";
export { TableSummary, tableSummary } from "./import/table-summary.ts";
export { writeImportReport } from "./import/write-import-report.ts";
export {
  pointsByCavity,
  refusalsByRule,
  voltageFirst,
  type CavityPoints,
  type RuleRefusals,
} from "./test-point-rows.ts";
export { itemOfId, joinNames, labelOf } from "./item-names.ts";
export { machineMark } from "./machine-mark.ts";
export { fuseList, type FuseRow } from "./fuse-list.ts";
export { pinOut, type PinRow, type PinWire } from "./pin-out.ts";
export { PART_WORDS } from "./text/fact-row.ts";
export { machineOf, openMachine, type Machine } from "./open-machine.ts";
export { ClassReport, classReport, classTable, CLASS_VIEWS, type ClassView } from "./training/class-report.ts";
export {
  gradeFiles,
  isClean,
  type GradedFile,
  type Grading,
  type GradingProgress,
  type HandedIn,
} from "./training/grade-files.ts";
export { GradesReport, gradesReport } from "./training/grades-report.ts";
export { makeTasks, type MadeTasks, type TaskWish } from "./training/make-tasks.ts";
export { madeTasksReport, TasksReport, tasksReport, type TaskContent } from "./training/tasks-report.ts";
export { writeClassReport, writeGradesReport, writeTasksReport } from "./training/write-training.ts";
export { FAULT_COLUMNS, readWrittenFaults, type WrittenFault, type WrittenFaults } from "./training/written-faults.ts";
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
export { resolveContext, type MachineContext } from "./machine-context.ts";
export { askCompare } from "./compare/ask-compare.ts";
export type { CompareAnswer, ComparedChange } from "./compare/compare-answer.ts";
export { changeRow, compareCsv, readingRows, writeCompare } from "./compare/write-compare.ts";
export { writeAnswer, writeReport } from "./write-answer.ts";
export { answerGap, type AnswerProblem, type GapAnswer } from "./gaps/answer-gap.ts";
export { applyJoins, type Confirmed } from "./gaps/apply-joins.ts";
export { findGaps, gapsOfConnector } from "./gaps/find-gaps.ts";
export { GapsReport, ItemGaps, JoinProposal, type Gap, type GapWhat } from "./gaps/gap.ts";
export { gapsReport, writeGapsReport } from "./gaps/gaps-report.ts";
export { ADAPTERS, PART_LIBRARY } from "./gaps/part-library.ts";
export { terminalsOf, typicalValue } from "./gaps/read-inside.ts";
export { likeConnectors } from "./gaps/like-connectors.ts";
export { proposeJoins } from "./gaps/propose-joins.ts";
export { summariseGaps } from "./gaps/summarise-gaps.ts";
// What the screen and the command line use of the rooms below, so that they know one door only.
export { ITEM_NAMES } from "../connectivity/index.ts";
export { OLD_METERS, OLD_QUESTIONS, OLD_WIDTHS } from "./old-words.ts";
export { METER_NAMES, methodName } from "../measurement-safety/index.ts";
export { HAND_METER } from "../simulation/index.ts";
export {
  PIN_TABLE_COLUMNS,
  csvBytes,
  encodeUtf8,
  harnessJsonBytes,
  importProblem,
  isTableFormat,
  readTableFiles,
  pinTableTemplate,
  recallMapping,
  rememberMapping,
  runReading,
  writeHarnessJson,
} from "../import-export/index.ts";
export { COLOURS, describeColour, endAddresses, migrateDocument, sideKey } from "../harness-model/index.ts";
export {
  DRILL_KINDS,
  HINT_POINTS,
  MOST_NUMBER,
  classBySkill,
  classByTask,
  classCsv,
  dueCards,
  gradeDrill,
  leadOffers,
  newResult,
  readTaskCode,
  repeatAfter,
  titleOf,
  writeTaskCode,
} from "../training/index.ts";
export {
  EXERCISE_ITEM_TYPES,
  OUTCOME_NAMES,
  STATUS_NAMES,
  SYMPTOM_NAMES,
  JobOutcome,
  MOST_TASKS,
  TrainingResult,
  TrainingTask,
  RESULT_FORMAT,
  TASK_LIST_FORMAT,
  jobText,
  mergeRecords,
  plainText,
  readRecord,
  saveJoined,
  summariseJob,
  trainingMigrations,
  writeRecord,
} from "../job-records/index.ts";
export { MAKER_FIRST } from "../measurement-safety/index.ts";
export { describeItem, find } from "../connectivity/index.ts";

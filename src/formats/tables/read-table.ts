import { err } from "../../base/index.ts";
import { HarnessDraft } from "../draft/harness-draft.ts";
import type { FormatReader, ReadProgress, ReadResult, Reading } from "../format-reader.ts";
import type { ImportProblem } from "../import-problem.ts";
import { recogniseFile } from "../recognise-file.ts";
import { fillDraft } from "./fill-draft.ts";
import { headingWarnings } from "./find-headings.ts";
import { loadCsv, loadXlsx, type LoadedTable, type TableLoading } from "./load-table.ts";
import type { TableReadOptions } from "./table-options.ts";
import { understandTable } from "./understand-table.ts";

/** Reads pin tables and wire lists from CSV files. */
export const csvReader: FormatReader<TableReadOptions> = {
  id: "csv",
  label: "Pin table or wire list, CSV",
  extensions: [".csv", ".tsv", ".txt"],
  recognises: (bytes, fileName) => recogniseFile(bytes, fileName).kind === "csv",
  read: (bytes, options) => readLoaded(loadCsv(bytes, options), options),
};

/** Reads pin tables and wire lists from XLSX workbooks. */
export const xlsxReader: FormatReader<TableReadOptions> = {
  id: "xlsx",
  label: "Pin table or wire list, XLSX",
  extensions: [".xlsx"],
  recognises: (bytes, fileName) => recogniseFile(bytes, fileName).kind === "xlsx",
  read: (bytes, options) => readLoaded(loadXlsx(bytes, options), options),
};

function* readLoaded(loading: TableLoading, options: TableReadOptions): Reading {
  const loaded = yield* within(loading, 0, 0.4);
  if (!loaded.ok) return err(loaded.error.map((problem) => inFile(problem, options.fileName)));
  return yield* makeDocument(loaded.value, options);
}

function* makeDocument(loaded: LoadedTable, options: TableReadOptions): Reading {
  const { table: said = {}, fileName } = options;
  const understood = yield* within(named(understandTable(loaded, said), "Reading the rows"), 0.4, 0.6);
  const draft = new HarnessDraft({
    file: fileName,
    ...(options.machine === undefined ? {} : { machine: options.machine }),
    ...(options.system === undefined ? {} : { system: options.system }),
  });
  const before = [...loaded.warnings, ...headingWarnings(loaded.table, loaded.headings), ...understood.problems];
  for (const problem of before) draft.report(problem);
  const filling = fillDraft(draft, understood.entries, { options: said, optionLabels: understood.optionLabels });
  yield* within(named(filling, "Putting the harness together"), 0.6, 0.8);
  yield { share: 0.8, doing: "Checking the harness" };
  return settle(draft.finish());
}

/** Gives the steps of a piece of work a name. */
function* named<Answer>(work: Generator<number, Answer, void>, doing: string): Generator<ReadProgress, Answer, void> {
  let step = work.next();
  for (; step.done !== true; step = work.next()) yield { share: step.value, doing };
  return step.value;
}

/** Places the progress of a piece of work within that of the whole. */
function* within<Answer>(
  work: Generator<ReadProgress, Answer, void>,
  from: number,
  to: number,
): Generator<ReadProgress, Answer, void> {
  let step = work.next();
  for (; step.done !== true; step = work.next()) yield { ...step.value, share: from + step.value.share * (to - from) };
  return step.value;
}

/** The same problem for hundreds of rows tells no more than for the first ones. */
const MOST_OF_A_KIND = 200;

function settle(result: ReadResult): ReadResult {
  if (result.ok) return { ok: true, value: { ...result.value, warnings: shorten(result.value.warnings) } };
  return err(shorten(result.error));
}

function shorten(problems: readonly ImportProblem[]): readonly ImportProblem[] {
  const counts = new Map<string, number>();
  return problems.filter(({ code }) => {
    const count = (counts.get(code) ?? 0) + 1;
    counts.set(code, count);
    return count <= MOST_OF_A_KIND;
  });
}

function inFile(problem: ImportProblem, file: string): ImportProblem {
  return problem.at.file === undefined ? { ...problem, at: { file, ...problem.at } } : problem;
}

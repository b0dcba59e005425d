import type {
  ImportProblem,
  ReadResult,
  TableFile,
  TableMapping,
  TableOptions,
  TablePart,
  TablePreview,
  WantedBuild,
} from "../../import-export/index.ts";
import { storedMappings } from "./data-memory.ts";
import type { HarnessDocument } from "../../harness-model/index.ts";
import { activeRepairs, recallMapping, type ImportPreview, type MadeRepair } from "../../application/index.ts";

/** A file that is being imported: what a person has said about it and what came of it so far. */
export interface DataFile {
  readonly id: number;
  readonly file: File;
  readonly table: TableOptions;
  /** What a person has corrected in it. */
  readonly repairs: readonly MadeRepair[];
  readonly preview: ImportPreview | undefined;
  /** What came of reading it; undefined while it is not read. */
  readonly result: ReadResult | undefined;
  /** What is wrong with a table that cannot be read before its columns are named. */
  readonly needed: readonly ImportProblem[] | undefined;
  readonly isStopped: boolean;
  /** Builds a person wants made of its options, in place of those it names. */
  readonly wanted: readonly WantedBuild[];
  /** Options it is known to have. */
  readonly options: readonly string[];
  /** The one build of it to keep when several files become one machine; undefined means all. */
  readonly build: string | undefined;
}

/** A file as it was chosen or dropped. */
export function freshFile(id: number, file: File): DataFile {
  const none = { preview: undefined, result: undefined, needed: undefined, build: undefined };
  return { id, file, table: {}, repairs: [], isStopped: false, wanted: [], options: [], ...none };
}

/** How a table is understood; undefined for files that are no table, or not looked at yet. */
export function tableOf({ preview }: DataFile): TablePreview | undefined {
  return preview?.kind === "table" ? preview.preview : undefined;
}

/** Whether a file has options that builds can be made of: formats in which each wire says what it is fitted with. */
export function hasOptions({ preview }: DataFile): boolean {
  return preview?.format.id === "kbl" || preview?.format.id === "vec";
}

/** Options of a file that were seen so far, with those of what was read now. */
export function optionsSeen(before: readonly string[], result: ReadResult): readonly string[] {
  const found = result.ok ? result.value.document.options.map((option): string => option.id) : [];
  return [...new Set([...before, ...found])];
}

/** What the columns of a table hold: as a person said, also while that is not enough to read it; else as it was found out. */
export function mappingOf({ table }: DataFile, part: TablePart): TableMapping {
  return recallMapping(table.known ?? [], part.headings) ?? part.mapping;
}

/** What a person has said about a table, with all that was corrected. */
export function saidOf({ table, repairs }: DataFile): TableOptions {
  return { ...table, repairs: activeRepairs(repairs) };
}

/** How names of files of repairs end. */
export const REPAIRS_END = ".repairs.json";

/** Name of the file of repairs that belongs to a table. */
export function repairsName({ file }: DataFile): string {
  return `${file.name}${REPAIRS_END}`;
}

/** The files as tables, to be read together; undefined where one of them is none, or is not looked at yet. */
export async function tableFiles(files: readonly DataFile[]): Promise<readonly TableFile[] | undefined> {
  const previews = files.flatMap((file) => tableOf(file) ?? []);
  if (files.length < 2 || previews.length < files.length) return undefined;
  const memory = storedMappings();
  return Promise.all(
    files.map(async (each, at) => {
      const said = saidOf(each);
      const table = { ...said, known: [...(said.known ?? []), ...memory] };
      const bytes = new Uint8Array(await each.file.arrayBuffer());
      return { bytes, format: previews[at]?.format ?? "csv", fileName: each.file.name, table };
    }),
  );
}

/** All problems of a file, each with the name of the file in its place. */
export function problemsOf({ file, result, needed }: DataFile): readonly ImportProblem[] {
  const found = result ? problemsOfResult(result) : (needed ?? []);
  return found.map((problem) => ({ ...problem, at: { ...problem.at, file: problem.at.file ?? file.name } }));
}

/** The errors of what could not be read, or the warnings of what could. */
export function problemsOfResult(result: ReadResult): readonly ImportProblem[] {
  return result.ok ? result.value.warnings : result.error;
}

/** What readers call a machine whose name the file does not give. */
const NOT_STATED = "Not stated";

/** Whether a file leaves open what machine it is about. */
export function isNameless(document: HarnessDocument): boolean {
  return document.about.machine === NOT_STATED;
}

/** The document under the name that a person gave the machine; unchanged where the file gives one, or nothing was typed. */
export function named(document: HarnessDocument, name: string): HarnessDocument {
  const machine = name.trim();
  return machine === "" || !isNameless(document) ? document : { ...document, about: { ...document.about, machine } };
}

/** How far a file has come, in words. */
export function fileWords({ result, needed, isStopped, preview }: DataFile): string {
  const format = preview?.format.label;
  const so = (text: string): string => (format === undefined ? text : `${format}; ${text}`);
  if (isStopped) return so("reading stopped");
  if (needed) return so("enter the meaning of its columns");
  if (!result) return so("waiting to be read");
  return result.ok ? so("understood") : so("cannot be imported yet");
}

/** Where a problem sits, in one line: file, sheet, row, column, line, path in the file. */
export function importPlaceText({ file, sheet, row, column, line, path }: ImportProblem["at"]): string {
  const parts = [
    file,
    sheet === undefined ? undefined : `sheet ${sheet}`,
    row === undefined ? undefined : `row ${row}`,
    column === undefined ? undefined : `column ${column}`,
    // The row says where it is; the line differs from it only where cells hold line ends.
    line === undefined || row !== undefined ? undefined : `line ${line}`,
    path === "" ? undefined : path,
  ];
  return parts.filter((part) => part !== undefined).join(" · ") || "whole file";
}

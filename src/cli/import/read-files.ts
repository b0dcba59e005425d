import { basename } from "node:path";
import { err, ok, type Result } from "../../base/index.ts";
import type { ImportProblem, InlinePair, ReadResult, TableOptions, TableRepair } from "../../import-export/index.ts";
import type { HarnessDocument } from "../../harness-model/index.ts";
import {
  endAddresses,
  type ErrorReport,
  findPair,
  headingFault,
  acceptJoins,
  importFile,
  type ImportFindings,
  type ImportFormat,
  importFormat,
  type ImportMap,
  type ImportPart,
  importProblem,
  importProposals,
  isTableFormat,
  joinImports,
  previewImport,
  proposePairs,
  readImportMap,
  readTableRepairs,
  readTableFiles,
  sharedConnectors,
  tableOptionsOf,
} from "../../application/index.ts";
import type { CommandIo } from "../io.ts";
import { nameOf, readBytes } from "../read-machine.ts";
import { wrongCommand } from "../save-file.ts";
import { readOptionsOf, type ImportCommandOptions } from "./import-options.ts";
import { runSteps } from "./run-steps.ts";

interface LoadedFile {
  readonly fileName: string;
  readonly format: ImportFormat;
  readonly bytes: Uint8Array;
}

/** What an import came to, with what was said about a table. */
export interface ImportRun extends ImportFindings {
  readonly said: TableOptions;
}

/**
 * Reads the files of an import and joins them, if there are several.
 *
 * @param io Where to read.
 * @param files Their names.
 * @param options What was typed.
 * @returns What came of it, problems of the files among it; or why it could not be tried.
 */
export async function readFiles(
  io: CommandIo,
  files: readonly string[],
  options: ImportCommandOptions,
): Promise<Result<ImportRun, ErrorReport>> {
  const loaded: LoadedFile[] = [];
  for (const file of files) {
    // The folder of a file is nobody's business in the document, unless it is what tells two files apart.
    const isAlone = files.filter((each) => basename(each) === basename(file)).length === 1;
    const one = await loadFile(io, file, isAlone ? basename(file) : file);
    if (!one.ok) return one;
    loaded.push(one.value);
  }
  const map = options.columns === undefined ? ok({}) : await readSide(io, "map", options.columns, readImportMap);
  if (!map.ok) return map;
  const repairs =
    options.repairs === undefined ? ok([]) : await readSide(io, "repairs", options.repairs, readTableRepairs);
  if (!repairs.ok) return repairs;
  const [only] = loaded;
  const run =
    only && loaded.length === 1
      ? readOne(io, only, { options, map: map.value, repairs: repairs.value })
      : readSeveral(io, loaded, options);
  if (!run.ok) return run;
  const { accept = new Set() } = options;
  const { result, questions: shared = [] } = run.value;
  const questions = [...shared, ...(result.ok ? importProposals(result.value, accept) : [])];
  const on = new Date().toISOString().slice(0, 10);
  return ok({ ...run.value, questions, result: acceptJoins(result, accept, on) });
}

interface Told {
  readonly options: ImportCommandOptions;
  readonly map: ImportMap;
  readonly repairs: readonly TableRepair[];
}

function readOne(io: CommandIo, file: LoadedFile, { options, map, repairs }: Told): Result<ImportRun, ErrorReport> {
  const isTable = isTableFormat(file.format.id);
  const fault = isTable ? undefined : tableOnlyFault(options, file);
  if (fault) return err(fault);
  const said = tableOptionsOf(map);
  const pairs = sidesOf(options.mate);
  if (!pairs.ok) return pairs;
  const inlinePairs = [...(said.inlinePairs ?? []), ...pairs.value];
  const readOptions = readOptionsOf(file.fileName, options, {
    ...said,
    repairs,
    ...(inlinePairs.length > 0 && { inlinePairs }),
  });
  const files = [file];
  if (!isTable) {
    const result = runSteps(io, file.fileName, importFile(file.bytes, readOptions));
    if (!result.ok || options.mate.length === 0) return ok({ files, result, said });
    return joined([{ imported: result.value }], files, options);
  }
  const table = readOptions.table ?? {};
  const looked = runSteps(io, file.fileName, previewImport(file.bytes, readOptions));
  const preview = looked.ok && looked.value.kind === "table" ? looked.value.preview : undefined;
  const wrong = preview && headingFault(map, preview.headings);
  if (preview && wrong !== undefined) {
    const problem = importProblem("mapping-wrong", { file: file.fileName, row: preview.headingRow }, { reason: wrong });
    return ok({ files, result: err([problem]), preview, said: table });
  }
  const result = runSteps(io, file.fileName, importFile(file.bytes, readOptions));
  const missing = result.ok ? missingSide(result.value.document, pairs.value) : undefined;
  if (missing !== undefined) return err(wrongCommand(`There is no connector "${missing}" in ${file.fileName}`));
  const confirmed = new Set(inlinePairs.flatMap((pair) => pair.sides));
  const open = preview?.possiblePairs.filter(({ sides }) => !sides.some((side) => confirmed.has(side)));
  return ok({ files, result, ...(preview && { preview: { ...preview, possiblePairs: open ?? [] } }), said: table });
}

/** The first name of a pair that no wire of the table goes to; the pair itself has made a half of it. */
function missingSide(document: HarnessDocument, pairs: readonly InlinePair[]): string | undefined {
  const owners = new Set(
    document.wires.flatMap((wire) => endAddresses(wire).map((end) => end.slice(0, end.lastIndexOf(":")))),
  );
  const sides = document.connectors.flatMap(({ id, sides }) =>
    sides.flatMap((side) => (owners.has(`${id}.${side.id}`) || owners.has(side.name ?? "") ? [side.name] : [])),
  );
  const known = new Set<string | undefined>([...owners, ...sides]);
  return pairs.flatMap((pair) => pair.sides).find((name) => !known.has(name));
}

function readSeveral(
  io: CommandIo,
  files: readonly LoadedFile[],
  options: ImportCommandOptions,
): Result<ImportRun, ErrorReport> {
  if (tableOnlyOptions(options).length > 0 || options.variant.length > 0) {
    const text =
      "--sheet, --columns, --save-columns, --repairs and --variant apply to one file. Import the files one by one. Then join them.";
    return err(wrongCommand(text));
  }
  const tables = files.flatMap(({ bytes, format, fileName }) =>
    isTableFormat(format.id) ? [{ bytes, format: format.id, fileName }] : [],
  );
  const areTables = tables.length === files.length;
  if (areTables && options.accept?.has("same-connectors") === true) {
    const names = files.map(({ fileName }) => fileName).join(", ");
    const result = runSteps(io, names, readTableFiles(tables, readOptionsOf(names, options, {})));
    return ok({ files, result, said: {} });
  }
  const results = files.map((file) => {
    const read = runSteps(io, file.fileName, importFile(file.bytes, readOptionsOf(file.fileName, options, {})));
    return inFile(read, file.fileName);
  });
  const parts = results.flatMap((result): readonly ImportPart[] => (result.ok ? [{ imported: result.value }] : []));
  if (parts.length < results.length) {
    const problems = results.flatMap((result): readonly ImportProblem[] =>
      result.ok ? result.value.warnings : result.error,
    );
    return ok({ files, result: err(problems), said: {} });
  }
  const questions = areTables ? sharedConnectors(parts.map(({ imported }) => imported.document)) : [];
  const run = joined(parts, files, options);
  return run.ok ? ok({ ...run.value, questions }) : run;
}

/** Among several files every problem says which one it is about. */
function inFile(result: ReadResult, file: string): ReadResult {
  const named = (problems: readonly ImportProblem[]): readonly ImportProblem[] =>
    problems.map((problem) => ({ ...problem, at: { ...problem.at, file: problem.at.file ?? file } }));
  if (!result.ok) return err(named(result.error));
  return ok({ ...result.value, warnings: named(result.value.warnings) });
}

function joined(
  parts: readonly ImportPart[],
  files: readonly LoadedFile[],
  options: ImportCommandOptions,
): Result<ImportRun, ErrorReport> {
  const found = options.mate.map((text) => findPair(parts, text));
  const pairs = found.flatMap((pair) => (pair.ok ? [pair.value] : []));
  const [wrong] = found.flatMap((pair) => (pair.ok ? [] : [pair.error]));
  if (wrong !== undefined) return err(wrongCommand(wrong));
  const result: ReadResult = joinImports(parts, pairs);
  const taken = new Set(pairs.flatMap((pair) => [pair.first, pair.second]).map(keyOf));
  const proposals = proposePairs(parts).filter(
    ({ first, second }) => !taken.has(keyOf(first)) && !taken.has(keyOf(second)),
  );
  return ok({ files, result, proposals, said: {} });
}

function keyOf({ part, connector }: { readonly part: number; readonly connector: string }): string {
  return `${part} ${connector}`;
}

async function loadFile(io: CommandIo, file: string, name: string): Promise<Result<LoadedFile, ErrorReport>> {
  const bytes = await readBytes(io, file);
  if (!bytes.ok) return bytes;
  const fileName = nameOf(name);
  const format = importFormat(bytes.value, fileName);
  if (format.ok) return ok({ fileName, format: format.value, bytes: bytes.value });
  const { message, hint } = format.error;
  return err({
    kind: "error",
    code: "file-unreadable",
    text: `Cannot import ${nameOf(file)}: ${message}. ${hint}`,
    problems: [],
  });
}

/** Reads a file that says something about a table. */
async function readSide<Of>(
  io: CommandIo,
  what: string,
  file: string,
  read: (text: string) => Result<Of, string>,
): Promise<Result<Of, ErrorReport>> {
  const bytes = await readBytes(io, file);
  if (!bytes.ok) return bytes;
  const found = read(new TextDecoder().decode(bytes.value));
  return found.ok ? found : err(wrongCommand(`Cannot use the ${what} ${file}: ${found.error}`));
}

/** The options in use that are about a single table. */
function tableOnlyOptions({ sheet, columns, saveColumns, repairs }: ImportCommandOptions): readonly string[] {
  const used = { "--sheet": sheet, "--columns": columns, "--save-columns": saveColumns, "--repairs": repairs };
  return Object.entries(used).flatMap(([name, value]) => (value === undefined ? [] : [name]));
}

function tableOnlyFault(options: ImportCommandOptions, file: LoadedFile): ErrorReport | undefined {
  const names = tableOnlyOptions(options);
  if (names.length === 0) return undefined;
  return wrongCommand(
    `${names.join(", ")}: only for a pin table or wire list, and ${file.fileName} is a ${file.format.label}.`,
  );
}

/** In a table `A=B` says that two names are the halves of one inline connector. */
function sidesOf(pairs: readonly string[]): Result<readonly InlinePair[], ErrorReport> {
  const found = pairs.map((text) => text.split("=").map((name) => name.trim()));
  const bad = found.findIndex((names) => names.length !== 2 || names.includes(""));
  if (bad >= 0) {
    return err(
      wrongCommand(`"${pairs[bad] ?? ""}" is no pair: write two connectors with = between them, such as X1=X2`),
    );
  }
  return ok(found.map(([one = "", two = ""]) => ({ sides: [one, two] })));
}

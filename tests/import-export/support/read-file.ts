import {
  encodeUtf8,
  readerOf,
  runReading,
  type AnyReadOptions,
  type ImportedHarness,
  type ImportProblem,
  type ReadResult,
} from "ohmward/import-export";

/** Reads a file as a person would drop it on the program: recognised by its content, then read to its end. */
export function readFile(
  content: string | Uint8Array,
  fileName: string,
  options: Omit<AnyReadOptions, "fileName"> = {},
): ReadResult {
  const bytes = typeof content === "string" ? encodeUtf8(content) : content;
  const reader = readerOf(bytes, fileName);
  if (!reader.ok) return { ok: false, error: [reader.error] };
  const result = runReading(reader.value.read(bytes, { fileName, ...options }));
  if (!result) throw new Error("The reading was stopped");
  return result;
}

/** The same, where the file has to be good. */
export function readGood(
  content: string | Uint8Array,
  fileName: string,
  options: Omit<AnyReadOptions, "fileName"> = {},
): ImportedHarness {
  const result = readFile(content, fileName, options);
  if (!result.ok) throw new Error(result.error.map((problem) => `${problem.code}: ${problem.message}`).join("\n"));
  return result.value;
}

/** All problems of a file, whether or not it could be read. */
export function problemsOf(
  content: string | Uint8Array,
  fileName: string,
  options: Omit<AnyReadOptions, "fileName"> = {},
): readonly ImportProblem[] {
  const result = readFile(content, fileName, options);
  return result.ok ? result.value.warnings : result.error;
}

/** Codes of errors, in order. */
export function errorCodes(problems: readonly ImportProblem[]): readonly string[] {
  return problems.filter((problem) => problem.severity === "error").map((problem) => problem.code);
}

/** Codes of warnings, in order. */
export function warningCodes(problems: readonly ImportProblem[]): readonly string[] {
  return problems.filter((problem) => problem.severity === "warning").map((problem) => problem.code);
}

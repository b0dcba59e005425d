import { z } from "zod";
import type { MatingProposal, ReadResult, TablePreview } from "../../formats/index.ts";
import { Holdings, holdingsOf } from "../file-report.ts";
import type { Frozen } from "../frozen.ts";
import { FileLedger } from "./file-ledger.ts";
import { FileProblem, fileProblem } from "./file-problem.ts";
import type { ImportFormat } from "./import-file.ts";
import { tableSummary, TableSummary } from "./table-summary.ts";

/** Two connectors that may plug into one another, for a person to confirm. */
export const PossiblePair = z.object({
  first: z.object({ file: z.string(), connector: z.string() }),
  second: z.object({ file: z.string(), connector: z.string() }),
  /** Cavities that both use; how many of them agree in net and colour, and how many do not. */
  cavities: z.number().optional(),
  agreeing: z.number().optional(),
  against: z.number().optional(),
  why: z.string(),
});

/** What an import made of one or more files. */
export const ImportReport = z.object({
  kind: z.enum(["imported", "not-imported"]),
  files: z.array(z.object({ name: z.string(), format: z.string(), label: z.string() })),
  errors: z.number(),
  warnings: z.number(),
  problems: z.array(FileProblem),
  /** What the document holds; absent where there is none. */
  holds: Holdings.optional(),
  /** How the table was understood, where one table was read. */
  table: TableSummary.optional(),
  /** What became of everything the files hold, one for each file whose format keeps such an account and could be read. */
  ledgers: z.array(FileLedger),
  /** Pairs that nobody has confirmed yet. */
  pairs: z.array(PossiblePair),
  /** Where the document was written; absent where it was not. */
  written: z.string().optional(),
});

export type PossiblePair = Frozen<z.infer<typeof PossiblePair>>;
export type ImportReport = Frozen<z.infer<typeof ImportReport>>;

/** What a report on an import is made from. */
export interface ImportFindings {
  readonly files: readonly { readonly fileName: string; readonly format: ImportFormat }[];
  readonly result: ReadResult;
  /** How the table was understood, if one table was read. */
  readonly preview?: TablePreview;
  /** Proposals between several files that are not confirmed. */
  readonly proposals?: readonly MatingProposal[];
  /** Where the document was written. */
  readonly written?: string;
}

/**
 * Reports on an import: what was read, what it holds, every problem, and what a person may still want to say.
 *
 * @param findings What came of it.
 */
export function importReport(findings: ImportFindings): ImportReport {
  const { files, result, preview, proposals = [], written } = findings;
  const problems = result.ok ? result.value.warnings : result.error;
  const errors = problems.filter((problem) => problem.severity === "error").length;
  const names = files.map((file) => file.fileName);
  return {
    kind: result.ok ? "imported" : "not-imported",
    files: files.map(({ fileName, format }) => ({ name: fileName, format: format.id, label: format.label })),
    errors,
    warnings: problems.length - errors,
    problems: problems.map(fileProblem),
    ...(result.ok ? { holds: holdingsOf(result.value.document) } : {}),
    ...(preview ? { table: tableSummary(preview) } : {}),
    ledgers: result.ok ? (result.value.ledgers ?? []) : [],
    pairs: [...halvesOfTable(preview, names[0] ?? ""), ...proposals.map((each) => pairBetween(each, names))],
    ...(written === undefined ? {} : { written }),
  };
}

function halvesOfTable(preview: TablePreview | undefined, file: string): readonly PossiblePair[] {
  return (preview?.possiblePairs ?? []).map(({ halves: [first, second] }) => ({
    first: { file, connector: first },
    second: { file, connector: second },
    why: "names that differ in the last letter, and the same pins",
  }));
}

function pairBetween(proposal: MatingProposal, files: readonly string[]): PossiblePair {
  const { first, second, namesAlike, evidence } = proposal;
  const against = evidence.filter((each) => each.sameNet === false || each.sameColour === false).length;
  const agreeing = evidence.filter(
    (each) => each.sameNet !== false && each.sameColour !== false && (each.sameNet ?? each.sameColour) === true,
  ).length;
  const wires = `${agreeing} of ${evidence.length} shared cavities agree in net and colour, ${against} do not`;
  return {
    first: { file: files[first.part] ?? "", connector: first.connector },
    second: { file: files[second.part] ?? "", connector: second.connector },
    ...{ cavities: evidence.length, agreeing, against },
    why: namesAlike ? `names that differ in one number; ${wires}` : wires,
  };
}

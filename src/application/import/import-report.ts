import { z } from "zod";
import type { MatingProposal, ReadResult, TablePreview } from "../../import-export/index.ts";
import { DocumentSummary, documentSummaryOf } from "../file-report.ts";
import type { Frozen } from "../frozen.ts";
import { ImportProposal, importProposals } from "./accept-proposals.ts";
import { FileLedger } from "./file-ledger.ts";
import { FileProblem, fileProblem } from "./file-problem.ts";
import type { ImportFormat } from "./import-file.ts";
import { tableSummary, TableSummary } from "./table-summary.ts";

/** Two connectors that may plug into one another, for a person to confirm. */
export const PossiblePair = z.object({
  first: z
    .object({ file: z.string().describe("Name of the file"), connector: z.string().describe("Id of the connector") })
    .describe("One connector"),
  second: z
    .object({ file: z.string().describe("Name of the file"), connector: z.string().describe("Id of the connector") })
    .describe("The other connector"),
  cavities: z
    .number()
    .optional()
    .describe("Cavities that both use; how many of them agree in net and colour, and how many do not"),
  agreeing: z.number().optional().describe("Cavities in which signal and colour agree"),
  against: z.number().optional().describe("Cavities in which they contradict each other"),
  why: z.string().describe("Reasons, in sentences"),
});

/** What an import made of one or more files. */
export const ImportReport = z.object({
  kind: z.enum(["imported", "not-imported"]).describe("Whether the import gave a document"),
  files: z
    .array(
      z.object({
        name: z.string().describe("Name of the file"),
        format: z.string().describe("Short name of the formatat"),
        label: z.string().describe("Name of the format for people"),
      }),
    )
    .describe("The files that were read"),
  errors: z.number().describe("Number of errors"),
  warnings: z.number().describe("Number of warnings"),
  problems: z.array(FileProblem).describe("Everything that is wrong, all at once"),
  holds: DocumentSummary.optional().describe("What the document holds; absent where there is none"),
  table: TableSummary.optional().describe("How the table was understood, where one table was read"),
  ledgers: z
    .array(FileLedger)
    .describe("Use of every element of the files, one for each file whose format has such a list and could be read"),
  proposals: z.array(ImportProposal).describe("Questions about tables and joins, one for each sort"),
  pairs: z.array(PossiblePair).describe("Pairs that are not confirmed yet"),
  written: z.string().optional().describe("Where the document was written; absent where it was not"),
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
  /** What a person is asked, where that was found out before confirmed joins were made; else it is found in the result. */
  readonly questions?: readonly ImportProposal[];
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
    ...(result.ok ? { holds: documentSummaryOf(result.value.document) } : {}),
    ...(preview ? { table: tableSummary(preview) } : {}),
    ledgers: result.ok ? (result.value.ledgers ?? []) : [],
    proposals: result.ok ? (findings.questions ?? importProposals(result.value)) : [],
    pairs: [...sidesOfTable(preview, names[0] ?? ""), ...proposals.map((each) => pairBetween(each, names))],
    ...(written === undefined ? {} : { written }),
  };
}

function sidesOfTable(preview: TablePreview | undefined, file: string): readonly PossiblePair[] {
  return (preview?.possiblePairs ?? []).map(({ sides: [first, second] }) => ({
    first: { file, connector: first },
    second: { file, connector: second },
    why: "the names differ in the last letter, and the pins are the same",
  }));
}

function pairBetween(proposal: MatingProposal, files: readonly string[]): PossiblePair {
  const { first, second, namesAlike, evidence } = proposal;
  const against = evidence.filter((each) => each.sameNet === false || each.sameColour === false).length;
  const agreeing = evidence.filter(
    (each) => each.sameNet !== false && each.sameColour !== false && (each.sameNet ?? each.sameColour) === true,
  ).length;
  const wires = `${agreeing} of ${evidence.length} common cavities agree in net and colour, ${against} do not`;
  return {
    first: { file: files[first.part] ?? "", connector: first.connector },
    second: { file: files[second.part] ?? "", connector: second.connector },
    ...{ cavities: evidence.length, agreeing, against },
    why: namesAlike ? `the names differ in one number; ${wires}` : wires,
  };
}

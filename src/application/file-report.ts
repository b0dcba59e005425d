import { z } from "zod";
import type { HarnessDocument, Problem } from "../harness-model/index.ts";
import type { Frozen } from "./frozen.ts";
import { summariseGaps } from "./gaps/summarise-gaps.ts";
import type { Machine } from "./open-machine.ts";

const problem = z.object({
  severity: z.enum(["error", "warning"]).describe("`error` keeps the data from being used, `warning` does not"),
  code: z.string().describe("Short name of the reason"),
  at: z
    .object({
      path: z.string().describe("Path into the document, such as `wires[3].ends[0]`"),
      id: z.string().optional().describe("Id of the item"),
      line: z.number().optional().describe("Line in the file, from 1"),
      column: z.number().optional().describe("Column in the file, from 1"),
      build: z.string().optional().describe("Id of the variant (build) in which it shows"),
    })
    .describe(
      "The path in the document, such as `wires[3].ends[0]`; line and column, from 1, where the text does not parse",
    ),
  message: z.string().describe("What is wrong, in words"),
  hint: z.string().describe("What to do about it, in words"),
});

/** How much a document holds. */
export const DocumentSummary = z.object({
  machine: z.string().describe("Name of the machine"),
  builds: z.array(z.string()).describe("Ids of the variants (builds)"),
  states: z.array(z.string()).describe("Ids of the states"),
  components: z.number().describe("Number of components"),
  connectors: z.number().describe("Number of connectors"),
  wires: z.number().describe("Number of wires"),
  splices: z.number().describe("Number of splices"),
  terminalStuds: z.number().describe("Number of terminal studs and ground points"),
  segments: z.number().describe("Number of harness segments"),
  canAsk: z.array(z.string()).describe("What you can ask about it now, in sentences"),
});

/** Problems and content of a file: `valid` where it opens, warnings or not, `problems` where it does not. */
export const FileReport = z.object({
  kind: z.enum(["valid", "problems"]).describe("Sort of answer"),
  file: z.string().describe("Name of the file"),
  errors: z.number().describe("Number of errors"),
  warnings: z.number().describe("Number of warnings"),
  problems: z.array(problem).describe("Everything that is wrong, all at once"),
  holds: DocumentSummary.optional().describe("What the document holds; absent where it does not open"),
});

/** Why a question has no answer at all: the file or the command is wrong. */
export const ErrorReport = z.object({
  kind: z.literal("error").describe("Sort of answer"),
  code: z
    .enum(["file-unreadable", "file-problems", "wrong-command", "program-fault"])
    .describe("Short name of the reason"),
  text: z.string().describe("Why there is no answer, in words"),
  problems: z.array(problem).describe("Everything that is wrong, all at once"),
});

export type DocumentSummary = Frozen<z.infer<typeof DocumentSummary>>;
export type FileReport = Frozen<z.infer<typeof FileReport>>;
export type ErrorReport = Frozen<z.infer<typeof ErrorReport>>;

/**
 * Reports on a file that was opened or did not open.
 *
 * @param file What the file is called.
 * @param found The machine, or the problems that kept it from opening.
 */
export function reportOnFile(file: string, found: Machine | readonly Problem[]): FileReport {
  const machine = "document" in found ? found : undefined;
  const problems = "document" in found ? found.warnings : found;
  const errors = problems.filter((each) => each.severity === "error").length;
  return {
    kind: machine ? "valid" : "problems",
    file,
    errors,
    warnings: problems.length - errors,
    problems,
    ...(machine && { holds: documentSummaryOf(machine.document) }),
  };
}

/** Counts what a document holds. */
export function documentSummaryOf(document: HarnessDocument): DocumentSummary {
  return {
    machine: document.about.machine,
    builds: document.builds.map((build) => build.id),
    states: document.states.map((state) => state.id),
    components: document.components.length,
    connectors: document.connectors.length,
    wires: document.wires.length,
    splices: document.splices.length,
    terminalStuds: document.terminalStuds.length,
    segments: document.segments.length,
    canAsk: summariseGaps(document),
  };
}

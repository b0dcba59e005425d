import { z } from "zod";
import type { HarnessDocument, Problem } from "../model/index.ts";
import type { Frozen } from "./frozen.ts";
import { summariseGaps } from "./gaps/summarise-gaps.ts";
import type { Machine } from "./open-machine.ts";

const problem = z.object({
  severity: z.enum(["error", "warning"]),
  code: z.string(),
  /** The way into the document, such as `wires[3].ends[0]`; line and column, from 1, where the text does not parse. */
  at: z.object({
    path: z.string(),
    id: z.string().optional(),
    line: z.number().optional(),
    column: z.number().optional(),
    build: z.string().optional(),
  }),
  message: z.string(),
  hint: z.string(),
});

/** How much a document holds. */
export const Holdings = z.object({
  machine: z.string(),
  builds: z.array(z.string()),
  states: z.array(z.string()),
  components: z.number(),
  connectors: z.number(),
  wires: z.number(),
  splices: z.number(),
  studs: z.number(),
  segments: z.number(),
  /** What can be asked of it yet, in sentences. */
  canAsk: z.array(z.string()),
});

/** What a check of a file found: `valid` where it opens, warnings or not, `problems` where it does not. */
export const FileReport = z.object({
  kind: z.enum(["valid", "problems"]),
  file: z.string(),
  errors: z.number(),
  warnings: z.number(),
  problems: z.array(problem),
  /** What the document holds; absent where it does not open. */
  holds: Holdings.optional(),
});

/** Why a question could not be put at all: the file or the command is wrong. */
export const ErrorReport = z.object({
  kind: z.literal("error"),
  code: z.enum(["file-unreadable", "file-problems", "wrong-command", "program-fault"]),
  text: z.string(),
  problems: z.array(problem),
});

export type Holdings = Frozen<z.infer<typeof Holdings>>;
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
    ...(machine && { holds: holdingsOf(machine.document) }),
  };
}

/** Counts what a document holds. */
export function holdingsOf(document: HarnessDocument): Holdings {
  return {
    machine: document.about.machine,
    builds: document.builds.map((build) => build.id),
    states: document.states.map((state) => state.id),
    components: document.components.length,
    connectors: document.connectors.length,
    wires: document.wires.length,
    splices: document.splices.length,
    studs: document.studs.length,
    segments: document.segments.length,
    canAsk: summariseGaps(document),
  };
}

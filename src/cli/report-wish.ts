import { Option, type Command } from "commander";

/** What a person wants of the file that is written if the program fails. */
export interface ReportWish {
  /** Where it goes; a name made from the moment, if left out. */
  readonly file?: string;
  /** Whether the files that were read go into it. */
  readonly withFiles: boolean;
}

/**
 * Adds the options about the case file to every command.
 *
 * @param command The program with its commands.
 */
export function addReportOptions(command: Command): void {
  for (const each of command.commands) addReportOptions(each);
  if (command.commands.length > 0) return;
  command.addOption(new Option("--report <file>", "where to write a fault of the program").hideHelp());
  command.addOption(new Option("--report-files", "add the files that were read").hideHelp());
}

/**
 * What is wanted of the case file. It is looked up in the words as typed: a program that fails may not have come as far as its options.
 *
 * @param args The words of the command line.
 */
export function reportWish(args: readonly string[]): ReportWish {
  const words = beforeEnd(args);
  const at = words.findIndex((word) => /^--report(?:=|$)/u.test(word));
  const file = words[at]?.includes("=") === true ? words[at].slice("--report=".length) : words[at + 1];
  const withFiles = words.includes("--report-files");
  return at < 0 || file === undefined || file === "" ? { withFiles } : { file, withFiles };
}

/**
 * Whether the answer is wanted as data, looked up in the words as typed: a command line that does not parse has no options.
 *
 * @param args The words of the command line.
 */
export function wantsJson(args: readonly string[]): boolean {
  return beforeEnd(args).includes("--json");
}

/** What stands before `--` may be options. */
function beforeEnd(args: readonly string[]): readonly string[] {
  const end = args.indexOf("--");
  return end < 0 ? args : args.slice(0, end);
}

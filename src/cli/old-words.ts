import { OLD_METERS, OLD_QUESTIONS, OLD_WIDTHS } from "../application/index.ts";

/** Words of a command line that are now called something else. */
interface Renamed {
  readonly options?: Readonly<Record<string, string>>;
  /** By option as it is called now. */
  readonly values?: Readonly<Record<string, Readonly<Record<string, string>>>>;
  /** Commands of the command. */
  readonly commands?: Readonly<Record<string, string>>;
}

const COMMANDS: Readonly<Record<string, string>> = { ...OLD_QUESTIONS, practise: "training" };

/** By command as it is called now. */
const RENAMED: Readonly<Record<string, Renamed>> = {
  path: {
    options: { "--through": "--include" },
    values: { "--include": OLD_WIDTHS, "-t": OLD_WIDTHS },
  },
  common: { options: { "--good": "--works" } },
  expected: {
    options: {
      ...{ "--table": "--circuit", "--meter": "--function", "--unplugged": "--disconnected" },
      ...{ "--for-understanding": "--calculate-only" },
    },
    values: { "--function": OLD_METERS, "-m": OLD_METERS },
  },
  export: {
    options: { "--as": "--format" },
    values: { "--format": { "csv-wires": "wire-list-csv", "csv-pins": "pin-table-csv" } },
  },
  import: {
    options: {
      ...{ "--map": "--columns", "--save-map": "--save-columns", "--colours": "--colour-code" },
      ...{ "--new-build": "--variant", "--pair": "--mate" },
    },
  },
  training: { commands: { class: "results" }, options: { "--hunts": "--exercises" } },
  job: {
    commands: { reading: "record", proof: "verify", edit: "correct", adopt: "update-data" },
    options: {
      ...{ "--bad": "--fails", "--good": "--works", "--only-when": "--condition", "--only-with": "--load" },
      ...{ "--shows": "--occurrence", "--recent": "--recent-work", "--weight": "--probability-factor" },
      ...{ "--weights": "--probabilities", "--doubtful": "--uncertain", "--as": "--outcome" },
      ...{ "--suspect": "--cause-item", "--sheet": "--form" },
    },
    values: {
      "--outcome": { mended: "repaired", "not-found": "no-fault-found", "passed-on": "referred" },
      "--occurrence": { "comes-and-goes": "intermittent", "happened-once": "once" },
    },
  },
};

/**
 * Puts the words of today for commands, options and values that had another name in version 0.1; they are understood for one version.
 *
 * @param args The arguments as typed, without program and script.
 * @returns The arguments in the words of today, with a line for each old word: `"trace" is now "circuit"`.
 */
export function todaysWords(args: readonly string[]): {
  readonly args: readonly string[];
  readonly told: readonly string[];
} {
  const told: string[] = [];
  const now = (word: string, of: Readonly<Record<string, string>> = {}): string => {
    const today = Object.hasOwn(of, word) ? of[word] : undefined;
    if (today !== undefined) told.push(`"${word}" is now "${today}"`);
    return today ?? word;
  };
  const words = [...args];
  const at = words.findIndex((word) => !word.startsWith("-"));
  const command = at === -1 ? "" : now(words[at] ?? "", COMMANDS);
  if (at !== -1) words[at] = command;
  const renamed = Object.hasOwn(RENAMED, command) ? RENAMED[command] : undefined;
  if (!renamed) return { args: words, told };
  const { options, values = {}, commands } = renamed;
  let option = "";
  for (let index = at + 1; index < words.length; index += 1) {
    const word = words[index] ?? "";
    if (word === "--") break;
    if (!word.startsWith("-")) {
      words[index] = index === at + 1 ? now(word, commands) : now(word, values[option]);
      option = "";
      continue;
    }
    const [name = "", ...value] = word.split("=");
    option = now(name, options);
    words[index] = [option, ...(value.length > 0 ? [now(value.join("="), values[option])] : [])].join("=");
  }
  return { args: words, told };
}

import { DRILL_KINDS, MOST_NUMBER, MOST_TASKS } from "../../application/index.ts";
import { InvalidArgumentError, Option } from "commander";
import type { DrillKind } from "../../training/index.ts";

/** The options of `training new` as commander gives them. */
export interface NewTasksOptions {
  readonly build?: string;
  readonly drills: number;
  readonly kind: readonly DrillKind[];
  readonly exercises: number;
  readonly level: 1 | 2 | 3;
  readonly number: number;
  readonly written: readonly string[];
  readonly title: string;
  readonly hypothesis?: boolean;
  readonly out: string;
  readonly force?: boolean;
  readonly json?: boolean;
}

/** A reader of whole numbers from 0 to a highest one. */
function wholeNumber(most: number): (text: string) => number {
  return (text) => {
    const number = Number(text);
    if (/^\d+$/u.test(text) && number <= most) return number;
    throw new InvalidArgumentError(`It must be a whole number from 0 to ${most}.`);
  };
}

function readLevel(text: string): 1 | 2 | 3 {
  const level = ([1, 2, 3] as const).find((each) => String(each) === text);
  if (level === undefined) throw new InvalidArgumentError("Give level 1, 2 or 3.");
  return level;
}

function readKind(text: string, before: readonly DrillKind[]): readonly DrillKind[] {
  const kind = DRILL_KINDS.find((each) => each === text);
  if (!kind) throw new InvalidArgumentError(`The kinds are ${DRILL_KINDS.join(", ")}.`);
  return [...before, kind];
}

function collect(text: string, before: readonly string[]): readonly string[] {
  return [...before, text];
}

/** The options of `training new` that say what the list is to hold, in the order help shows them. */
export function newTasksOptions(): readonly Option[] {
  return [
    new Option("--drills <n>", "sets of drills").argParser(wholeNumber(MOST_TASKS)).default(0, "none"),
    new Option("-k, --kind <kind>", "kind of drills; may be repeated (all kinds mixed, if left out)")
      .argParser(readKind)
      .default([], "all"),
    new Option("--exercises <n>", "fault-finding exercises, each with another fault")
      .argParser(wholeNumber(MOST_TASKS))
      .default(0, "none"),
    new Option("-l, --level <level>", "1 easy, 2 medium, 3 hard").argParser(readLevel).default(1),
    new Option("-n, --number <n>", "number of the first exercise; another number gives other exercises")
      .argParser(wholeNumber(MOST_NUMBER - MOST_TASKS))
      .default(1),
    new Option("-w, --written <file>", "table (CSV) of faults written by the trainer; may be repeated")
      .argParser(collect)
      .default([], "none"),
  ];
}

import { InvalidArgumentError, Option, type Command } from "commander";
import type { FactsRequest } from "../../application/index.ts";

/** What a person says of a job, as the options hold it. */
export interface FactsOptions extends Pick<FactsRequest, "complaint" | "since" | "weather"> {
  readonly code: readonly string[];
  readonly fails?: readonly string[];
  readonly works?: readonly string[];
  readonly condition?: FactsRequest["onlyWhen"];
  readonly load?: string;
  readonly occurrence?: FactsRequest["shows"];
  readonly recentWork?: readonly string[];
  readonly adapter: readonly string[];
  /** False with --no-adapters. */
  readonly adapters: boolean;
  readonly probabilityFactor: readonly string[];
  readonly note: readonly string[];
}

/** Adds the options about the facts of a job, for a new one and for what is learned later. */
export function factsOptions(command: Command): Command {
  const condition = new Option(
    "--condition <condition>",
    "condition under which the complaint occurs; may be repeated",
  ).choices(["cold", "hot", "wet", "dry"]);
  const occurrence = new Option(
    "--occurrence <how>",
    "whether the complaint is permanent, intermittent or occurred once",
  ).choices(["always", "intermittent", "once"]);
  return command
    .option("--complaint <words>", "the complaint, in the operator's words")
    .option(
      "-c, --code <code>",
      "trouble code (DTC), or SPN and FMI; =previously-active or =not-present if it is not active; may be repeated",
      collect,
      [],
    )
    .option("--fails <item>", "symptom: a part that fails; may be repeated", collect, [])
    .option("--works <item>", "symptom: a part that works; may be repeated", collect, [])
    .option("--since <when>", "when the complaint started")
    .addOption(
      condition.argParser((value: string, before: readonly string[] | undefined) => allowed(condition, value, before)),
    )
    .option("--load <load>", "load or manner of driving at which the complaint occurs")
    .addOption(occurrence)
    .option("--weather <words>", "weather when it occurs")
    .option(
      "--recent-work <work>",
      'recent work, "=", items that were touched: "cover off = XP1 B3.X"; may be repeated',
      collect,
      [],
    )
    .option(
      "-a, --adapter <id>",
      "an available test adapter (all of the document, if left out); may be repeated",
      collect,
      [],
    )
    .option("--no-adapters", "no test adapters available")
    .option(
      "--probability-factor <change>",
      'change the starting probability of a fault, with the reason: "W78=3: why"; may be repeated',
      collect,
      [],
    )
    .option("--note <words>", "a note; may be repeated", collect, []);
}

/** What the options say, as a request. */
export function factsRequest({
  code,
  adapter,
  adapters,
  probabilityFactor,
  note,
  ...rest
}: FactsOptions): FactsRequest {
  const { complaint, since, condition, load, occurrence, weather, recentWork, works, fails } = rest;
  return {
    ...(complaint === undefined ? {} : { complaint }),
    ...(since === undefined ? {} : { since }),
    ...(condition === undefined ? {} : { onlyWhen: condition }),
    ...(load === undefined ? {} : { onlyWith: load }),
    ...(occurrence === undefined ? {} : { shows: occurrence }),
    ...(weather === undefined ? {} : { weather }),
    ...(recentWork === undefined ? {} : { recent: recentWork }),
    ...(works === undefined ? {} : { good: works }),
    ...(fails === undefined ? {} : { bad: fails }),
    codes: code,
    weights: probabilityFactor,
    notes: note,
    ...(adapters ? (adapter.length > 0 ? { adapters: adapter } : {}) : { adapters: [] }),
  };
}

/** Takes one more value of an option that may be repeated. */
export function collect(value: string, before: readonly string[]): readonly string[] {
  return [...before, value];
}

/** As {@link collect}, for an option with fixed values. */
function allowed(option: Option, value: string, before: readonly string[] = []): readonly string[] {
  if (option.argChoices?.includes(value) === true) return [...before, value];
  throw new InvalidArgumentError(`Allowed choices are ${option.argChoices?.join(", ") ?? ""}.`);
}

import { InvalidArgumentError, Option, type Command } from "commander";
import type { FactsRequest } from "../../application/index.ts";

/** What a person says of a job, as the options hold it. */
export interface FactsOptions extends Omit<FactsRequest, "codes" | "adapters" | "weights" | "notes"> {
  readonly code: readonly string[];
  readonly adapter: readonly string[];
  /** False with --no-adapters. */
  readonly adapters: boolean;
  readonly weight: readonly string[];
  readonly note: readonly string[];
}

/** Adds the options that say something of a job, for a new one and for what is learned later. */
export function factsOptions(command: Command): Command {
  const onlyWhen = new Option("--only-when <how>", "the complaint shows only when it is so; may be repeated").choices([
    "cold",
    "hot",
    "wet",
    "dry",
  ]);
  const shows = new Option("--shows <how>", "whether it is always there").choices([
    "always",
    "comes-and-goes",
    "happened-once",
  ]);
  return command
    .option("--complaint <words>", "the complaint in the words of whoever made it")
    .option(
      "-c, --code <code>",
      "trouble code, or SPN and FMI; =stored or =absent if it is not active; may be repeated",
      collect,
      [],
    )
    .option("--bad <thing>", "a part that does not do its work; may be repeated", collect, [])
    .option("--good <thing>", "a part that does; may be repeated", collect, [])
    .option("--since <when>", "since when")
    .addOption(
      onlyWhen.argParser((value: string, before: readonly string[] | undefined) => allowed(onlyWhen, value, before)),
    )
    .option("--only-with <load>", "a load or manner of driving under which alone it shows")
    .addOption(shows)
    .option("--weather <words>", "weather when it shows")
    .option(
      "--recent <work>",
      'what was done lately, "=", what was touched: "cover off = XP1 B3.X"; may be repeated',
      collect,
      [],
    )
    .option(
      "-a, --adapter <id>",
      "a test adapter at hand (all of the document, if left out); may be repeated",
      collect,
      [],
    )
    .option("--no-adapters", "no test adapters at hand")
    .option(
      "--weight <change>",
      'a fault more or less likely beforehand, with the reason: "W78=3: why"; may be repeated',
      collect,
      [],
    )
    .option("--note <words>", "a note; may be repeated", collect, []);
}

/** What the options say, as a request. */
export function factsRequest({ code, adapter, adapters, weight, note, ...rest }: FactsOptions): FactsRequest {
  const { complaint, since, onlyWhen, onlyWith, shows, weather, recent, good, bad } = rest;
  return {
    ...(complaint === undefined ? {} : { complaint }),
    ...(since === undefined ? {} : { since }),
    ...(onlyWhen === undefined ? {} : { onlyWhen }),
    ...(onlyWith === undefined ? {} : { onlyWith }),
    ...(shows === undefined ? {} : { shows }),
    ...(weather === undefined ? {} : { weather }),
    ...(recent === undefined ? {} : { recent }),
    ...(good === undefined ? {} : { good }),
    ...(bad === undefined ? {} : { bad }),
    codes: code,
    weights: weight,
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

import { Option, type Command } from "commander";
import { EXPECT_METERS, type Conditions, type ExpectMeter, type Question } from "../../application/index.ts";
import { tellError } from "../tell.ts";
import { answer, questionCommand, type CommandNeeds, type QuestionOptions } from "./common.ts";

interface ExpectOptions extends QuestionOptions {
  readonly red?: string;
  readonly black?: string;
  readonly table?: string;
  readonly meter?: ExpectMeter;
  readonly fault: readonly string[];
  readonly unplugged: readonly string[];
  readonly adapter: readonly string[];
  readonly set: readonly string[];
  readonly forUnderstanding?: boolean;
}

/**
 * Adds the command `expect`.
 *
 * @param program The program.
 * @param needs What the command is given.
 */
export function addExpected(program: Command, needs: CommandNeeds): void {
  const meter = new Option(
    "-m, --meter <kind>",
    "what is measured; drop is volts lost along a loaded way (volts, if left out)",
  );
  questionCommand(program, "expect", "what the meter should say between two points, healthy or faulty")
    .option("-r, --red <point>", "where the red lead goes; with --meter amps the wire the clamp goes round")
    .option("-k, --black <point>", "where the black lead goes (the negative supply terminal, if left out)")
    .option("-t, --table <thing>", "all points of the circuits of a thing at once, in place of --red")
    .addOption(meter.choices(EXPECT_METERS))
    .option("-f, --fault <fault>", "a fault such as open:W78; may be given several times", collect, [])
    .option("-u, --unplugged <connector>", "a connector that is unplugged; may be given several times", collect, [])
    .option("-a, --adapter <id>", "a test adapter that is fitted; may be given several times", collect, [])
    .option("--set <setting>", "such as S1.run=closed or throttle=50; may be given several times", collect, [])
    .option("--for-understanding", "a figure also where a lead may not be put; never to be measured so")
    .action((file: string, options: ExpectOptions) => {
      const question = questionOf(options);
      if (typeof question !== "string") return answer(needs, { file, options }, question);
      const report = { kind: "error", code: "wrong-command", text: question, problems: [] } as const;
      return needs.finish(tellError(needs.io, report, options.json === true));
    });
}

/** The question, or what is wrong with the command. */
function questionOf({ red, black, table, meter, forUnderstanding, ...lists }: ExpectOptions): Question | string {
  const { fault: faults, unplugged, adapter: adapters, set: settings } = lists;
  const rest: Conditions & { readonly black?: string } = {
    ...(black === undefined ? {} : { black }),
    faults,
    unplugged,
    adapters,
    settings,
  };
  if (table !== undefined && red !== undefined) return "Give --red for one reading or --table for a circuit, not both.";
  if (table !== undefined && meter !== undefined && meter !== "volts") return "A table is of volts: leave --meter out.";
  if (table !== undefined) return { kind: "table", item: table, ...rest };
  if (red === undefined) return "Say where the red lead goes with --red, or ask for a whole circuit with --table.";
  const more = { ...(meter === undefined ? {} : { meter }), ...(forUnderstanding === true && { forUnderstanding }) };
  return { kind: "expect", red, ...more, ...rest };
}

function collect(value: string, before: readonly string[]): readonly string[] {
  return [...before, value];
}

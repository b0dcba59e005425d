import { Option, type Command } from "commander";
import { EXPECT_METERS, type Conditions, type ExpectMeter, type Question } from "../../application/index.ts";
import { tellError } from "../tell.ts";
import { answer, questionCommand, type CommandNeeds, type QuestionOptions } from "./common.ts";

interface ExpectedOptions extends QuestionOptions {
  readonly red?: string;
  readonly black?: string;
  readonly circuit?: string;
  readonly function?: ExpectMeter;
  readonly fault: readonly string[];
  readonly disconnected: readonly string[];
  readonly adapter: readonly string[];
  readonly set: readonly string[];
  readonly calculateOnly?: boolean;
}

/**
 * Adds the command `expected`.
 *
 * @param program The program.
 * @param needs What the command is given.
 */
export function addExpected(program: Command, needs: CommandNeeds): void {
  const meter = new Option(
    "-m, --function <function>",
    "function of the meter; voltage-drop is the voltage drop along a loaded path (dc-voltage, if left out)",
  );
  questionCommand(program, "expected", "expected reading between two points, normal or with faults")
    .option(
      "-r, --red <point>",
      "point of the red (V/Ω) lead; with --function dc-current the wire of the current clamp",
    )
    .option("-k, --black <point>", "point of the black (COM) lead (the negative supply terminal, if left out)")
    .option("-t, --circuit <item>", "all points of the circuits of an item, in place of --red")
    .addOption(meter.choices(EXPECT_METERS))
    .option("-f, --fault <fault>", "a fault such as open:W78; may be repeated", collect, [])
    .option("-u, --disconnected <connector>", "a connector that is disconnected; may be repeated", collect, [])
    .option("-a, --adapter <id>", "a test adapter that is fitted; may be repeated", collect, [])
    .option("--set <setting>", "such as S1.run=closed or throttle=50; may be repeated", collect, [])
    .option("--calculate-only", "calculate a value also where a lead is not permitted; do not measure so")
    .action((file: string, options: ExpectedOptions) => {
      const question = questionOf(options);
      if (typeof question !== "string") return answer(needs, { file, options }, question);
      const report = { kind: "error", code: "wrong-command", text: question, problems: [] } as const;
      return needs.finish(tellError(needs.io, report, options.json === true));
    });
}

/** The question, or what is wrong with the command. */
function questionOf({
  red,
  black,
  circuit,
  function: meter,
  calculateOnly,
  ...lists
}: ExpectedOptions): Question | string {
  const { fault: faults, disconnected: unplugged, adapter: adapters, set: settings } = lists;
  const rest: Conditions & { readonly black?: string } = {
    ...(black === undefined ? {} : { black }),
    faults,
    unplugged,
    adapters,
    settings,
  };
  if (circuit !== undefined && red !== undefined)
    return "Give --red for one reading or --circuit for a circuit, not both.";
  if (circuit !== undefined && meter !== undefined && meter !== "dc-voltage")
    return "The readings of a circuit are DC voltages. Leave --function out.";
  if (circuit !== undefined) return { kind: "table", item: circuit, ...rest };
  if (red === undefined) return "Name the point of the red lead with --red, or ask for a whole circuit with --circuit.";
  const more = { ...(meter === undefined ? {} : { meter }), ...(calculateOnly === true && { calculateOnly }) };
  return { kind: "expected", red, ...more, ...rest };
}

function collect(value: string, before: readonly string[]): readonly string[] {
  return [...before, value];
}

import type { Command } from "commander";
import { circuitDiagramFile } from "../../application/index.ts";
import { readMachine } from "../read-machine.ts";
import { saveFile, wrongCommand } from "../save-file.ts";
import { tellAnswer, tellError } from "../tell.ts";
import { answer, questionCommand, settingOf, type CommandNeeds, type QuestionOptions } from "./common.ts";

interface CircuitOptions extends QuestionOptions {
  readonly diagram?: string;
  readonly wholeFeed?: boolean;
  readonly volts?: boolean;
  readonly force?: boolean;
}

/**
 * Adds the command `circuit`.
 *
 * @param program The program.
 * @param needs What the command is given.
 */
export function addCircuit(program: Command, needs: CommandNeeds): void {
  questionCommand(program, "circuit", "circuit at a point: supply side, loads, ground side")
    .argument("<thing>", "contact, wire, splice, component or trouble code (DTC)")
    .option("--diagram <file>", 'write the circuit diagram as an SVG file; "-" for standard output')
    .option("--whole-feed", "draw the shared feed from the battery too")
    .option("--volts", "write the expected voltages of the state into the diagram, and where a meter may go")
    .option("--force", "replace a file that is there already")
    .action((file: string, point: string, options: CircuitOptions) =>
      options.diagram === undefined
        ? answer(needs, { file, options }, { kind: "circuit", point })
        : writeDiagram(needs, { file, point, out: options.diagram }, options),
    );
}

/** Writes the diagram, then tells the answer that it is drawn from: cautions are read with it. */
async function writeDiagram(
  { io, finish }: CommandNeeds,
  asked: { readonly file: string; readonly point: string; readonly out: string },
  options: CircuitOptions,
): Promise<void> {
  const { file, point, out } = asked;
  const { json = false, force = false, wholeFeed = false, volts = false } = options;
  if (json && out === "-")
    return finish(tellError(io, wrongCommand("Standard output can have one output only. Leave out --json."), false));
  const machine = await readMachine(io, file);
  if (!machine.ok) return finish(tellError(io, machine.error, json));
  const drawn = circuitDiagramFile(machine.value, settingOf(options), { point, wholeFeed, volts });
  if (!drawn.ok)
    return finish(drawn.error.kind === "error" ? tellError(io, drawn.error, json) : tellAnswer(io, drawn.error, json));
  const failed = await saveFile(io, { out, force }, drawn.value.bytes);
  if (failed) return finish(tellError(io, failed, json));
  const target = out === "-" ? { ...io, out: io.err } : io;
  const code = tellAnswer(target, drawn.value.answer, json);
  if (out !== "-") io.err(`Circuit diagram written to ${out}.\n`);
  finish(code);
}

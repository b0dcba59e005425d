import { InvalidArgumentError, type Command } from "commander";
import { safeLines } from "../../base/index.ts";
import { openMachine, type ErrorReport } from "../../application/index.ts";
import { nameOf, readBytes, readMachineText } from "../read-machine.ts";
import { shareReads } from "../serve/share-reads.ts";
import { startServer } from "../serve/start-server.ts";
import { type Site } from "../serve/answer-request.ts";
import { tellError } from "../tell.ts";
import type { CommandNeeds } from "./common.ts";

const USUAL_PORT = 4750;
/** Built files of the screen. */
const APP = "dist/app";

/**
 * Adds the command `serve`.
 *
 * @param program The program.
 * @param needs What the command is given.
 */
export function addServe(program: Command, needs: CommandNeeds): void {
  program
    .command("serve")
    .description("show a machine in a browser on this computer")
    .argument("[file]", 'harness document, "demo" or "-"', "demo")
    .option("-p, --port <number>", `port to use (${USUAL_PORT} or the next free one, if left out)`, readPort)
    .action((file: string, options: { readonly port?: number }) => serve(needs, file, options.port));
}

async function serve({ io, finish }: CommandNeeds, file: string, port: number | undefined): Promise<void> {
  const fail = (report: ErrorReport): void => finish(tellError(io, report, false));
  const first = await readMachineText(io, file);
  if (!first.ok) return fail(first.error);
  const opened = openMachine(first.value);
  if (!opened.ok) return fail(error("file-problems", `Cannot open ${nameOf(file)}:`, opened.error));
  const folder = io.ownFile(APP);
  const index = await io.readFile(`${folder}/index.html`);
  if (!index.ok) return fail(error("file-unreadable", `The screen is not built: ${folder} has no index.html`));
  // Standard input can be read once only.
  const input = file === "-" ? new TextEncoder().encode(first.value) : undefined;
  const readFile = async (): Promise<Uint8Array | undefined> => {
    const bytes = await readBytes(io, file);
    return bytes.ok ? bytes.value : undefined;
  };
  const site: Site = { folder, machine: input ? () => Promise.resolve(input) : shareReads(readFile) };
  const server = await startServer(site, port, USUAL_PORT);
  if (!server.ok) return fail(error("wrong-command", `Cannot serve: ${server.error}`));
  io.out(safeLines([opened.value.document.about.machine, `http://127.0.0.1:${server.value.port}/  (Ctrl-C stops)`]));
  await io.untilStopped();
  await server.value.stop();
  finish(0);
}

function error(code: ErrorReport["code"], text: string, problems: ErrorReport["problems"] = []): ErrorReport {
  return { kind: "error", code, text, problems };
}

function readPort(text: string): number {
  const port = Number(text);
  if (!/^\d{1,5}$/u.test(text) || port < 1 || port > 65_535) throw new InvalidArgumentError("A port is 1 to 65535.");
  return port;
}

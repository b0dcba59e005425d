import { ok, err, type Result } from "../../base/index.ts";
import type { Problem } from "../../harness-model/index.ts";
import { machineOf, type Machine, type OpenedText } from "../../application/index.ts";
import type { StoredMachine } from "../store/device-database.ts";
import type { MachineSource } from "./choose-machine.ts";

/** A machine that was opened, and its mark. */
export interface OpenedMachine {
  readonly machine: Machine;
  readonly mark: string;
}

/** A machine that can be opened without choosing a file. */
export interface MachineAtHand {
  readonly from: MachineSource;
  readonly mark: string;
  readonly name: string;
  readonly fileName: string;
  /** The machine, or why its data cannot be opened any more. */
  readonly open: () => Promise<Result<OpenedMachine, readonly Problem[]>>;
}

/** Who opens the text of a document: the machine worker. */
export interface TextOpener {
  openText(text: string): Promise<Result<OpenedText, readonly Problem[]>>;
  /** The mark of a text that is not opened for it; undefined where it is no document. */
  markOf(text: string): Promise<string | undefined>;
}

/** Name of the document that the server gives. */
export const SERVED_FILE = "machine.ohm.json";

/** The machine whose document the server gave, or what is wrong with it. */
export async function servedMachine(
  text: string,
  opener: TextOpener,
): Promise<Result<MachineAtHand, readonly Problem[]>> {
  const opened = await opener.openText(text);
  if (!opened.ok) return err(opened.error);
  const { document, warnings, mark } = opened.value;
  const machine = machineOf(document, warnings);
  const { machine: name } = document.about;
  return ok({ from: "served", mark, name, fileName: SERVED_FILE, open: () => Promise.resolve(ok({ machine, mark })) });
}

/** The machine of a row of the store; undefined for one that is known by name only. */
export function keptMachine(
  { text, mark, name, fileName }: StoredMachine,
  opener: TextOpener,
): MachineAtHand | undefined {
  if (text === undefined) return undefined;
  const open: MachineAtHand["open"] = async () => {
    const opened = await opener.openText(text);
    // Its remarks were read when it was accepted.
    return opened.ok ? ok({ machine: machineOf(opened.value.document), mark: opened.value.mark }) : opened;
  };
  return { from: "kept", mark, name, fileName, open };
}

/** The demo machine, opened only once it is asked for. */
export async function demoMachine(text: string, opener: TextOpener): Promise<MachineAtHand> {
  const open: MachineAtHand["open"] = async () => {
    const opened = await opener.openText(text);
    if (!opened.ok) return opened;
    const { document, warnings, mark } = opened.value;
    return ok({ machine: machineOf(document, warnings), mark });
  };
  const mark = (await opener.markOf(text)) ?? "";
  return { from: "demo", mark, name: "the demo machine", fileName: "firnlark-45.ohm.json", open };
}

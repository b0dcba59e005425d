import { ok, err, type Result } from "../../base/index.ts";
import type { Problem } from "../../model/index.ts";
import { machineMark, machineOf, openMachine, type Machine } from "../../workbench/index.ts";
import type { StoredMachine } from "../store/device-database.ts";
import type { MachineSource } from "./choose-machine.ts";

/** A machine that can be opened without choosing a file. */
export interface MachineAtHand {
  readonly from: MachineSource;
  readonly mark: string;
  readonly name: string;
  readonly fileName: string;
  /** The machine; undefined where its data cannot be opened any more. */
  readonly open: () => Machine | undefined;
}

/** Name of the document that the server gives. */
export const SERVED_FILE = "machine.ohm.json";

/** The machine whose document the server gave, or what is wrong with it. */
export function servedMachine(text: string): Result<MachineAtHand, readonly Problem[]> {
  const opened = openMachine(text);
  if (!opened.ok) return err(opened.error);
  const { document } = opened.value;
  const { machine: name } = document.about;
  return ok({ from: "served", mark: machineMark(document), name, fileName: SERVED_FILE, open: () => opened.value });
}

/** The machine of a row of the store; undefined for one that is known by name only. */
export function keptMachine({ text, mark, name, fileName }: StoredMachine): MachineAtHand | undefined {
  if (text === undefined) return undefined;
  const open = (): Machine | undefined => {
    const opened = openMachine(text);
    // Its remarks were read when it was accepted.
    return opened.ok ? machineOf(opened.value.document) : undefined;
  };
  return { from: "kept", mark, name, fileName, open };
}

/** The demo machine, made only once it is asked for. */
export function demoMachine(text: string): MachineAtHand {
  let machine: Machine | undefined;
  const open = (): Machine => {
    if (machine) return machine;
    const opened = openMachine(text);
    if (!opened.ok) throw new Error("The demo machine that comes with the program has errors");
    return (machine = opened.value);
  };
  return {
    from: "demo",
    get mark() {
      return machineMark(open().document);
    },
    name: "the demo machine",
    fileName: "firnlark-45.ohm.json",
    open,
  };
}

import { ok, err, type Result } from "../../base/index.ts";
import type { Problem } from "../../harness-model/index.ts";
import { machineMark, machineOf, openMachine, type Machine } from "../../application/index.ts";
import type { StoredMachine } from "../store/device-database.ts";
import type { MachineSource } from "./choose-machine.ts";

/** A machine that can be opened without choosing a file. */
export interface MachineAtHand {
  readonly from: MachineSource;
  readonly mark: string;
  readonly name: string;
  readonly fileName: string;
  /** The machine, or why its data cannot be opened any more. */
  readonly open: () => Result<Machine, readonly Problem[]>;
}

/** Name of the document that the server gives. */
export const SERVED_FILE = "machine.ohm.json";

/** The machine whose document the server gave, or what is wrong with it. */
export function servedMachine(text: string): Result<MachineAtHand, readonly Problem[]> {
  const opened = openMachine(text);
  if (!opened.ok) return err(opened.error);
  const { document } = opened.value;
  const { machine: name } = document.about;
  return ok({ from: "served", mark: machineMark(document), name, fileName: SERVED_FILE, open: () => opened });
}

/** The machine of a row of the store; undefined for one that is known by name only. */
export function keptMachine({ text, mark, name, fileName }: StoredMachine): MachineAtHand | undefined {
  if (text === undefined) return undefined;
  const open: MachineAtHand["open"] = () => {
    const opened = openMachine(text);
    // Its remarks were read when it was accepted.
    return opened.ok ? ok(machineOf(opened.value.document)) : opened;
  };
  return { from: "kept", mark, name, fileName, open };
}

/** The demo machine, made only once it is asked for. */
export function demoMachine(text: string): MachineAtHand {
  let opened: ReturnType<typeof openMachine> | undefined;
  const open: MachineAtHand["open"] = () => (opened ??= openMachine(text));
  return {
    from: "demo",
    get mark() {
      const demo = open();
      return demo.ok ? machineMark(demo.value.document) : "";
    },
    name: "the demo machine",
    fileName: "firnlark-45.ohm.json",
    open,
  };
}

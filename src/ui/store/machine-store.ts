import { err, ok, type Result } from "../../base/index.ts";
import { openDeviceDatabase, type DeviceDatabase, type StoredMachine } from "./device-database.ts";
import { refusalWords } from "./refusal-words.ts";

/** The machines this device knows; at most one of them with its document. The error says why the browser stores nothing. */
export function storedMachines(): Promise<Result<readonly StoredMachine[], string>> {
  return inDatabase((database) => database.getAll("machines"));
}

/**
 * Keeps a machine on this device. One with its document takes the place of the one that was kept before, of which the name stays; of
 * one without, only mark and name are noted.
 *
 * @returns The error says why the browser did not store it; what was kept before is then untouched.
 */
export function storeMachine(machine: StoredMachine): Promise<Result<void, string>> {
  return inDatabase(async (database) => {
    const transaction = database.transaction("machines", "readwrite", { durability: "strict" });
    const { store } = transaction;
    const before = await store.getAll();
    const others = before.filter(({ mark, text }) => mark !== machine.mark && text !== undefined);
    const isKnown = before.some(({ mark }) => mark === machine.mark);
    const rows =
      machine.text === undefined
        ? isKnown
          ? []
          : [machine]
        : [machine, ...others.map(({ mark, name, fileName }) => ({ mark, name, fileName }))];
    await Promise.all([...rows.map((row) => store.put(row)), transaction.done]);
  });
}

async function inDatabase<Value>(work: (database: DeviceDatabase) => Promise<Value>): Promise<Result<Value, string>> {
  try {
    const database = await openDeviceDatabase(() => undefined);
    try {
      return ok(await work(database));
    } finally {
      database.close();
    }
  } catch (fault) {
    return err(refusalWords(fault));
  }
}

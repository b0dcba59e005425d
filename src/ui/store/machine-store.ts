import { err, ok, type Result } from "../../base/index.ts";
import { openDeviceDatabase, type DeviceDatabase, type StoredMachine } from "./device-database.ts";
import { refusalWords } from "./refusal-words.ts";

/** The machines this device knows, the one that was opened last first. The error says why the browser stores nothing. */
export function storedMachines(): Promise<Result<readonly StoredMachine[], string>> {
  return inDatabase(async (database) =>
    (await database.getAll("machines")).toSorted((one, two) => (two.usedAt ?? "").localeCompare(one.usedAt ?? "")),
  );
}

/**
 * Keeps a machine on this device; of one without its document only mark and name are noted.
 *
 * @param machine The machine.
 * @param replaced Mark of the data that it takes the place of, as after a change; of those the name stays.
 * @returns The error says why the browser did not store it; what was kept before is then untouched.
 */
export function storeMachine(machine: StoredMachine, replaced?: string): Promise<Result<void, string>> {
  return inDatabase(async (database) => {
    const transaction = database.transaction("machines", "readwrite", { durability: "strict" });
    const { store } = transaction;
    const [known, before] = await Promise.all([
      store.get(machine.mark),
      replaced === undefined || replaced === machine.mark ? undefined : store.get(replaced),
    ]);
    const rows: StoredMachine[] =
      machine.text === undefined && known ? [] : [{ ...machine, usedAt: new Date().toISOString() }];
    if (before) rows.push(nameOf(before));
    await Promise.all([...rows.map((row) => store.put(row)), transaction.done]);
  });
}

/** Notes that a machine of this device was opened now. */
export function noteMachineUse(mark: string): Promise<Result<void, string>> {
  return inDatabase(async (database) => {
    const transaction = database.transaction("machines", "readwrite");
    const known = await transaction.store.get(mark);
    if (known) await transaction.store.put({ ...known, usedAt: new Date().toISOString() });
    await transaction.done;
  });
}

/** Takes the document of a machine off this device; its name stays, for addresses that are for it. */
export function forgetMachine(mark: string): Promise<Result<void, string>> {
  return inDatabase(async (database) => {
    const known = await database.get("machines", mark);
    if (known) await database.put("machines", nameOf(known));
  });
}

/** What stays of a machine without its document. */
function nameOf({ mark, name, fileName }: StoredMachine): StoredMachine {
  return { mark, name, fileName };
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

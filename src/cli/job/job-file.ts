import { readRecord, summariseJob, writeRecord } from "../../application/index.ts";
import { basename, dirname, join } from "node:path";
import { err, ok, type Result } from "../../base/index.ts";
import type { JobRecord, JobStore, StoreFault } from "../../job-records/index.ts";
import { withLock } from "./file-lock.ts";
import { codeOf, type JobDisk } from "./job-disk.ts";

/**
 * A store of one job in one file. It is saved whole: the new text goes to a file beside it and onto the disk, then takes its place in one
 * step, so that after a crash there is the record before or the record after. Two programs take turns; whoever comes second is told what
 * was stored meanwhile.
 *
 * @param disk The disk.
 * @param path The file.
 */
export function jobFile(disk: JobDisk, path: string): JobStore {
  const load = async (): Promise<Result<JobRecord, StoreFault>> => {
    try {
      const text = await disk.read(path);
      if (text === undefined) return err({ kind: "missing", id: path });
      const record = readRecord(text);
      return record.ok ? record : err({ kind: "unreadable", id: path, problems: record.error });
    } catch (fault) {
      return err({ kind: "cannot-write", reason: reasonOf(fault) });
    }
  };
  return {
    list: async () => {
      const record = await load();
      return record.ok ? [summariseJob(record.value)] : [];
    },
    load,
    save: async (record, eventCount) =>
      guarded(disk, path, async (isHeld) => {
        await tidy(disk, path);
        const stored = await load();
        const fault = stored.ok ? conflict(stored.value, record, eventCount) : loadFault(stored.error, eventCount);
        if (fault) return err(fault);
        return replace(disk, path, { record, isHeld });
      }),
    remove: async () =>
      guarded(disk, path, async () => {
        await disk.remove(path);
        return ok(undefined);
      }),
  };
}

async function guarded<Value>(
  disk: JobDisk,
  path: string,
  work: (isHeld: () => Promise<boolean>) => Promise<Result<Value, StoreFault>>,
): Promise<Result<Value, StoreFault>> {
  try {
    const done = await withLock(disk, path, work);
    return done.ok ? done.value : err({ kind: "cannot-write", reason: done.error });
  } catch (fault) {
    return err({ kind: "cannot-write", reason: reasonOf(fault) });
  }
}

/** What others stored meanwhile, if they did: the events there must be the ones that are known to be there. */
function conflict(stored: JobRecord, record: JobRecord, eventCount: number): StoreFault | undefined {
  if (stored.id !== record.id && eventCount > 0) {
    return { kind: "cannot-write", reason: `it has another job now, ${stored.id}` };
  }
  const isAsKnown =
    eventCount > 0 &&
    stored.events.length === eventCount &&
    stored.events.every(({ id }, index) => record.events[index]?.id === id);
  return isAsKnown ? undefined : { kind: "changed-elsewhere", stored };
}

/** A new job may be missing, nothing else may. */
function loadFault(fault: StoreFault, eventCount: number): StoreFault | undefined {
  return fault.kind === "missing" && eventCount === 0 ? undefined : fault;
}

async function replace(
  disk: JobDisk,
  path: string,
  { record, isHeld }: { readonly record: JobRecord; readonly isHeld: () => Promise<boolean> },
): Promise<Result<JobRecord, StoreFault>> {
  const part = `${path}.${disk.unique()}.part`;
  await disk.writeNew(part, writeRecord(record));
  if (!(await isHeld())) {
    await disk.remove(part);
    return err({ kind: "cannot-write", reason: "another program has started to write it. Try again" });
  }
  await disk.rename(part, path);
  await disk.syncFolder(dirname(path));
  return ok(record);
}

/** Files beside it that were left half written. Only the holder of the lock writes any. */
async function tidy(disk: JobDisk, path: string): Promise<void> {
  const start = `${basename(path)}.`;
  const names = await disk.list(dirname(path));
  const left = names.filter((name) => name.startsWith(start) && /^[0-9a-f]{12}\.part$/u.test(name.slice(start.length)));
  for (const name of left) await disk.remove(join(dirname(path), name));
}

function reasonOf(fault: unknown): string {
  switch (codeOf(fault)) {
    case "ENOENT":
    case "ENOTDIR":
      return "there is no such folder";
    case "EACCES":
    case "EPERM":
    case "EROFS":
      return "there is no permission to read or write the file or its folder";
    case "EISDIR":
      return "it is a folder";
    case "ENOSPC":
      return "the disk is full";
    case undefined:
    default:
      return fault instanceof Error ? fault.message : String(fault);
  }
}

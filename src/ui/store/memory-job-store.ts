import { summariseJob } from "../../application/index.ts";
import { err, ok } from "../../base/index.ts";
import type { JobRecord, JobStore } from "../../job-records/index.ts";

/**
 * Keeps jobs as long as the page is open and no longer, for browsers that store nothing.
 *
 * @param jobs Jobs to begin with.
 */
export function memoryJobStore(jobs: Iterable<JobRecord> = []): JobStore {
  const kept = new Map([...jobs].map((job): [string, JobRecord] => [job.id, job]));
  return {
    list: () => Promise.resolve([...kept.values()].map(summariseJob)),
    load: (id) => {
      const record = kept.get(id);
      return Promise.resolve(record ? ok(record) : err({ kind: "missing", id }));
    },
    save: (record, eventCount) => {
      const stored = kept.get(record.id);
      if (stored && stored.events.length !== eventCount)
        return Promise.resolve(err({ kind: "changed-elsewhere", stored }));
      kept.set(record.id, record);
      return Promise.resolve(ok(record));
    },
    remove: (id) => {
      kept.delete(id);
      return Promise.resolve(ok(undefined));
    },
  };
}

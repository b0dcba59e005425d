import {
  JOB_FORMAT,
  JOB_VERSION,
  type JobComplaint,
  type JobEvent,
  type JobMachine,
  type JobRecord,
} from "./schema.ts";

type EventOf<Kind extends JobEvent["kind"]> = Extract<JobEvent, { kind: Kind }>;
/** How a code was found. */
export type CodeStatus = EventOf<"code">["status"];

/** A reading that counts, as last corrected. */
export interface CurrentReading extends EventOf<"reading"> {
  /** Whether it was corrected after it was first written down. */
  readonly isAmended: boolean;
}

/** Where a job stands, worked out from its events. */
export interface JobFacts {
  readonly complaint: JobComplaint;
  /** Last status of each code, in the order the codes were first named. */
  readonly codes: ReadonlyMap<string, CodeStatus>;
  /** Last mark of each function, in the order they were first named. */
  readonly symptoms: ReadonlyMap<string, EventOf<"symptom">["is"]>;
  readonly adapters: ReadonlySet<string> | undefined;
  readonly priors: readonly EventOf<"prior">[];
  readonly readings: readonly CurrentReading[];
  readonly cause: EventOf<"cause"> | undefined;
  readonly repairs: readonly EventOf<"repair">[];
  readonly proofs: readonly EventOf<"proof">[];
  readonly notes: readonly EventOf<"note">[];
  readonly closed: EventOf<"closed"> | undefined;
  /** Ids of the events that were taken back. */
  readonly undone: ReadonlySet<string>;
}

const NO_COMPLAINT: JobComplaint = { words: "", conditions: {}, recentWork: [] };

/**
 * Works out where a job stands. The record is the whole truth: folding it again, or folding any first part of it, gives what was there at
 * that moment.
 *
 * @returns What counts now: corrections applied, events taken back left out. Undoing an undo puts the event back.
 */
export function replayEvents(record: Pick<JobRecord, "events">): JobFacts {
  const undone = undoneIn(record.events);
  const current = record.events.filter((event) => !undone.has(event.id));
  const amended = new Map(
    ofKind(current, "amend").map((event) => [event.of, { given: event.given, verdict: event.verdict }]),
  );
  return {
    complaint: ofKind(current, "complaint").at(-1)?.complaint ?? NO_COMPLAINT,
    codes: new Map(ofKind(current, "code").map(({ code, status }) => [code, status])),
    symptoms: new Map(ofKind(current, "symptom").map(({ item, is }) => [item, is])),
    adapters: adaptersIn(current),
    priors: ofKind(current, "prior"),
    readings: ofKind(current, "reading").map((event) => ({
      ...event,
      ...amended.get(event.id),
      isAmended: amended.has(event.id),
    })),
    cause: ofKind(current, "cause").at(-1),
    repairs: ofKind(current, "repair"),
    proofs: ofKind(current, "proof").map((event) => ({ ...event, ...amended.get(event.id) })),
    notes: ofKind(current, "note"),
    closed: ofKind(current, "closed").at(-1),
    undone,
  };
}

function ofKind<Kind extends JobEvent["kind"]>(events: readonly JobEvent[], kind: Kind): readonly EventOf<Kind>[] {
  return events.filter((event): event is EventOf<Kind> => event.kind === kind);
}

function adaptersIn(events: readonly JobEvent[]): ReadonlySet<string> | undefined {
  const last = ofKind(events, "equipment").at(-1);
  return last && new Set(last.adapters);
}

/** Latest first, so that an undo that was itself taken back does nothing. */
function undoneIn(events: readonly JobEvent[]): ReadonlySet<string> {
  const undone = new Set<string>();
  for (const event of [...events].reverse()) {
    if (event.kind === "undo" && !undone.has(event.id)) undone.add(event.of);
  }
  return undone;
}

/** What an event is about, before it has an id. */
export type NewEvent = JobEvent extends infer Each ? (Each extends JobEvent ? Omit<Each, "id" | "at"> : never) : never;

/** Who writes and when: both come from outside, because a record is worked with where there is no clock. */
export interface Stamp {
  /** The moment, ISO 8601. */
  readonly at: string;
  /** Tells writers apart that may write at the same time, such as two open windows; short. */
  readonly writer: string;
}

/**
 * A new record without events.
 *
 * @param id Id of the job, unique where it will be stored.
 * @param machine Which data it is worked with.
 * @param openedAt The moment, ISO 8601.
 */
export function newRecord(id: string, machine: JobMachine, openedAt: string): JobRecord {
  return { format: JOB_FORMAT, version: JOB_VERSION, id, machine, openedAt, events: [] };
}

/**
 * A record with one more event at its end.
 *
 * @param record The record; it is left as it is.
 * @returns The longer record; the id of the new event is unique in it.
 */
export function appendEvent(record: JobRecord, event: NewEvent, stamp: Stamp): JobRecord {
  const id = `${record.events.length + 1}.${stamp.writer}`;
  return { ...record, events: [...record.events, { ...event, id, at: stamp.at }] };
}

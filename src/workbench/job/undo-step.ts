import { err, ok } from "../../base/index.ts";
import { undo } from "../../diagnosis/index.ts";
import type { JobEvent } from "../../records/index.ts";
import { findEvent } from "./find-event.ts";
import { stepTaken, type JobStep } from "./job-step.ts";
import { refusalOf } from "./open-job.ts";
import { refuse } from "./refuse.ts";

/** What is taken back without being named; complaint, codes and functions are named. */
const STEPS: ReadonlySet<JobEvent["kind"]> = new Set([
  "reading",
  "amend",
  "prior",
  "cause",
  "repair",
  "proof",
  "note",
  "closed",
]);

/**
 * Takes an event back; taking back the taking back restores it.
 *
 * @param event Id or number of the event; the last step that stands where absent.
 */
export function undoStep(event: string | undefined): JobStep {
  return (job, stamp) => {
    const { state } = job;
    const { record, facts } = state;
    const last = record.events.findLast(({ id, kind }) => STEPS.has(kind) && !facts.undone.has(id));
    if (event === undefined && !last) {
      return refuse(
        "out-of-turn",
        "No step is left to be taken back. A code, a function or the complaint is taken back by its number.",
      );
    }
    const found = event === undefined ? undefined : findEvent(state, event);
    if (found && !found.ok) return found;
    const target = found?.value ?? last;
    if (!target) throw new RangeError("Cannot undo: no event was found");
    if (facts.undone.has(target.id)) return refuse("out-of-turn", `${target.id} is taken back already.`);
    const after = undo(state, target.id, stamp);
    if (!after.ok) return err(refusalOf(after.error));
    return ok(stepTaken(job, after.value, { text: `Taken back: ${target.id}, ${nameOf(target)}.` }));
  };
}

function nameOf(event: JobEvent): string {
  if (event.kind === "reading" || event.kind === "proof") return `${event.kind} of ${event.check.point}`;
  if (event.kind === "undo") return `the taking back of ${event.of}`;
  if (event.kind === "amend") return `the correction of ${event.of}`;
  const names: Readonly<Record<typeof event.kind, string>> = {
    complaint: "complaint",
    code: "code",
    symptom: "function",
    equipment: "adapters",
    prior: "changed weight",
    cause: "cause",
    repair: "repair",
    note: "note",
    closed: "closing",
  };
  return names[event.kind];
}

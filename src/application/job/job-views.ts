import { formatMinutes, unreachable } from "../../base/index.ts";
import {
  candidateWeight,
  disconnectedWords,
  machineOf,
  planNext,
  PRIORS,
  type JobState,
} from "../../diagnosis/index.ts";
import {
  causeWords,
  describeEntered,
  jobSheet,
  jobText,
  newRecord,
  OUTCOME_NAMES,
  STATUS_NAMES,
  SYMPTOM_NAMES,
  VERDICT_NAMES,
  type JobEvent,
  type JobFacts,
  type SheetRow,
  type CurrentReading,
} from "../../job-records/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import { MAKER_FIRST, METER_PROVEN } from "../../measurement-safety/index.ts";
import { checkLine, choicesOf } from "./check-facts.ts";
import { complaintWords } from "./complaint-words.ts";
import type {
  CheckFacts,
  JobChecksAnswer,
  JobNextAnswer,
  JobReportAnswer,
  JobShowAnswer,
  JobWeightsAnswer,
} from "./job-answers.ts";
import { EVENT_NAMES } from "./event-names.ts";
import { jobFacts, jobHeader, suspectList } from "./job-facts.ts";
import { jobNext } from "./job-next.ts";
import { jobStage } from "./job-stage.ts";
import type { OpenJob } from "./open-job.ts";
import { weightNames } from "./weight-problems.ts";

/** Which permitted tests are listed. */
export interface ChecksRequest {
  /** Words that title, points, state or sort must hold, separated by spaces; upper and lower case are the same. */
  readonly words?: string;
  /** At most so many; all where absent. */
  readonly most?: number;
}

/**
 * The permitted tests of a job, those that separate most causes in their time first.
 *
 * @param job The job.
 * @param request Which of them.
 */
export function jobChecks(job: OpenJob, { words = "", most = Infinity }: ChecksRequest = {}): JobChecksAnswer {
  const { state } = job;
  const isOpen = jobStage(state) !== "closed" && state.model.hypotheses.length > 0;
  const { plan, ranked } = isOpen ? planNext(state) : { plan: { checks: [] }, ranked: [] };
  const bits = new Map(
    ranked.flatMap((each) => {
      const check = plan.checks[each.test];
      return check ? [[check.key, each.bits] as const] : [];
    }),
  );
  const order = new Map([...bits.keys()].map((key, index) => [key, index]));
  const wanted = words.toLowerCase().split(/\s+/u);
  const labels = new Map<string, string>(state.harness.document.states.map(({ id, label }) => [id, label]));
  const fitting = [...state.model.checks.values()].filter(({ key, need }) => {
    const text = `${key} ${labels.get(need.state) ?? ""}`.toLowerCase();
    return wanted.every((word) => text.includes(word));
  });
  const at = ({ key }: { readonly key: string }): number => order.get(key) ?? Number.MAX_SAFE_INTEGER;
  const checks = fitting
    .toSorted((a, b) => at(a) - at(b))
    .slice(0, most)
    .map((check) => checkLine(state, check, bits.get(check.key)));
  return { kind: "job-checks", ...jobHeader(job), job: jobFacts(job), count: fitting.length, checks };
}

/**
 * A job as it stands: complaint, possible causes, everything that was recorded.
 *
 * @param job The job.
 */
export function jobShow(job: OpenJob): JobShowAnswer {
  const { facts } = job.state;
  const names = weightNames(job.state);
  return {
    kind: "job",
    ...jobHeader(job),
    job: jobFacts(job),
    complaint: complaintWords(facts),
    codes: [...facts.codes].map(([code, status]) => ({ code, status })),
    symptoms: [...facts.symptoms].map(([item, is]) => ({ item, is })),
    ...(facts.adapters && { adapters: [...facts.adapters] }),
    suspects: suspectList(job.state),
    log: logOf(job),
    weights: facts.priors.map(({ id, of, factor, origin }) => ({
      event: id,
      of,
      factor,
      origin,
      suspects: names.get(of)?.size ?? 0,
    })),
  };
}

/**
 * The starting probability of every possible fault, and why.
 *
 * @param job The job.
 */
export function jobWeights(job: OpenJob): JobWeightsAnswer {
  const single = job.state.model.hypotheses.flatMap(({ candidates }) => (candidates.length === 1 ? candidates : []));
  const once = [...new Map(single.map((each) => [each.id, each])).values()];
  const weights = once
    .map((each) => ({
      ...{ id: each.id, label: each.label, repair: each.repair, mode: each.mode },
      weight: candidateWeight(each),
      factors: each.factors.map(({ factor, why }) => ({ factor, why })),
    }))
    .sort((a, b) => b.weight - a.weight);
  const { origin, somethingElse } = PRIORS;
  return {
    kind: "job-weights",
    ...jobHeader(job),
    job: jobFacts(job),
    priorOrigin: origin,
    somethingElse,
    weights,
  };
}

function logOf({ state }: OpenJob): JobShowAnswer["log"] {
  const { record, facts, model } = state;
  const current = new Map(facts.readings.map((reading, index) => [reading.id, { ...reading, number: index + 1 }]));
  const undoneBy = new Map(
    record.events.flatMap((event) =>
      event.kind === "undo" && !facts.undone.has(event.id) ? [[event.of, event.id] as const] : [],
    ),
  );
  return record.events.map((event) => {
    const isReading = event.kind === "reading";
    const corrected = current.get(event.id);
    const by = undoneBy.get(event.id);
    return {
      event: event.id,
      at: event.at,
      what: event.kind,
      name: EVENT_NAMES[event.kind],
      text: eventWords(isReading && corrected ? { ...event, given: corrected.given } : event),
      ...("verdict" in event ? { verdict: corrected?.verdict ?? event.verdict } : {}),
      isUndone: facts.undone.has(event.id),
      ...(by === undefined ? {} : { undoneBy: by }),
      ...(corrected && { reading: readingFacts(model, corrected) }),
      isCorrected: corrected?.isAmended ?? false,
      counts: !isReading || model.checks.has(event.check.key),
    };
  });
}

function readingFacts(
  model: JobState["model"],
  { number, check, given }: CurrentReading & { readonly number: number },
): NonNullable<JobShowAnswer["log"][number]["reading"]> {
  const known = model.checks.get(check.key);
  return {
    number,
    key: check.key,
    isMeter: check.kind === "dc-voltage" || check.kind === "resistance",
    point: check.point,
    condition: [check.condition, ...check.setup].join(", "),
    expected: check.expected,
    measured: describeEntered(given),
    choices: known ? choicesOf(known) : [],
  };
}

function eventWords(event: JobEvent): string {
  switch (event.kind) {
    case "complaint":
      return event.complaint.words;
    case "code":
      return `${event.code} ${STATUS_NAMES[event.status]}`;
    case "symptom":
      return `${event.item} ${SYMPTOM_NAMES[event.is]}`;
    case "equipment":
      return event.adapters.length === 0 ? "no adapters" : event.adapters.join(", ");
    case "prior":
      return `${event.of}: factor ${event.factor}, ${event.origin}`;
    case "reading":
    case "proof":
      return `${event.check.point}; ${event.check.condition}; expected ${event.check.expected}; measured ${describeEntered(event.given)}`;
    case "amend":
      return `${event.of} is now ${describeEntered(event.given)}`;
    case "undo":
      return `${event.of} undone`;
    case "cause":
      return `${event.text} (${event.suspect})`;
    case "repair":
      return [event.text, ...event.parts].join("; ");
    case "note":
      return event.text;
    case "closed":
      return OUTCOME_NAMES[event.outcome];
    default:
      return unreachable(event);
  }
}

/**
 * The repair report of a job in its three parts, and the form for a clipboard with blanks for what is still to be done.
 *
 * @param job The job.
 * @param next What is next in it, where that was worked out already.
 */
export function jobReport(job: OpenJob, next = jobNext(job)): JobReportAnswer {
  const { record, facts } = job.state;
  const { machine, build, state, origin, assumptions, cautions } = next;
  const header = { machine, build, ...(state !== undefined && { state }), origin, assumptions, cautions };
  const sheet = jobSheet(record, openRows(next), [...new Set([MAKER_FIRST, METER_PROVEN, ...cautions])]);
  const known = filledBlanks(facts);
  const blanks = sheet.blanks.map(({ label }) => ({ label, text: known.get(label) ?? "" }));
  return { kind: "job-report", ...header, job: jobFacts(job), text: jobText(record), sheet: { ...sheet, blanks } };
}

type OpenRow = Omit<SheetRow, "number">;

/** The next test, and verifications that are not done. */
function openRows({ suggestion }: JobNextAnswer): readonly OpenRow[] {
  const rowOf = ({ leads, title, condition, unplugged, expected }: CheckFacts): OpenRow => ({
    point: leads.length > 0 ? leads.map(({ lead, at }) => `${lead} ${at}`).join(", ") : title,
    condition: [condition, ...unplugged.map(disconnectedWords)].join(", "),
    expected,
    measured: "",
    verdict: "",
  });
  if ("check" in suggestion) return [rowOf(suggestion.check)];
  if (!("proofs" in suggestion)) return [];
  return suggestion.proofs
    .filter(({ result }) => result === undefined)
    .map(({ text, check }) => {
      const row = check ? rowOf(check) : { point: text, condition: "", expected: "", measured: "", verdict: "" };
      return { ...row, point: `Verification: ${row.point}` };
    });
}

/** What is known of the lines at the foot of the form; what is not known is left to be written by hand. */
function filledBlanks({ cause, repairs, proofs, closed }: JobFacts): ReadonlyMap<string, string> {
  const minutes = repairs.reduce((sum, repair) => sum + (repair.minutes ?? 0), 0);
  const last = new Map(proofs.map((proof) => [proof.check.key, proof]));
  const proven = [...last.values()].map(({ check, verdict }) => `${VERDICT_NAMES[verdict]}: ${check.point}`);
  return new Map([
    ["Cause", cause ? causeWords(cause) : ""],
    ["Correction", repairs.map(({ text }) => text).join("; ")],
    ["Parts", repairs.flatMap(({ parts }) => parts).join(", ")],
    ["Repair verification", proven.join("; ")],
    ["Not checked", closed?.notChecked ?? ""],
    ["Time", minutes > 0 ? `repair ${formatMinutes(minutes)}` : ""],
    ["Date", closed ? closed.at.slice(0, 10) : ""],
  ]);
}

/** The form of no job yet, for a clipboard: the machine, everything else to be written by hand. */
export function blankSheet(harness: Harness): JobReportAnswer["sheet"] {
  const sheet = jobSheet(newRecord("", machineOf(harness), ""));
  return {
    ...sheet,
    cautions: [MAKER_FIRST, METER_PROVEN],
    blanks: sheet.blanks.map(({ label }) => ({ label, text: "" })),
  };
}

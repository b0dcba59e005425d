import { jobSheet, jobText, type SheetRow } from "../../records/index.ts";
import type { JobReportAnswer } from "./job-answers.ts";
import { jobFacts, jobHeader } from "./job-header.ts";
import { jobNext } from "./job-next.ts";
import type { OpenJob } from "./open-job.ts";

/**
 * A job written up: the text in the three parts of the trade, and the sheet for a clipboard with blanks for what is still to be done.
 *
 * @param job The job.
 */
export function jobReport(job: OpenJob): JobReportAnswer {
  const next = jobNext(job);
  const { record } = job.state;
  const check = "check" in next.suggestion ? job.state.workup.checks.get(next.suggestion.check.key) : undefined;
  const header = jobHeader(job, check);
  const sheet = jobSheet(record, openRows(next), header.cautions);
  return { kind: "job-report", ...header, job: jobFacts(job), text: jobText(record), sheet };
}

type OpenRow = Omit<SheetRow, "number">;

/** The check that is asked for, and proofs that are not done. */
function openRows({ suggestion }: ReturnType<typeof jobNext>): readonly OpenRow[] {
  const rowOf = (check: {
    title: string;
    condition: string;
    unplugged: readonly string[];
    expected: string;
  }): OpenRow => ({
    point: check.title,
    condition: [check.condition, ...check.unplugged.map((id) => `${id} unplugged`)].join(", "),
    expected: check.expected,
    measured: "",
    verdict: "",
  });
  if ("check" in suggestion) return [rowOf(suggestion.check)];
  if (!("proofs" in suggestion)) return [];
  return suggestion.proofs
    .filter(({ result }) => result === undefined)
    .map(({ text, check }) => (check ? { ...rowOf(check), point: `Proof: ${check.title}` } : trialRow(text)));
}

function trialRow(text: string): OpenRow {
  return { point: `Proof: ${text}`, condition: "", expected: "", measured: "", verdict: "" };
}

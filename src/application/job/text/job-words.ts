import { VERDICT_NAMES } from "../../../job-records/index.ts";
import { formatCrossSectionMm2, formatMinutes } from "../../../base/index.ts";
import { columns } from "../../text/columns.ts";
import { inBrackets } from "../../text/write-expected.ts";
import type { CheckFacts, JobNextAnswer, LeadPlace, VerificationFacts, PossibleCauseFacts } from "../job-answers.ts";

/** A probability as a person reads it: whole percents, and never 0 or 100 for what is neither. */
export function percent(share: number): string {
  if (share > 0 && share < 0.005) return "under 1 %";
  if (share < 1 && share >= 0.995) return "over 99 %";
  return `${Math.round(share * 100)} %`;
}

/** A verdict in words. */
export function verdictWords(verdict: NonNullable<VerificationFacts["result"]>["verdict"]): string {
  return VERDICT_NAMES[verdict];
}

/** A file as it is written on a command line. */
export function onCommandLine(text: string): string {
  return /^[\w./:@%+=,-]+$/u.test(text) ? text : `"${text.replaceAll(/(["\\$`])/gu, "\\$1")}"`;
}

/** The machine, the job and how far it is, in one line. */
export function jobLine({
  machine,
  build,
  job,
}: JobNextAnswer | Pick<JobNextAnswer, "machine" | "build" | "job">): string {
  const checks = job.readings === 1 ? "1 reading" : `${job.readings} readings`;
  return `${machine}, build ${build}, job ${job.id}, ${checks}, ${formatMinutes(job.minutes)} of tests`;
}

/**
 * A check as lines: state, location, leads, numbered steps, pass and fail.
 *
 * @param check The check.
 * @param minutes Minutes from where the work stands, where they are known.
 */
export function checkRows(check: CheckFacts, minutes?: number): readonly string[] {
  const { steps, leads, of, condition, state, expected, unplugged, toUnplug, toPlugIn, code, choices } = check;
  const isMeter = leads.length > 0;
  const fail = choices
    .filter(({ isNormal }) => !isNormal)
    .map(({ label }) => label)
    .join("; or: ");
  const rows = [
    ["State", `${condition}${inBrackets(state)}`],
    ...locationRows(of ? [of] : leads.map((lead) => lead.of), minutes),
    ...(unplugged.length > 0
      ? [["Disconnected", unplugged.map((id) => `${id}${toUnplug.includes(id) ? "" : " (already)"}`).join(", ")]]
      : []),
    ...(toPlugIn.length > 0 ? [["Connect first", `${toPlugIn.join(", ")}, with the key off`]] : []),
    ...leads.flatMap(leadRows),
  ];
  const results = [
    ["Pass", isMeter ? expected : `${expected}.`],
    ["Fail", fail === "" ? "Any other reading." : `${fail}.`],
    ["Test code", code],
  ];
  const lines = columns([...rows, ...results]);
  const numbered = steps.map((step, index) => `  ${index + 1}. ${step}`);
  return [...lines.slice(0, rows.length), ...numbered, ...lines.slice(rows.length)];
}

/** Zones, what has to come off, and the time: "Zone Z2, belly plate. 3 min". */
function locationRows(items: readonly LeadPlace["of"][], minutes: number | undefined): readonly (readonly string[])[] {
  const zones = [...new Set(items.flatMap(({ zone }) => zone ?? []))];
  const access = [...new Set(items.flatMap(({ remove }) => remove ?? []))];
  const where = [...(zones.length > 0 ? [`Zone ${zones.join(" and ")}`] : []), ...access].join(", ");
  const parts = [where === "" ? "Zone not known" : where, ...(minutes === undefined ? [] : [formatMinutes(minutes)])];
  return [["Location", parts.join(". ")]];
}

/** Where one lead goes. How it gets there is in the steps. */
function leadRows({ lead, at, of, cavity, wires, class: probeClass }: LeadPlace): readonly (readonly string[])[] {
  const label = of.label === at || of.label === of.id ? "" : of.label;
  const rows = [[`${LEAD_NAMES[lead]} lead`, `${at}${inBrackets(label)}, class ${probeClass}`]];
  if (wires.length > 0) rows.push(["", `wire ${wires.map(wireWords).join(", ")}`]);
  if (cavity) rows.push(["", cavity.seen]);
  return rows;
}

const LEAD_NAMES: Readonly<Record<LeadPlace["lead"], string>> = { red: "Red (V/Ω)", black: "Black (COM)" };

function wireWords({ id, colour, colourName, crossSectionMm2, net }: LeadPlace["wires"][number]): string {
  const size = crossSectionMm2 === undefined ? undefined : formatCrossSectionMm2(crossSectionMm2);
  const colours = colour === undefined ? undefined : `${colour} ${colourName ?? ""}`.trim();
  return `${id}${inBrackets([colours, size, net].filter((part) => part !== undefined).join(", "))}`;
}

/** The possible causes as rows: probability, name, what it is, how it may have failed. */
export function suspectRows(list: readonly PossibleCauseFacts[]): readonly string[] {
  return columns(
    list.map(({ label, share, what, faults }) => [
      percent(share).padStart(9),
      label,
      what ?? "",
      [...new Set(faults.map((fault) => fault.slice(fault.lastIndexOf(": ") + 1).trim()))].slice(0, 3).join("; "),
    ]),
  );
}

/** The verifications of a repair, numbered, with their results. */
export function verificationLines(proofs: readonly VerificationFacts[]): readonly string[] {
  return proofs.flatMap(({ number, text, check, result }) => [
    `  ${number}  ${text}`,
    ...(result ? [`     ${result.text}: ${verdictWords(result.verdict)}`] : []),
    ...(check && !result ? check.steps.map((step, at) => `     ${number}.${at + 1}  ${step}`) : []),
  ]);
}

import { formatCrossSectionMm2, formatMinutes } from "../../../base/index.ts";
import { named } from "../../text/fact-row.ts";
import { columns } from "../../text/columns.ts";
import { inBrackets } from "../../text/write-expected.ts";
import type { CheckFacts, JobNextAnswer, LeadPlace, VerificationFacts, PossibleCauseFacts } from "../job-answers.ts";

/** A share as a person reads it: whole percents, and never 0 or 100 for what is neither. */
export function percent(share: number): string {
  if (share > 0 && share < 0.005) return "under 1 %";
  if (share < 1 && share >= 0.995) return "over 99 %";
  return `${Math.round(share * 100)} %`;
}

/** A verdict in words. */
export function verdictWords(verdict: NonNullable<VerificationFacts["result"]>["verdict"]): string {
  return verdict.replaceAll("-", " ");
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
  return `${machine}, build ${build}, job ${job.id}, ${checks}, ${formatMinutes(job.minutes)} of checks`;
}

/** A check as rows of two cells: what to do, where the leads go, in which state, what is healthy, how long. */
export function checkRows(check: CheckFacts, minutes?: number): readonly string[] {
  const { steps, leads, of, condition, state, expected, unplugged, toPlugIn, code } = check;
  const last = steps.at(-1) ?? "";
  const others = unplugged.filter((id) => !leads.some(({ unplug }) => unplug === id));
  const setup = [
    ...others.map((id) => `${id} unplugged${check.toUnplug.includes(id) ? "" : " (it is)"}`),
    ...toPlugIn.map((id) => `${id} plugged in again`),
  ];
  return columns([
    ...(leads.length > 0 ? leads.flatMap(leadRows) : steps.slice(0, -1).map((step) => ["get ready", step])),
    ...(of
      ? [["where", `${named(of)}${inBrackets([of.zone && `zone ${of.zone}`, of.remove].filter(Boolean).join(", "))}`]]
      : []),
    ["state", `${condition}${inBrackets(state)}`],
    ...(setup.length > 0 ? [["set up", setup.join("; ")]] : []),
    ["do", last],
    ["healthy", expected],
    ...(minutes === undefined ? [] : [["takes", formatMinutes(minutes)]]),
    ["check", code],
  ]);
}

/** Where one lead goes, then how it gets there. */
function leadRows({ lead, at, of, how, cavity, wires, class: probeClass }: LeadPlace): readonly (readonly string[])[] {
  const label = of.label === at || of.label === of.id ? "" : of.label;
  const rows = [[lead, `${at}${inBrackets(label)}`]];
  if (wires.length > 0) rows.push(["", `wire ${wires.map(wireWords).join(", ")}`]);
  if (cavity) rows.push(["", `seen from the ${cavity.seen}`]);
  rows.push(["", `${how} (${probeClass})`]);
  return rows;
}

function wireWords({ id, colour, colourName, crossSectionMm2, net }: LeadPlace["wires"][number]): string {
  const size = crossSectionMm2 === undefined ? undefined : formatCrossSectionMm2(crossSectionMm2);
  const colours = colour === undefined ? undefined : `${colour} ${colourName ?? ""}`.trim();
  return `${id}${inBrackets([colours, size, net].filter((part) => part !== undefined).join(", "))}`;
}

/** The suspects as rows: share, name, what it is, how it may have failed. */
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

/** The proofs of a repair, numbered, with what they gave. */
export function verificationLines(proofs: readonly VerificationFacts[]): readonly string[] {
  return proofs.flatMap(({ number, text, check, result }) => [
    `  ${number}  ${text}`,
    ...(result ? [`     ${result.text}: ${verdictWords(result.verdict)}`] : []),
    ...(check && !result ? check.leads.map(({ lead, how }) => `     ${lead}: ${how}`) : []),
  ]);
}

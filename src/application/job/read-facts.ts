import { err, ok, quantityProblem, readQuantity, type Result } from "../../base/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import type { JobComplaint } from "../../job-records/index.ts";
import type { JobProblem } from "./job-answers.ts";
import { readCode, type ReadCode } from "./read-code.ts";
import { readFunction, readThing } from "./read-thing.ts";

/** What a person says of a job, as typed. */
export interface FactsRequest {
  /** The complaint, in the operator's words. */
  readonly complaint?: string;
  readonly since?: string;
  readonly onlyWhen?: readonly ("cold" | "hot" | "wet" | "dry")[];
  /** A load or manner of driving under which alone it shows. */
  readonly onlyWith?: string;
  readonly shows?: "always" | "intermittent" | "once";
  readonly weather?: string;
  /** Such as `valve cover off = XP1 B3.X`, or as chosen from lists. */
  readonly recent?: readonly (string | RecentWork)[];
  /** Such as `FE111`, `FE111=stored`, `SPN 520301 FMI 3`, or as chosen from a list. */
  readonly codes?: readonly (string | ReadCode)[];
  readonly good?: readonly string[];
  readonly bad?: readonly string[];
  /** Ids of the adapters owned; all of the document where absent. */
  readonly adapters?: readonly string[];
  /** Such as `W78=3: chafed here before`, or as chosen from a list. */
  readonly weights?: readonly (string | ReadWeight)[];
  readonly notes?: readonly string[];
}

/** A starting probability changed by a person. */
export interface ReadWeight {
  readonly of: string;
  readonly factor: number;
  readonly origin: string;
}

/** Recent work on the machine, with the items concerned. */
type RecentWork = JobComplaint["recentWork"][number];

/** The factor on the probability of a cause that was repaired while the complaint is still present, and why. Common practice, no source. */
export const REPAIRED_IN_VAIN = { factor: 0.01, origin: "repaired, complaint still present" } as const;

/** What was said, understood. */
export interface ReadFacts {
  readonly complaint: JobComplaint;
  /** Whether anything of the complaint was said. */
  readonly hasComplaint: boolean;
  readonly codes: readonly ReadCode[];
  readonly symptoms: readonly { readonly item: string; readonly is: "bad" | "good" }[];
  readonly adapters?: readonly string[];
  readonly weights: readonly ReadWeight[];
  readonly notes: readonly string[];
}

/** What to do about a text that is too long. */
export const SHORTER = "Shorten the text.";
/** Most characters of a text and of a line of the record. */
export const MOST_TEXT = 2000;
const MOST_LINE = 600;

/**
 * Reads what a person says of a job.
 *
 * @param harness The machine in the build of the job.
 * @param request What was typed.
 * @param before The complaint as it was, whose words and conditions stay where nothing new is said.
 * @returns All of it understood, or every problem.
 */
export function readFacts(
  harness: Harness,
  request: FactsRequest,
  before: JobComplaint = { words: "", conditions: {}, recentWork: [] },
): Result<ReadFacts, readonly JobProblem[]> {
  const problems: JobProblem[] = [...lengthProblems(request)];
  const each = <Said, Value>(texts: readonly Said[] = [], read: (text: Said) => Result<Value, JobProblem>): Value[] =>
    texts.flatMap((text) => {
      const value = read(text);
      if (value.ok) return [value.value];
      problems.push(value.error);
      return [];
    });
  const functionOf = (at: string) => (text: string) => readFunction(harness, text, at);
  const recentWork = [...before.recentWork, ...each(request.recent, (text) => readWork(harness, text))];
  const codes = each(request.codes, (text) => readCode(harness, text));
  const bad = each(request.bad, functionOf("--fails"));
  const good = each(request.good, functionOf("--works"));
  for (const item of bad.filter((id) => good.includes(id))) {
    problems.push({
      at: "--works",
      message: `${item} is given as working and as failing.`,
      hint: "Give one of the two.",
    });
  }
  const adapters = request.adapters && each(request.adapters, (text) => readAdapter(harness, text));
  const weights = each(request.weights, readWeight);
  if (problems.length > 0) return err(problems);
  return ok({
    complaint: { ...complaintOf(request, before), recentWork },
    hasComplaint: isSaid(request),
    codes,
    symptoms: [
      ...bad.map((item) => ({ item, is: "bad" as const })),
      ...good.map((item) => ({ item, is: "good" as const })),
    ],
    ...(adapters && { adapters }),
    weights,
    notes: request.notes ?? [],
  });
}

function isSaid({ complaint, since, onlyWhen, onlyWith, shows, weather, recent }: FactsRequest): boolean {
  return [complaint, since, onlyWith, shows, weather, onlyWhen?.[0], recent?.[0]].some((said) => said !== undefined);
}

function complaintOf(request: FactsRequest, before: JobComplaint): Omit<JobComplaint, "recentWork"> {
  const { complaint, since = before.since, onlyWhen = [], onlyWith, shows, weather } = request;
  const temperature = onlyWhen.find((each) => each === "cold" || each === "hot");
  const wetness = onlyWhen.find((each) => each === "wet" || each === "dry");
  return {
    words: complaint?.trim() ?? before.words,
    conditions: {
      ...before.conditions,
      ...(temperature && { temperature }),
      ...(wetness && { wetness }),
      ...(onlyWith === undefined ? {} : { load: onlyWith }),
      ...(shows && { presence: shows }),
      ...(weather === undefined ? {} : { weather }),
    },
    ...(since === undefined ? {} : { since }),
  };
}

function lengthProblems(request: FactsRequest): readonly JobProblem[] {
  const tooLong = (at: string, text: string | undefined, most: number): readonly JobProblem[] =>
    text === undefined || text.length <= most
      ? []
      : [{ at, message: `The text has ${text.length} characters; the limit is ${most}.`, hint: SHORTER }];
  const { complaint, since, onlyWith, weather, notes = [], onlyWhen = [] } = request;
  const isBoth = (one: "cold" | "wet", other: "hot" | "dry"): boolean =>
    onlyWhen.includes(one) && onlyWhen.includes(other);
  const hint = "Give one of the two.";
  return [
    ...tooLong("--complaint", complaint, MOST_TEXT),
    ...tooLong("--since", since, MOST_LINE),
    ...tooLong("--load", onlyWith, MOST_LINE),
    ...tooLong("--weather", weather, MOST_LINE),
    ...notes.flatMap((note) => tooLong("--note", note, MOST_TEXT)),
    ...(isBoth("cold", "hot")
      ? [{ at: "--condition", message: "The complaint cannot show only when cold and only when hot.", hint }]
      : []),
    ...(isBoth("wet", "dry")
      ? [{ at: "--condition", message: "The complaint cannot show only when wet and only when dry.", hint }]
      : []),
  ];
}

/** "valve cover off = XP1 B3.X": the work, and the items that were opened, repaired or added. */
function readWork(harness: Harness, said: string | RecentWork): Result<RecentWork, JobProblem> {
  if (typeof said !== "string") return makeWork(harness, said.text.trim(), said.touched);
  const text = said;
  const at = text.lastIndexOf("=");
  const words = (at < 0 ? text : text.slice(0, at)).trim();
  const names =
    at < 0
      ? []
      : text
          .slice(at + 1)
          .split(/[\s,]+/u)
          .filter((name) => name !== "");
  return makeWork(harness, words, names);
}

function makeWork(harness: Harness, words: string, names: readonly string[]): Result<RecentWork, JobProblem> {
  const hint = 'Give the work, then "=" and the items concerned: --recent-work "valve cover off = XP1 B3.X".';
  if (words === "" || words.length > MOST_TEXT)
    return err({ at: "--recent-work", message: "The recent work is missing or too long.", hint });
  const touched: string[] = [];
  for (const name of names) {
    const item = readThing(harness, name, "--recent-work");
    if (!item.ok) return item;
    touched.push(item.value.id);
  }
  return ok({ text: words, touched });
}

function readAdapter({ document }: Harness, text: string): Result<string, JobProblem> {
  const typed = text.trim().toLowerCase();
  const found = document.adapters.find(({ id }) => id.toLowerCase() === typed);
  if (found) return ok(found.id);
  const hint =
    document.adapters.length === 0 ? "It has none." : `It has: ${document.adapters.map(({ id }) => id).join(", ")}.`;
  return err({ at: "--adapter", message: `The harness data has no adapter "${text.trim()}".`, hint });
}

const WEIGHT = /^(.+?)\s*=\s*([^:=]+?)\s*(?::\s*(.*))?$/u;
const MOST_FACTOR = 1000;

/** "W78=3: chafed here before". */
function readWeight(said: string | ReadWeight): Result<ReadWeight, JobProblem> {
  if (typeof said !== "string") return ok(said);
  const text = said;
  const [, of = "", digits = "", origin = ""] = WEIGHT.exec(text.trim()) ?? [];
  const problem = (message: string): Result<never, JobProblem> =>
    err({
      at: "--probability-factor",
      message,
      hint: 'Give a name, "=", a factor, ":" and the reason: --probability-factor "W78=3: chafed here before".',
    });
  if (digits === "") return problem(`"${text}" is not a change to the starting probability.`);
  const read = readQuantity(digits, { units: [] });
  if (read.kind !== "value")
    return problem(`"${text}" is not a change to the starting probability: ${quantityProblem(digits, read)}`);
  const factor = read.value;
  if (factor < 0 || factor > MOST_FACTOR) return problem(`${digits} is not a factor from 0 to ${MOST_FACTOR}.`);
  if (origin.trim() === "") return problem(`The reason for "${of}" is missing.`);
  if (origin.length > MOST_LINE || of.length > 130) return problem("The name or the reason is too long.");
  return ok({ of: of.trim(), factor, origin: origin.trim() });
}

import { err, ok, type Result } from "../../base/index.ts";
import type { Candidate, FaultMode } from "../../diagnosis/index.ts";
import { fitBuild, type Harness, type HarnessDocument } from "../../model/index.ts";
import type { PracticeTask } from "../../records/index.ts";
import { randomOfTask, readTaskCode, type CodeProblem } from "../code/task-code.ts";
import type { Level } from "../drills/drill.ts";
import { complaintWords } from "./complaint.ts";
import { hiddenOf, machineCandidates, writtenFault, type HiddenFault } from "./hidden-fault.ts";
import { findSigns, isSilent, type Signs } from "./signs.ts";

/** A fault hunt: what is hidden, and what shows of it. */
export interface HuntTask {
  /** The code, or the title of a written task. */
  readonly title: string;
  readonly build: string;
  readonly level: Level;
  /** What chance in the hunt is drawn from: floating readings, looks that show nothing. */
  readonly number: number;
  readonly hidden: HiddenFault;
  readonly signs: Signs;
  /** The complaint, a sentence each. */
  readonly complaint: readonly string[];
  readonly asksHypothesis: boolean;
}

/** A task with the machine it is played on. */
export interface ReadyHunt {
  readonly harness: Harness;
  readonly task: HuntTask;
}

/** Why there is no hunt. */
export type HuntProblem =
  | CodeProblem
  | {
      readonly code: "no-fault" | "wrong-fault" | "no-sign" | "not-a-hunt" | "unknown-build";
      readonly message: string;
    };

/** Ways of failing by how hard they are to find. Judgement; no source. */
const EASY: ReadonlySet<FaultMode> = new Set(["open", "blown", "unplugged", "dead", "stuck-open"]);
const HARD: ReadonlySet<FaultMode> = new Set(["intermittent", "swapped", "drift"]);

/**
 * Makes the fault hunt of a task, or says why it cannot be made. A code gives the same hunt on every machine: the fault is drawn by whole
 * numbers from the list of candidates in the order of their ids.
 *
 * @param document The harness document.
 * @param task A code, or a fault that a trainer wrote.
 * @param asksHypothesis Whether a hypothesis is asked for before each action.
 */
export function makeHunt(
  document: HarnessDocument,
  task: PracticeTask,
  asksHypothesis = false,
): Result<ReadyHunt, HuntProblem> {
  return task.kind === "code"
    ? huntOfCode(document, task.code, asksHypothesis)
    : huntAsWritten(document, task, asksHypothesis);
}

function huntOfCode(document: HarnessDocument, code: string, asksHypothesis: boolean): Result<ReadyHunt, HuntProblem> {
  const read = readTaskCode(document, code);
  if (!read.ok) return read;
  const { topic, level, build, number } = read.value;
  if (topic !== "hunt") return fail("not-a-hunt", "The code is for drills, not for a fault hunt");
  const harness = fitBuild(document, build);
  if (!harness) return fail("unknown-build", `The harness has no build "${build}"`);
  const drawn = drawHidden(harness, level, randomOfTask(read.value));
  if (!drawn) return fail("no-fault", "This machine has no fault of this level that shows");
  const { hidden, signs } = drawn;
  const complaint = complaintWords(harness, signs, hidden.isIntermittent);
  const title = code.toUpperCase().replace(/\s/gu, "");
  return ok({ harness, task: { title, build, level, number, hidden, signs, complaint, asksHypothesis } });
}

function drawHidden(
  harness: Harness,
  level: Level,
  random: ReturnType<typeof randomOfTask>,
): { readonly hidden: HiddenFault; readonly signs: Signs } | undefined {
  for (const candidate of random.shuffle(machineCandidates(harness))) {
    const severity = random.integer(0, candidate.levels.length - 1);
    if (levelOfHunt(candidate, severity) !== level || !canBeProvoked(harness, candidate)) continue;
    const hidden = hiddenOf(candidate, severity);
    const signs = findSigns(harness, hidden.faults);
    if (signs && !isSilent(signs)) return { hidden, signs };
  }
  return undefined;
}

/**
 * Whether there is a way to make a fault show when it is looked for: one that comes and goes must sit where a connector or a stretch of
 * harness can be moved with the key on. Rings on studs and what lies under covers that only come off with the key off are not drawn.
 */
function canBeProvoked(harness: Harness, { mode, item, places }: Candidate): boolean {
  if (mode !== "intermittent") return true;
  if (places.segments.length > 0) return true;
  const on = harness.document.states.find(({ conditions }) => conditions.length === 1 && conditions[0] === "key-on");
  return (
    item.type === "contact" &&
    places.connectors.some((id) => {
      const states = harness.fitted.connectors.get(id)?.access?.states;
      return states === undefined || states.some((state) => state === on?.id);
    })
  );
}

/** How hard a fault is to find: by the way it fails, and a slight severity is harder than a plain one. */
export function levelOfHunt({ mode, levels }: Candidate, severity: number): Level {
  if (HARD.has(mode)) return 3;
  if (EASY.has(mode)) return 1;
  return levels.length > 1 && severity === 0 && mode === "resistance" ? 3 : 2;
}

function huntAsWritten(
  document: HarnessDocument,
  task: Extract<PracticeTask, { kind: "written" }>,
  asksHypothesis: boolean,
): Result<ReadyHunt, HuntProblem> {
  const harness = fitBuild(document, task.build);
  if (!harness) return fail("unknown-build", `The harness has no build "${task.build}"`);
  const hidden = writtenFault(harness, task.fault, task.comesAndGoes);
  if (!hidden.ok) return fail("wrong-fault", hidden.error);
  const signs = findSigns(harness, hidden.value.faults);
  if (!signs) return fail("no-sign", "With this fault the machine has no steady state, so nothing could be measured");
  if (isSilent(signs)) return fail("no-sign", "Nothing shows of this fault: no code, no function");
  const words = complaintWords(harness, signs, hidden.value.isIntermittent);
  const { title, build, level } = task;
  const complaint = task.words === undefined || task.words.trim() === "" ? words : [task.words];
  // Chance in a written task hangs on its text, so that it is the same for everybody.
  const number = [...task.fault].reduce(
    (sum, character) => (sum * 31 + (character.codePointAt(0) ?? 0)) % 1_000_003,
    7,
  );
  return ok({
    harness,
    task: { title, build, level, number, hidden: hidden.value, signs, complaint, asksHypothesis },
  });
}

function fail(
  code: Exclude<HuntProblem["code"], CodeProblem["code"]> | "unknown-build",
  message: string,
): Result<ReadyHunt, HuntProblem> {
  return err({ code, message });
}

import {
  changeSetup,
  COSTS,
  describeCheck,
  isMeterCheck,
  outcomeChoices,
  type JobState,
} from "../../diagnosis/index.ts";
import { describeItem } from "../../trace/index.ts";
import { checkCodes, type PermittedCheck } from "./check-codes.ts";
import type { CheckFacts, CheckLine } from "./job-answers.ts";
import { leadPlace } from "./lead-place.ts";

/**
 * A check in full: what to do, where both leads go, what the healthy machine shows.
 *
 * @param state The job.
 * @param check One of its checks.
 */
export function checkFacts({ harness, workup, setup }: JobState, check: PermittedCheck): CheckFacts {
  const { points: _, cautions: __, ...described } = describeCheck(harness, check);
  const { unplugged } = check.need;
  const common = {
    ...described,
    code: checkCodes(workup.checks).get(check.key) ?? "",
    toUnplug: unplugged.filter((id) => !setup.unplugged.includes(id)),
    toPlugIn: setup.unplugged.filter((id) => !unplugged.includes(id)),
    choices: [...outcomeChoices(check)].map(({ id, label }) => ({ id, label })),
  };
  if (!isMeterCheck(check)) return { ...common, leads: [], of: describeItem(harness, check.at) };
  const leads = [leadPlace(harness, "red", check.red), leadPlace(harness, "black", check.black)];
  return { ...common, leads };
}

/** The cautions of a check: those of its contact points and of its place. */
export function cautionsOfCheck({ harness }: JobState, check: PermittedCheck): readonly string[] {
  return describeCheck(harness, check).cautions;
}

/**
 * A check in one line.
 *
 * @param state The job.
 * @param check One of its checks.
 * @param bits What it tells, where that is known.
 */
export function checkLine(state: JobState, check: PermittedCheck, bits?: number): CheckLine {
  const { key, need } = check;
  const at = state.harness.document.states.find(({ id }) => id === need.state);
  return {
    code: checkCodes(state.workup.checks).get(key) ?? "",
    key,
    title: checkTitle(state, check),
    condition: at?.label ?? need.state,
    unplugged: need.unplugged,
    minutes: minutesFromHere(state, check),
    ...(bits === undefined ? {} : { bits }),
    isDone: state.facts.readings.some((reading) => reading.check.key === key),
  };
}

/** The title that the whole description has; that also works out the healthy reading, which is too much for a long list. */
function checkTitle({ harness }: JobState, check: PermittedCheck): string {
  if (!isMeterCheck(check)) return describeCheck(harness, check).title;
  const { kind, red, black } = check;
  return `${kind === "volts" ? "Volts" : "Ohms"} from ${red.at ?? red.id} to ${black.at ?? black.id}`;
}

function minutesFromHere({ harness, setup }: JobState, { need, minutes }: PermittedCheck): number {
  const { states } = harness.document;
  const byId = new Map(states.map((state): [string, (typeof states)[number]] => [state.id, state]));
  return changeSetup(setup, need, { byId, costs: COSTS }).minutes + minutes;
}

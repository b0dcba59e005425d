import {
  candidateWeight,
  changeSetup,
  COSTS,
  describeCheck,
  isMeterCheck,
  nextCheck,
  outcomeChoices,
  outcomesOf,
  PRIORS,
  proofsOf,
  readingScale,
  suspects,
  type Check,
  type JobState,
  type MeterCheck,
  type Suggestion,
} from "../../diagnosis/index.ts";
import { explainCheck } from "./explain-check.ts";
import type { JobShown, PreviewShown, ShownCheck, ShownEntry, ShownLead, ShownSuspect, ShownWay } from "./job-shown.ts";

/** Suspects that are shown one by one. */
const MOST_SUSPECTS = 40;

/**
 * Gathers what the page shows of a job, as data that can be sent to it.
 *
 * @param state The job.
 * @param chosen Key of a check that is wanted in place of the proposed one.
 */
export function showJob(state: JobState, chosen: string | undefined): JobShown {
  const suggestion = nextCheck(state);
  const wanted = chosen === undefined ? undefined : state.workup.checks.get(chosen);
  return {
    suggestion,
    check: wanted ? chosenCheck(state, wanted) : suggestedCheck(state, suggestion),
    suspects: suspectsOf(state),
    proofs: proofsOf(state),
    minutes: state.minutes,
    setup: state.setup,
    unknown: state.workup.scope.unknown,
    entries: new Map(
      state.facts.readings.map(({ check: { key } }) => [key, entryOf(state, state.workup.checks.get(key))]),
    ),
  };
}

/** What the form shows while a job is being put together. */
export function previewOf(state: JobState): PreviewShown {
  return {
    suspects: suspectsOf(state),
    unknown: state.workup.scope.unknown,
    checkCount: state.workup.checks.size,
    origin: PRIORS.origin,
  };
}

function suggestedCheck(state: JobState, suggestion: Suggestion): ShownCheck | undefined {
  if (suggestion.kind !== "check" && suggestion.kind !== "recheck" && suggestion.kind !== "prove-meter")
    return undefined;
  const check = state.workup.checks.get(suggestion.check.key);
  if (!check) return undefined;
  const shown = { ...surroundings(state, check), described: suggestion.check, why: suggestion.why };
  if (suggestion.kind !== "check") return { ...shown, outcomes: [] };
  return { ...shown, outcomes: suggestion.outcomes, minutes: suggestion.minutes };
}

function chosenCheck(state: JobState, check: Check): ShownCheck {
  const { states } = state.harness.document;
  const byId = new Map(states.map((each) => [each.id, each]));
  return {
    ...surroundings(state, check),
    described: describeCheck(state.harness, check),
    minutes: changeSetup(state.setup, check.need, { byId, costs: COSTS }).minutes + check.minutes,
    why: ["You chose this check yourself."],
    outcomes: explainCheck(state, check),
  };
}

function surroundings(
  state: JobState,
  check: Check,
): ShownEntry & Pick<ShownCheck, "leads" | "plugIn" | "unplug" | "isNewState"> {
  const { harness, setup } = state;
  return {
    ...entryOf(state, check),
    leads: isMeterCheck(check) ? leadsOf(harness.document.adapters, check) : [],
    plugIn: setup.unplugged.filter((id) => !check.need.unplugged.includes(id)),
    unplug: check.need.unplugged.filter((id) => !setup.unplugged.includes(id)),
    isNewState: setup.state !== check.need.state,
  };
}

function leadsOf(adapters: JobState["harness"]["document"]["adapters"], check: MeterCheck): readonly ShownLead[] {
  return (["red", "black"] as const).map((lead) => {
    const point = check[lead];
    const adapter = adapters.find(({ id }) => id === point.adapter);
    const words = adapter ? `${adapter.id}, ${adapter.label}` : undefined;
    return { lead, at: point.at ?? point.item.id, how: point.how, ...(words !== undefined && { adapter: words }) };
  });
}

function entryOf({ workup }: JobState, check: Check | undefined): ShownEntry {
  return check && isMeterCheck(check)
    ? { choices: [], scale: readingScale(workup, check) }
    : { choices: choicesOf(check) };
}

function choicesOf(check: Check | undefined): ShownCheck["choices"] {
  if (!check || isMeterCheck(check)) return [];
  const sound = new Set(outcomesOf(check).flatMap(({ id, isHealthy }) => (isHealthy ? [id] : [])));
  return outcomeChoices(check).map((choice) => ({ ...choice, isHealthy: sound.has(choice.id) }));
}

function suspectsOf(state: JobState): readonly ShownSuspect[] {
  const { hypotheses, priors } = state.workup;
  const before = new Map<number, number>();
  priors.forEach((prior, index) => {
    const group = hypotheses[index]?.group ?? -1;
    before.set(group, (before.get(group) ?? 0) + prior);
  });
  const list = suspects(state);
  const shown = list.filter(({ group }, index) => index < MOST_SUSPECTS || group < 0);
  return shown.map((suspect) => ({
    ...suspect,
    before: before.get(suspect.group) ?? 0,
    ...waysOf(state, suspect.group),
  }));
}

function waysOf({ workup }: JobState, group: number): Pick<ShownSuspect, "ways" | "items"> {
  const candidates = new Map(
    workup.hypotheses
      .filter((each) => each.group === group)
      .flatMap(({ candidates: own }) => own.map((candidate) => [candidate.id, candidate] as const)),
  );
  const ways = [...candidates.values()].map(({ label, factors }): ShownWay => ({
    label,
    weight: candidateWeight({ factors }),
    factors,
  }));
  return { ways, items: [...new Set([...candidates.values()].map(({ item }) => item.id))] };
}

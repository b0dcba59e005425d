import { formatCrossSectionMm2 } from "../../base/index.ts";
import {
  candidateWeight,
  verificationsOf,
  repairMinutes,
  suspects,
  type JobState,
  type Verification,
  type CandidateProbability,
} from "../../diagnosis/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import { describeEntered } from "../../job-records/index.ts";
import { describeItem, resolveItem, type Item } from "../../connectivity/index.ts";
import type { AnswerHeader } from "../answer.ts";
import { cautionsFor } from "../cautions.ts";
import { makeHeader } from "../header.ts";
import { itemOfId, joinNames } from "../item-names.ts";
import type { MachineContext } from "../machine-context.ts";
import type { PermittedCheck } from "./check-codes.ts";
import { cautionsOfCheck, checkFacts } from "./check-facts.ts";
import type { JobNextAnswer, VerificationFacts, PossibleCauseFacts } from "./job-answers.ts";
import { jobStage } from "./job-stage.ts";
import type { OpenJob } from "./open-job.ts";

const ASSUMED: readonly string[] = [
  'Starting probabilities are estimates, not statistics ("ohmward job show --probabilities" lists them).',
  "One fault is assumed. Pairs of faults are added when readings fit no single fault.",
  "Times are calculated from the access times in the harness data. Usual times are assumed for the rest.",
];

/**
 * What every answer about a job carries.
 *
 * @param job The job.
 * @param checks The tests of the answer: their locations and states give the cautions.
 */
export function jobHeader(job: OpenJob, checks: readonly PermittedCheck[] = []): AnswerHeader {
  const { harness } = job.state;
  const cautions = checks.flatMap((check) => {
    const items = itemsOf(check).map((item) => resolveItem(harness, item) ?? item);
    return [...cautionsFor(contextOf(job, check), items), ...cautionsOfCheck(job.state, check)];
  });
  const context = contextOf(job, checks[0]);
  const all = checks.length > 0 ? [...new Set(cautions)] : cautionsFor(context, []);
  return makeHeader(context, { cautions: all, assumptions: ASSUMED });
}

/** The machine in the state of a check; as it stands where there is none. */
function contextOf({ machine, state: { harness, setup } }: OpenJob, check: PermittedCheck | undefined): MachineContext {
  const at = check?.need.state ?? setup.state;
  const state = harness.document.states.find(({ id }) => id === at);
  return { machine, harness, state, isStateAssumed: false, assumptions: [] };
}

function itemsOf(check: PermittedCheck): readonly Item[] {
  return "red" in check ? [check.red.item, check.black.item] : [check.at];
}

/** Which job an answer is about, and how far it is. */
export function jobFacts({ state }: OpenJob): JobNextAnswer["job"] {
  const { record, facts, minutes, setup, model } = state;
  return {
    id: record.id,
    openedAt: record.openedAt,
    stage: jobStage(state),
    readings: facts.readings.length,
    checks: model.checks.size,
    minutes,
    stands: { state: setup.state, unplugged: setup.unplugged },
  };
}

/** Possible causes that are named one by one. */
const MOST = 40;
const MOST_FAULTS = 4;

/** The possible causes as a list, most probable first, "something else" among them. */
export function suspectList(state: JobState): readonly PossibleCauseFacts[] {
  return suspectFacts(
    state,
    suspects(state).filter(({ group }, index) => index < MOST || group < 0),
  );
}

/** Possible causes with what the items are, how they may have failed, and why that is probable. */
export function suspectFacts(
  { harness, model, belief }: JobState,
  list: readonly CandidateProbability[],
): readonly PossibleCauseFacts[] {
  const before = new Map<number, number>();
  model.priors.forEach((prior, index) => {
    const group = model.hypotheses[index]?.group ?? -1;
    before.set(group, (before.get(group) ?? 0) + prior);
  });
  return list.map(({ group, label, share }) => {
    const own = [...model.hypotheses.entries()].filter(([, hypothesis]) => hypothesis.group === group);
    const likely = own.sort(([a], [b]) => (belief[b] ?? 0) - (belief[a] ?? 0));
    const faults = likely.map(([, { candidates }]) => candidates.map((each) => each.label).join(" and "));
    const candidates = [
      ...new Map(likely.flatMap(([, each]) => each.candidates.map((one) => [one.id, one] as const))).values(),
    ].sort((a, b) => candidateWeight(b) - candidateWeight(a));
    const what = group < 0 ? "a cause that is not in this list" : placesOf(harness, label);
    return {
      label,
      share,
      before: before.get(group) ?? 0,
      ...(what === "" ? {} : { what }),
      faults: [...new Set(faults)].slice(0, MOST_FAULTS),
      ways: candidates.slice(0, MOST_FAULTS).map(({ label: way, factors }) => ({
        label: way,
        factors: factors.map(({ factor, why }) => ({ factor, why })),
      })),
      items: [...new Set(candidates.map(({ item }) => item.id))],
      ...(group < 0 ? {} : { repairMinutes: repairMinutes(label) }),
    };
  });
}

/** What the items of a possible cause are called, such as "Rail pressure sensor" for `contact B3.X:2`; empty where nothing more is known. */
function placesOf(harness: Harness, label: string): string {
  return label
    .split(" and ")
    .map((part) => placeOf(harness, part.split(" ")[1] ?? ""))
    .filter((each) => each !== "")
    .join("; ");
}

/** A ring terminal is named `W06@GND-C1`, after its wire and its terminal stud. */
function placeOf(harness: Harness, name: string): string {
  const [id = "", at] = name.split("@");
  const item = itemOfId(harness, id);
  const { label, component, connector, colour, crossSectionMm2 } = describeItem(harness, item);
  const owner = component ?? harness.fitted.connectors.get(connector ?? item.id)?.component;
  const size = crossSectionMm2 === undefined ? "" : ` ${formatCrossSectionMm2(crossSectionMm2)}`;
  return joinNames([
    harness.fitted.components.get(owner ?? "")?.label,
    label === id ? undefined : label,
    colour === undefined ? undefined : `${colour}${size}`,
    at === undefined ? undefined : `at ${describeItem(harness, itemOfId(harness, at)).label}`,
  ]);
}

/** A verification with the key under which its result is recorded. */
export interface NumberedVerification {
  readonly number: number;
  readonly key: string;
  readonly proof: Verification;
}

/** The verifications of the repair, numbered. */
export function numberedVerifications(state: JobState): readonly NumberedVerification[] {
  return verificationsOf(state).map((proof, index) => ({
    number: index + 1,
    key: proof.key,
    proof,
  }));
}

/** The verifications of the repair with their results since the last repair. */
export function verificationFacts(state: JobState): readonly VerificationFacts[] {
  const { record, facts, model } = state;
  const repaired = record.events.findIndex(({ id }) => id === facts.repairs.at(-1)?.id);
  const later = new Set(record.events.slice(repaired + 1).map(({ id }) => id));
  return numberedVerifications(state).map(({ number, key, proof }) => {
    const done = facts.proofs.findLast(({ id, check }) => later.has(id) && check.key === key);
    const check = model.checks.get(key);
    return {
      number,
      text: proof.text,
      ...(check && { check: checkFacts(state, check) }),
      ...(done && { result: { text: describeEntered(done.given), verdict: done.verdict } }),
    };
  });
}

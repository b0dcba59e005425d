import { formatMinutes } from "../../base/index.ts";
import { isMeterCheck, type Check } from "../checks/check.ts";
import { conditionOf, describeCheck, titleOf, type DescribedCheck } from "./describe-check.ts";
import { orderOfRepairs, verificationsOf, suspects, type Verification } from "./endings.ts";
import { needsVerification } from "./evidence-of-reading.ts";
import { explainOutcomes, type ExpectedOutcome, type CandidateProbability } from "./explain-outcomes.ts";
import type { JobState } from "./job-state.ts";
import { ENOUGH, planNext, type PlannedCheck } from "./make-plan.ts";

/** A check that is proposed, with the reasons. */
interface ProposedCheck {
  readonly check: DescribedCheck;
  /** Minutes from where the work stands now, getting ready included. */
  readonly minutes: number;
  /** Expected information, in bits. */
  readonly bits: number;
  /** What it parts and why it is this one, in sentences. */
  readonly why: readonly string[];
  readonly outcomes: readonly ExpectedOutcome[];
}

/** What to do next. */
export type Suggestion =
  | ({
      readonly kind: "check";
      readonly expectedMinutes: number;
      readonly others: readonly DescribedChoice[];
    } & ProposedCheck)
  /** A reading that nothing foresaw: look at leads and state, read again, correct it or give it again. */
  | { readonly kind: "recheck"; readonly check: DescribedCheck; readonly why: readonly string[] }
  /** A zero or an open line that a bad tip would show too. */
  | { readonly kind: "prove-meter"; readonly check: DescribedCheck; readonly why: readonly string[] }
  | {
      readonly kind: "repair";
      readonly suspect: CandidateProbability;
      readonly notes: readonly string[];
      readonly proofs: readonly Verification[];
    }
  /** No check parts these any more, or trying repairs takes less than checking on: in this order. They hold nearly all the belief. */
  | {
      readonly kind: "repair-in-order";
      readonly reason: "inseparable" | "quicker-than-checking";
      readonly order: readonly CandidateProbability[];
      readonly minutes: number;
      readonly notes: readonly string[];
      readonly proofs: readonly Verification[];
    }
  /** None of the faults looked at agrees with the readings. */
  | { readonly kind: "look-wider"; readonly why: readonly string[]; readonly suspects: readonly CandidateProbability[] }
  /** Neither codes nor bad functions lead to a circuit. */
  | { readonly kind: "nothing-to-go-on"; readonly unknown: readonly string[] };

/** Another check that may be taken instead. */
export interface DescribedChoice {
  readonly key: string;
  readonly title: string;
  readonly condition: string;
  readonly minutes: number;
  readonly bits: number;
}

/** Less information than this is not worth any time. */
const LEAST_BITS = 0.04;
/** Something else with this share is more likely than anything that was looked at. */
const WIDER = 0.5;
const MOST_OTHERS = 6;

/**
 * What to do next in a job.
 *
 * @returns A check with its reasons; or a reading to take again, a meter to prove, a repair, repairs in order, a wider look.
 */
export function nextCheck(state: JobState): Suggestion {
  if (state.model.hypotheses.length === 0) return { kind: "nothing-to-go-on", unknown: state.model.scope.unknown };
  const open = openQuestion(state);
  if (open) return open;
  const list = suspects(state);
  const [first] = list;
  if (first && first.group >= 0 && first.share >= ENOUGH) {
    return { kind: "repair", suspect: first, notes: repairNotes(first.label), proofs: verificationsOf(state) };
  }
  if ((list.find(({ group }) => group < 0)?.share ?? 0) >= WIDER) {
    const why = [
      "No fault that was looked at agrees with the readings, alone or in pairs. Ask again what was done and changed, and widen the circuits.",
    ];
    return { kind: "look-wider", why, suspects: list.slice(0, 8) };
  }
  const planned = planNext(state);
  return ending(state, planned, list) ?? propose(state, planned);
}

/** A last reading that should not be built on before something was made sure. */
function openQuestion({ harness, model, facts, improbableReadings, record }: JobState): Suggestion | undefined {
  const last = facts.readings.at(-1);
  const check = last && model.checks.get(last.check.key);
  if (!last || !check) return undefined;
  const times = record.events.filter(
    (event) => event.kind === "reading" && event.check.key === check.key && !facts.undone.has(event.id),
  ).length;
  if (improbableReadings.includes(check.key) && times < 2 && !last.isAmended) {
    const why = [
      "Nothing that was still possible foresaw this reading.",
      "Look at the lead placement (cavity, view, half), the range of the meter and the state of the machine, then read again.",
      "The same reading a second time is taken as it is, and the next check will be a different one.",
    ];
    return { kind: "recheck", check: describeCheck(harness, check), why };
  }
  if (isMeterCheck(check) && needsVerification(last.given) && times < 2 && !last.isAmended) {
    const why = [
      "A bad tip shows this as well. Touch a point that is known to be live, then read again and say that the meter was proven.",
    ];
    return { kind: "prove-meter", check: describeCheck(harness, check), why };
  }
  return undefined;
}

function ending(
  state: JobState,
  { chosen, ranked, stopMinutes }: PlannedCheck,
  list: readonly CandidateProbability[],
): Suggestion | undefined {
  const isInseparable = chosen === undefined || !ranked.some(({ bits }) => bits >= LEAST_BITS);
  if (!isInseparable && chosen.expectedMinutes < stopMinutes) return undefined;
  const { order, minutes } = orderOfRepairs(enoughOf(list));
  const [first] = order;
  const notes = first ? repairNotes(first.label) : [];
  const reason = isInseparable ? "inseparable" : "quicker-than-checking";
  return { kind: "repair-in-order", reason, order, minutes, notes, proofs: verificationsOf(state) };
}

/** An order of repairs is listed on to this share: naming one more costs nothing, missing the true one a lot. */
const LISTED = 0.998;
const MOST_LISTED = 15;

/** The suspects that together hold nearly all the belief in named faults. */
function enoughOf(list: readonly CandidateProbability[]): readonly CandidateProbability[] {
  const named = list.filter(({ group }) => group >= 0).slice(0, MOST_LISTED);
  const total = named.reduce((sum, { share }) => sum + share, 0);
  let sum = 0;
  return named.filter(({ share }) => {
    const isNeeded = sum < LISTED * total;
    sum += share;
    return isNeeded;
  });
}

function propose(state: JobState, { plan, chosen, ranked }: PlannedCheck): Suggestion {
  const check = plan.checks[chosen?.test ?? -1];
  if (!chosen || !check) throw new RangeError("Cannot propose: no check was chosen");
  const outcomes = explainOutcomes(state, plan, { test: chosen.test });
  const others = ranked
    .filter(({ test }) => test !== chosen.test)
    .slice(0, MOST_OTHERS)
    .flatMap(({ test, minutes, bits }): DescribedChoice[] => {
      const other = plan.checks[test];
      if (!other) return [];
      const title = titleOf(other);
      return [{ key: other.key, title, condition: conditionOf(state.harness, other), minutes, bits }];
    });
  return {
    kind: "check",
    check: describeCheck(state.harness, check),
    minutes: chosen.minutes,
    bits: chosen.bits,
    expectedMinutes: chosen.expectedMinutes,
    why: reasons(state, check, { minutes: chosen.minutes, outcomes, expected: chosen.expectedMinutes }),
    outcomes,
    others,
  };
}

interface Computed {
  readonly minutes: number;
  readonly expected: number;
  readonly outcomes: readonly ExpectedOutcome[];
}

function reasons({ setup }: JobState, check: Check, { minutes, outcomes, expected }: Computed): readonly string[] {
  const percent = (share: number): string => `${Math.round(share * 100)} %`;
  const parts = outcomes.slice(0, 3).map(({ label, share }) => `${label} (${percent(share)})`);
  const fresh = check.need.places.filter(({ key }) => !setup.reached.includes(key));
  const place =
    fresh.length === 0
      ? "Everything for it is open and fitted already."
      : `It takes ${formatMinutes(minutes)} from here.`;
  return [
    `It parts the suspects by what is read: ${parts.join("; ")}.`,
    place,
    `With it, checks and repair take about ${formatMinutes(expected)} from here on average; no other check tried out takes clearly less.`,
  ];
}

const AFTER: readonly string[] = [
  "Mend the reason too: chafe, drip, missing clip, missing seal, a plug that was not seated.",
  "Refit locks, seals, covers and clips, and secure the harness as it was.",
];

const NOTES: Readonly<Record<string, readonly string[]>> = {
  contact: [
    "Open the connector with the key off and look at both halves: spread socket, pushed-back pin, corrosion, torn seal.",
    "Renew the terminal with the maker's terminal and crimp tool; do not solder a crimp, do not bend a spread terminal back.",
    "Check the lock and pull the wire: the terminal must stay. Dry a wet connector and find where the water came in.",
  ],
  cavities: [
    "Open the connector with the key off. Look for water, metal swarf, swapped or pushed-over terminals and a split seal.",
    "Clean without a metal brush, let it dry, renew damaged terminals and seals, and find where the water came in.",
    "Compare every wire with the cavity list in the named view before plugging in again.",
  ],
  wire: [
    "Find the damaged place along the route: free loops, clips, edges, hot and moving parts first.",
    "Lay a new wire of the same cross-section and colour along the harness, or splice with a crimped, sealed splice clear of bends and other splices.",
    "Cut off and seal the dead ends; note the place and the wire in the record.",
  ],
  splice: [
    "Open the covering at the splice, cut back to bright copper and make a new crimped splice with sealed heat-shrink.",
    "Keep it away from bends and other splices, cover it as it was.",
  ],
  ring: [
    "Isolate the battery. Take the ring off, clean ring and seat to bright metal, renew a cracked or loose crimp.",
    "Fit it with the right lock washer and torque, then protect it against corrosion.",
  ],
  plug: [
    "Look at both halves for the reason it was off, then plug it in until the lock clicks and refit the secondary lock.",
  ],
  fuse: [
    "Find out why it blew before fitting a new one: measure the line behind it to ground with the supply isolated.",
    "Fit a fuse of the same rating and type; never a larger one.",
  ],
  relay: ["Fit a relay of the same type. Look at the socket: heat, loose terminals, water."],
  part: [
    "Prove the part is the cause before ordering: its supply, ground and signal were right at its own connector, or the complaint went with a known-good part.",
    "Renew the part and its seal; look at the terminals of the old one.",
  ],
  bias: [
    "The control unit is the last suspect: prove all supplies, grounds and lines at its connector again before it is exchanged.",
  ],
};

/**
 * Notes for a repair group.
 *
 * @param group Name of the group, such as `contact B3.X:2`.
 */
export function repairNotes(group: string): readonly string[] {
  const parts = group.split(" and ");
  const own = parts.flatMap((part) => {
    const sort = part.split(" ")[0] ?? "";
    return NOTES[sort] ?? NOTES["part"] ?? [];
  });
  return [...new Set([...own, ...AFTER])];
}

import { formatMinutes } from "../../base/index.ts";
import { toleranceOf } from "../belief/meter-scale.ts";
import { NO_ELECTRICAL_FAULT } from "../candidates/candidate.ts";
import { isMeterCheck, type Check, type MeterCheck } from "../checks/check.ts";
import { COSTS } from "../checks/cost-table.ts";
import { purposeOf } from "./check-purpose.ts";
import { checkTitle, conditionOf, describeCheck, type DescribedCheck } from "./describe-check.ts";
import { isConfirmed, orderOfRepairs, verificationsOf, suspects, type Verification } from "./endings.ts";
import { needsVerification } from "./evidence-of-reading.ts";
import { explainOutcomes, type ExpectedOutcome, type CandidateProbability } from "./explain-outcomes.ts";
import type { JobState } from "./job-state.ts";
import type { RankedTest } from "../plan/choose-test.ts";
import { ENOUGH, planNext, type PlannedCheck } from "./make-plan.ts";

/** A test that is proposed, with the reasons. */
interface ProposedCheck {
  readonly check: DescribedCheck;
  /** Minutes from where the work stands now, getting ready included. */
  readonly minutes: number;
  /** Expected information, in bits. */
  readonly bits: number;
  /** Which causes it separates and why it is this one, in sentences. */
  readonly why: readonly string[];
  readonly outcomes: readonly ExpectedOutcome[];
}

/** What to do next. */
export type Suggestion =
  | ({ readonly kind: "check"; readonly others: readonly DescribedChoice[] } & ProposedCheck)
  /** A reading that fits no remaining cause: check leads and state, measure again, correct it or record it again. */
  | { readonly kind: "recheck"; readonly check: DescribedCheck; readonly why: readonly string[] }
  /** A zero or an open line that a bad probe would show too. */
  | { readonly kind: "prove-meter"; readonly check: DescribedCheck; readonly why: readonly string[] }
  | {
      readonly kind: "repair";
      readonly suspect: CandidateProbability;
      readonly notes: readonly string[];
      readonly proofs: readonly Verification[];
    }
  /** No permitted test separates these causes, or repairs take less time than more tests: in this order. They hold nearly all the probability. */
  | {
      readonly kind: "repair-in-order";
      readonly reason: "inseparable" | "quicker-than-checking";
      readonly order: readonly CandidateProbability[];
      readonly minutes: number;
      readonly notes: readonly string[];
      readonly proofs: readonly Verification[];
    }
  /** The machine reads as sound while the complaint is there. */
  | {
      readonly kind: "no-electrical-fault";
      readonly why: readonly string[];
      readonly suspects: readonly CandidateProbability[];
    }
  /** None of the listed faults fits the readings. */
  | { readonly kind: "look-wider"; readonly why: readonly string[]; readonly suspects: readonly CandidateProbability[] }
  /** Neither trouble codes nor failing functions lead to a circuit. */
  | { readonly kind: "nothing-to-go-on"; readonly unknown: readonly string[] };

/** Another permitted test. */
export interface DescribedChoice {
  readonly key: string;
  readonly title: string;
  readonly condition: string;
  readonly minutes: number;
  readonly bits: number;
}

/** Less information than this is not worth any time. */
const LEAST_BITS = 0.04;
/**
 * Once one cause has this probability, going on must promise to take less than that share of the minutes of repairing in order: the promise is
 * always a little too good.
 */
const LEADS = 0.4;
const WORTH = 0.85;
/** A machine is called sound where that is so many times as probable as any one cause, or where no test tells more. */
const SOUND_LEAD = 8;
/** Something else with this probability is more probable than all listed faults. */
const WIDER = 0.5;
const MOST_OTHERS = 6;

/**
 * What to do next in a job.
 *
 * @returns A check with its reasons; or a reading to take again, a meter to prove, a repair, repairs in order, a wider search.
 */
export function nextCheck(state: JobState): Suggestion {
  if (state.model.hypotheses.length === 0) return { kind: "nothing-to-go-on", unknown: state.model.scope.unknown };
  const open = openQuestion(state);
  if (open) return open;
  const list = suspects(state);
  const [first] = list;
  if (
    first &&
    first.label !== NO_ELECTRICAL_FAULT &&
    first.group >= 0 &&
    first.share >= ENOUGH &&
    isConfirmed(state, first.group)
  ) {
    return { kind: "repair", suspect: first, notes: repairNotes(first.label), proofs: verificationsOf(state) };
  }
  if ((list.find(({ group }) => group < 0)?.share ?? 0) >= WIDER) {
    const why = [
      "No listed fault fits the readings, alone or in pairs.",
      "Ask the operator again about recent work and changes. Then add circuits.",
    ];
    return { kind: "look-wider", why, suspects: list.slice(0, 8) };
  }
  const planned = planNext(state);
  const end = ending(state, planned, list);
  if (!end) return propose(state, planned);
  // Of a fault that comes and goes sound readings say little.
  return first?.label === NO_ELECTRICAL_FAULT && !isUnseen(state, list) ? noElectricalFault(list) : end;
}

function noElectricalFault(list: readonly CandidateProbability[]): Suggestion {
  const why = [
    "Every reading is that of a sound machine, and what fails has its supply, its ground and its current.",
    "Leave the wiring alone. Look at what is not electrical: blocked, leaking, empty, worn, out of adjustment, misused.",
    "If the complaint comes and goes, measure again while it is there.",
  ];
  return { kind: "no-electrical-fault", why, suspects: list.slice(0, 8) };
}

/** A last reading that needs to be made sure first. */
function openQuestion({ harness, model, facts, improbableReadings, record }: JobState): Suggestion | undefined {
  const last = facts.readings.at(-1);
  const check = last && model.checks.get(last.check.key);
  if (!last || !check) return undefined;
  const times = record.events.filter(
    (event) => event.kind === "reading" && event.check.key === check.key && !facts.undone.has(event.id),
  ).length;
  if (improbableReadings.includes(check.key) && times < 2 && !last.isAmended) {
    const why = [
      "This reading fits none of the remaining causes.",
      "Check the leads (cavity, view, side of the connector), the meter range and the state of the machine. Then measure again.",
      "If you get the same reading again, it is accepted. Another test comes next.",
    ];
    return { kind: "recheck", check: describeCheck(harness, check), why };
  }
  if (isMeterCheck(check) && needsVerification(last.given) && times < 2 && !last.isAmended) {
    const why = [
      "A bad probe or lead shows the same.",
      "Prove the meter on a live point. Then measure again and record that the meter is proven.",
    ];
    return { kind: "prove-meter", check: describeCheck(harness, check), why };
  }
  return undefined;
}

function ending(state: JobState, planned: PlannedCheck, list: readonly CandidateProbability[]): Suggestion | undefined {
  const { chosen, ranked, stopMinutes } = planned;
  const isInseparable = chosen === undefined || !ranked.some(({ bits }) => bits >= LEAST_BITS);
  const [likeliest, second] = list;
  const worth = (likeliest?.share ?? 0) < LEADS ? 1 : WORTH;
  if (!isInseparable && chosen.expectedMinutes < worth * stopMinutes) return undefined;
  // There is nothing to repair that would show whether it was right, so it takes more to say so.
  const isSound = likeliest?.label === NO_ELECTRICAL_FAULT;
  if (!isInseparable && isSound && likeliest.share < SOUND_LEAD * (second?.share ?? 0)) return undefined;
  const { order, minutes } = orderOfRepairs(enoughOf(list));
  const [first] = order;
  const notes = [...(isUnseen(state, list) ? watchLines(state) : []), ...(first ? repairNotes(first.label) : [])];
  const reason = isInseparable ? "inseparable" : "quicker-than-checking";
  return { kind: "repair-in-order", reason, order, minutes, notes, proofs: verificationsOf(state) };
}

/** Whether most of the probability lies with faults that come and go while no cause leads: nothing was caught failing. */
function isUnseen({ model, belief }: JobState, list: readonly CandidateProbability[]): boolean {
  const notNow = model.hypotheses.reduce(
    (sum, { isIntermittent }, at) => sum + (isIntermittent ? (belief[at] ?? 0) : 0),
    0,
  );
  return notNow > MOSTLY && list.every(({ group, share }) => group < 0 || share < MOSTLY);
}

/** What to do where the fault was not seen: watch the voltage that most of the causes change when they fail. */
function watchLines({ harness, model, belief }: JobState): readonly string[] {
  const failing = [...model.hypotheses.keys()].filter(
    (at) => model.hypotheses[at]?.isIntermittent && (belief[at] ?? 0) > LEAST_WATCHED,
  );
  const seenBy = (check: MeterCheck): number => {
    const { normal, faulty } = model.readings(check, failing);
    const changed = failing.filter((_, at) => Math.abs((faulty[at] ?? 0) - normal) > 3 * toleranceOf(normal, "V"));
    return changed.reduce((sum, at) => sum + (belief[at] ?? 0), 0);
  };
  const voltages = [...model.checks.values()].filter(isMeterCheck).filter(({ kind }) => kind === "dc-voltage");
  const seen = voltages.map((check) => ({ check, share: seenBy(check) }));
  const [watched] = seen.toSorted((a, b) => b.share - a.share || a.check.minutes - b.check.minutes);
  const where = watched ? `: ${checkTitle(harness, watched.check)}, ${conditionOf(harness, watched.check)}` : "";
  return [
    "The fault was not seen. It comes and goes: replace nothing yet.",
    `Leave the meter on with lowest and highest value recorded${where}. Move the harness and its connectors in turn, as far as that is safe, and warm, cool or wet what the complaint names.`,
    "Where the reading jumps, that is the place. If it never does, hand the machine back with this list and ask what was done when it failed.",
  ];
}

/** More than half of all probability. */
const MOSTLY = 0.5;
/** Causes with less probability than this do not decide which reading is watched. */
const LEAST_WATCHED = 0.01;

/** An order of repairs is listed up to this probability: naming one more costs nothing, missing the true one a lot. */
const LISTED = 0.998;
const MOST_LISTED = 15;

/** The possible causes that together hold nearly all the probability of listed faults. */
function enoughOf(list: readonly CandidateProbability[]): readonly CandidateProbability[] {
  const named = list.filter(({ group, label }) => group >= 0 && label !== NO_ELECTRICAL_FAULT).slice(0, MOST_LISTED);
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
    .flatMap((each): DescribedChoice[] => {
      const other = plan.checks[each.test];
      if (!other) return [];
      const title = checkTitle(state.harness, other);
      const condition = conditionOf(state.harness, other);
      return [{ key: other.key, title, condition, minutes: countedMinutes(each), bits: each.bits }];
    });
  const minutes = countedMinutes(chosen);
  const described = describeCheck(state.harness, check);
  const why = [
    ...(isMeterCheck(check) ? [purposeOf(state.harness, check, described.expectedHigh)] : []),
    ...reasons(state, check, { minutes, outcomes }),
  ];
  return { kind: "check", check: described, minutes, bits: chosen.bits, why, outcomes, others };
}

/** Minutes that a planned check takes; the attention it weighs besides is not counted. */
function countedMinutes({ minutes }: RankedTest): number {
  return minutes - COSTS.attentionMinutes;
}

interface Computed {
  readonly minutes: number;
  readonly outcomes: readonly ExpectedOutcome[];
}

/** A cause with this probability after an outcome is told apart from the others by it. */
const SEPARATED = 0.95;

function reasons({ setup }: JobState, check: Check, { minutes, outcomes }: Computed): readonly string[] {
  const fresh = check.need.places.filter(({ key }) => !setup.reached.includes(key));
  const time = `${formatMinutes(minutes)} from here.`;
  const separated = outcomes.flatMap(({ leaves: [first] }) => (first && first.share >= SEPARATED ? [first.label] : []));
  const named = [...new Set(separated)];
  return [
    fresh.length === 0 ? `Access is open already: ${time}` : `Takes ${time}`,
    named.length > 0
      ? `Separates ${named.join(" and ")} from the other causes.`
      : "Each result makes other causes more probable.",
    "With no other test is the fault found in clearly less time on average.",
  ];
}

const AFTER: readonly string[] = [
  "Repair the reason too: chafe, drip, missing clip, missing seal, or a connector that was not mated.",
  "Refit locks, seals, covers and clips. Secure the harness as it was.",
];

const NOTES: Readonly<Record<string, readonly string[]>> = {
  contact: [
    "Turn the key off. Open the connector.",
    "Inspect both sides for a spread socket, a backed-out pin, corrosion and a torn seal.",
    "Replace the terminal. Use the maker's terminal and crimp tool.",
    "Do not solder a crimp. Do not bend a spread terminal back.",
    "Check the lock. Pull the wire: the terminal must not move.",
    "Dry a wet connector. Find where the water came in.",
  ],
  cavities: [
    "Turn the key off. Open the connector.",
    "Inspect it for water, metal swarf, cross-wired or bent terminals and a split seal.",
    "Clean it without a metal brush. Let it dry. Find where the water came in.",
    "Replace damaged terminals and seals.",
    "Compare every wire with the cavity list in the named view. Then connect it.",
  ],
  wire: [
    "Find the damage along the route. Start at free loops, clips, edges, hot parts and moving parts.",
    "Lay a new wire of the same conductor size and colour along the harness. Or splice it with a crimped, sealed splice.",
    "Keep a splice away from bends and other splices.",
    "Cut off the ends of the old wire. Seal them.",
    "Record the wire and where it was damaged.",
  ],
  splice: [
    "Open the covering at the splice. Cut back to bright copper.",
    "Crimp a new splice. Seal it with heat-shrink tube.",
    "Keep it away from bends and other splices. Cover it as it was.",
  ],
  ring: [
    "Disconnect the battery. Remove the ring terminal.",
    "Clean the ring terminal and its seat to bright metal. Replace a cracked or loose crimp.",
    "Fit it with the right lock washer and torque. Protect it against corrosion.",
  ],
  plug: [
    "Inspect both sides for the reason it was disconnected.",
    "Connect it until the lock clicks. Refit the secondary lock.",
  ],
  fuse: [
    "Find out why the fuse blew before you fit a new one.",
    "Disconnect the supply. Measure the resistance from the fused line to ground.",
    "Fit a fuse of the same rating and type. Never fit a larger one.",
  ],
  relay: ["Inspect the socket for heat damage, loose terminals and water.", "Fit a relay of the same type."],
  part: [
    "Before you order the part, prove that it is the cause: supply, ground and signal are right at its own connector.",
    "Or prove it by substitution: the complaint is gone with a known-good part.",
    "Replace the part and its seal. Inspect the terminals of the old part.",
  ],
  bias: ["Replace a control unit last. First measure all supplies, grounds and lines at its connector again."],
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

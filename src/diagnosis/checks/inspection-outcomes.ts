import { unreachable } from "../../base/index.ts";
import { INSPECTION_OUTCOME_NAMES } from "../../job-records/index.ts";
import type { Candidate, FaultMode, Hypothesis } from "../candidates/candidate.ts";
import type { InspectionCheck, InspectionOutcome } from "./check.ts";

/**
 * The outcomes of each sort of check without a meter: the normal one, the faulty one, and where a connector is looked at that it was not
 * mated, which nobody takes for anything else.
 */
export function outcomesOf(
  check: InspectionCheck,
): readonly [InspectionOutcome, InspectionOutcome, ...InspectionOutcome[]] {
  const [normal, faulty] = OUTCOMES[check.kind];
  const faultyOne = (id: keyof typeof INSPECTION_OUTCOME_NAMES): InspectionOutcome => ({
    id,
    label: INSPECTION_OUTCOME_NAMES[id],
    isNormal: false,
  });
  return [
    { id: normal, label: INSPECTION_OUTCOME_NAMES[normal], isNormal: true },
    faultyOne(faulty),
    ...(check.kind === "visual-inspection" && check.at.type === "connector" ? [faultyOne(NOT_MATED)] : []),
  ];
}

/** A connector that is looked at was not mated. */
export const NOT_MATED = "unmated";
/** How often a connector is found not mated that is not the cause: somebody had opened it before. Common practice, no source. */
const OPENED_BEFORE = 0.0005;

/**
 * Probability of each outcome of a check without a meter, if the hypothesis holds.
 *
 * @param hypothesis The hypothesis; undefined for a machine without a fault.
 * @param outcome One of {@link outcomesOf}.
 */
export function outcomeShare(
  check: InspectionCheck,
  hypothesis: Hypothesis | undefined,
  outcome: InspectionOutcome,
): number {
  if (outcome.isNormal) return 1 - faultyShare(check, hypothesis);
  const isOff = hypothesis?.candidates.some((each) => each.mode === "unplugged" && isThere(check.at, each)) ?? false;
  if (outcome.id === NOT_MATED) return isOff ? SEEN.unplugged : OPENED_BEFORE;
  return isOff ? (1 - SEEN.unplugged) * FALSE_ALARM[check.kind] : faultyShare(check, hypothesis);
}

/** The outcomes of each kind of check: pass, then fail. */
const OUTCOMES = {
  "visual-inspection": ["sound", "damage"],
  wiggle: ["steady", "moves"],
  "terminal-drag": ["grips", "loose"],
  substitute: ["stays", "gone"],
} as const;

/** How often a check without a meter gives its faulty outcome although nothing is wrong there. */
const FALSE_ALARM: Readonly<Record<InspectionCheck["kind"], number>> = {
  "visual-inspection": 0.04,
  wiggle: 0.03,
  "terminal-drag": 0.04,
  substitute: 0.03,
};

/**
 * How often an inspection shows a fault of each sort where it is. Common practice, no source: a break inside the insulation is hardly ever seen, a
 * connector that is off nearly always.
 */
const SEEN: Readonly<Record<FaultMode, number>> = {
  open: 0.3,
  "high-resistance": 0.45,
  "short-to-ground": 0.6,
  "short-to-supply": 0.5,
  bridge: 0.6,
  blown: 0.97,
  "stuck-open": 0.1,
  "stuck-closed": 0.1,
  dead: 0.03,
  "always-on": 0.03,
  drift: 0.05,
  unplugged: 0.98,
  "cross-wired": 0.4,
  intermittent: 0.25,
};

/** How often moving shows an intermittent fault where it is; and any other fault there. Common practice, no source. */
const MOVED = { intermittent: 0.75, other: 0.12 } as const;
/** How often a terminal drag test shows a terminal that makes bad contact. Common practice, no source. */
const PULLED: Readonly<Partial<Record<FaultMode, number>>> = {
  open: 0.75,
  "high-resistance": 0.55,
  intermittent: 0.75,
};
/** How often a substitution ends the complaint when the part is the cause. Common practice, no source. */
const EXCHANGED = 0.96;

/**
 * Probability of the faulty outcome of a check without a meter, if the hypothesis holds.
 *
 * @param hypothesis The hypothesis; undefined for a machine without a fault.
 */
export function faultyShare(check: InspectionCheck, hypothesis: Hypothesis | undefined): number {
  const alarm = FALSE_ALARM[check.kind];
  const shares = (hypothesis?.candidates ?? []).map((candidate) => shareOf(check, candidate));
  // Each cause, and chance, may show by itself.
  return 1 - shares.reduce((sound, share) => sound * (1 - share), 1 - alarm);
}

function shareOf({ kind, at }: InspectionCheck, candidate: Candidate): number {
  if (!isThere(at, candidate)) return 0;
  // A wire that runs through several segments is bad in one of them.
  const { segments, segmentShares } = candidate.places;
  const share = at.type === "segment" ? (segmentShares?.[segments.indexOf(at.id)] ?? 1 / segments.length) : 1;
  switch (kind) {
    case "visual-inspection":
      return share * SEEN[candidate.mode];
    case "wiggle":
      return share * (candidate.mode === "intermittent" ? MOVED.intermittent : MOVED.other);
    case "terminal-drag":
      return PULLED[candidate.mode] ?? 0;
    case "substitute":
      return EXCHANGED;
    default:
      return unreachable(kind);
  }
}

/** Whether the candidate sits where the check looks: a wire in the segment it runs through, a contact in its connector. */
function isThere(at: InspectionCheck["at"], { item, places, repair }: Candidate): boolean {
  if (at.type === "segment") return places.segments.includes(at.id);
  // A break behind a connector shows when the connector is moved; what is inside a part does not.
  if (at.type === "connector")
    return places.connectors.includes(at.id) && item.type !== "element" && item.type !== "wire";
  return item.id === at.id || repair === `relay ${at.id}` || repair === `part ${at.id}`;
}

import { changeSetup, COSTS, faultyShare, outcomesOf, type InspectionCheck } from "../../diagnosis/index.ts";
import { isKeyOn, type Access, type State } from "../../harness-model/index.ts";
import type { ExerciseEvent } from "../../job-records/index.ts";
import { accessOf, isContactPermitted } from "../../measurement-safety/index.ts";
import { resolveItem, type Item } from "../../connectivity/index.ts";
import { blownBy, hypothesisOf } from "./inserted-fault.ts";
import { dangerIn, drawOf, happens, isNotMated, stateOf, type ExerciseState, type Seen } from "./exercise-state.ts";

type HandEvent = Extract<ExerciseEvent, { kind: InspectionCheck["kind"] }>;

interface InspectionOutcome {
  readonly seen: Seen;
  readonly minutes?: number;
  readonly change?: Partial<ExerciseState>;
}

/** Inspects, moves, pulls or substitutes, and gives the outcome. */
export function handCheck(exercise: ExerciseState, event: HandEvent): InspectionOutcome {
  const { harness, setup } = exercise;
  const state = stateOf(harness, setup.state);
  if (!state || !resolveItem(harness, event.at)) return notReady(`There is no "${event.at.id}" in this variant.`);
  const where = locationFacts(exercise, event.at);
  const stopped = dangerIn(exercise, where) ?? touchStopped(exercise, state, event);
  if (stopped) return { seen: stopped };
  const missing = notReadyFor(exercise, state, event);
  if (missing !== undefined) return notReady(missing);
  const check = checkOf(exercise, event, where.minutes);
  const byId = new Map(harness.document.states.map((each): [string, State] => [each.id, each]));
  const change = changeSetup(setup, check.need, { byId, costs: COSTS });
  const isFaulty = showsFault(exercise, check);
  const [normal, faulty, off] = outcomesOf(check);
  const outcome = isFaulty ? (off && isNotMated(exercise, event.at.id) ? off : faulty) : normal;
  const seen: Seen = { kind: "outcome", outcome: outcome.id, text: outcome.label, isNormal: outcome.isNormal };
  return { seen, minutes: change.minutes + check.minutes, change: { setup: change.next } };
}

function notReady(text: string): InspectionOutcome {
  return { seen: { kind: "not-ready", text } };
}

function locationFacts(
  { harness }: ExerciseState,
  at: Item,
): { states: Access["states"]; zone?: string; minutes: number } {
  const connector = harness.fitted.connectors.get(
    at.type === "contact" ? at.id.slice(0, at.id.lastIndexOf(":")) : at.id,
  );
  const segment = harness.segments.get(at.id);
  const component = harness.fitted.components.get(at.id.split(".")[0] ?? "");
  const zone = connector?.zone ?? segment?.zone ?? component?.zone;
  const minutes = segment
    ? COSTS.segmentMinutes
    : (connector?.access?.minutes ?? reachMinutes(harness.document, component?.id));
  // A segment or a part has no access of its own; a connector is reached as it says.
  const states = connector ? accessOf(harness, connector)?.states : "any";
  return { states, ...(zone === undefined ? {} : { zone }), minutes };
}

/** Minutes to reach a part: those of its quickest connector or stud. */
function reachMinutes(
  { connectors, terminalStuds }: ExerciseState["harness"]["document"],
  component: string | undefined,
): number {
  const times = [...connectors, ...terminalStuds]
    .filter((each) => component !== undefined && each.component === component)
    .flatMap(({ access }) => access?.minutes ?? []);
  return times.length === 0 ? 2 : Math.min(...times);
}

/** A terminal drag test needs the same access as front-probing; a substitution needs key off. */
function touchStopped({ harness }: ExerciseState, state: State, event: HandEvent): Seen | undefined {
  if (event.kind === "substitute" && isKeyOn(state)) {
    const reason = "Turn the key off before you replace a part.";
    return { kind: "stopped", rule: "key-off", reason, source: "common practice, no source", mayInsist: false };
  }
  if (event.kind !== "terminal-drag") return undefined;
  const wanted = { point: event.at.id, method: "front-probe", meter: "resistance" } as const;
  const answer = isContactPermitted(harness, state, wanted);
  if (answer.kind !== "refused") return undefined;
  return { kind: "stopped", rule: answer.rule, reason: answer.reason, source: answer.source, mayInsist: false };
}

function notReadyFor({ setup, harness }: ExerciseState, state: State, { kind, at }: HandEvent): string | undefined {
  const connector = at.type === "contact" ? at.id.slice(0, at.id.lastIndexOf(":")) : at.id;
  const isConnector = harness.fitted.connectors.has(connector) && (at.type === "connector" || at.type === "contact");
  if ((kind === "visual-inspection" || kind === "terminal-drag") && isConnector && !setup.unplugged.includes(connector))
    return `Disconnect ${connector} first.`;
  if (kind === "terminal-drag" && at.type !== "contact") return "Choose one terminal for the drag test.";
  if (kind === "wiggle" && at.type !== "connector" && at.type !== "segment")
    return "Choose a connector or a harness segment for the wiggle test.";
  if (kind === "wiggle" && !isKeyOn(state)) return "Turn the key on first. With the key off, movement shows nothing.";
  if (kind === "substitute" && at.type !== "element" && at.type !== "component")
    return "Choose a part, a relay or a fuse to substitute.";
  return undefined;
}

function checkOf({ setup }: ExerciseState, { kind, at }: HandEvent, reach: number): InspectionCheck {
  const owner = at.type === "contact" ? at.id.slice(0, at.id.lastIndexOf(":")) : at.id;
  const sort =
    at.type === "segment" ? "segment" : at.type === "connector" || at.type === "contact" ? "connector" : "part";
  const name = sort === "part" ? (owner.split(".")[0] ?? owner) : owner;
  const minutes = {
    "visual-inspection": COSTS.lookMinutes,
    wiggle: COSTS.wiggleMinutes,
    "terminal-drag": COSTS.dragMinutes,
    substitute: at.type === "element" ? COSTS.swapRelayMinutes : COSTS.swapPartMinutes,
  }[kind];
  const places = [{ key: `${sort} ${name}`, minutes: reach }];
  return {
    kind,
    key: `${kind} ${at.id}`,
    at,
    minutes,
    need: { state: setup.state, unplugged: setup.unplugged, places },
  };
}

/**
 * Whether the check shows a fault: that of the inserted fault if the check is at its location, by the same probabilities as in the planner,
 * drawn once for each place, so that a second inspection shows the same; and terminals damaged in the exercise, which show at once. Nothing shows where nothing is wrong.
 */
function showsFault(exercise: ExerciseState, check: InspectionCheck): boolean {
  const { task, damage, isRepaired } = exercise;
  const owner = check.at.id.split(":")[0];
  const isDamaged = damage.some(
    (each) =>
      !each.isRepaired &&
      (each.item.id === check.at.id || (check.at.type === "connector" && each.item.id.split(":")[0] === owner)),
  );
  if (isDamaged && check.kind !== "substitute") return true;
  const hypothesis = hypothesisOf(task.hidden);
  if (isRepaired || !hypothesis) return false;
  // A fuse that the fault has blown is to be seen, whatever the fault itself is.
  if (check.kind === "visual-inspection" && blownBy(task.hidden).includes(check.at.id)) return true;
  const alarm = faultyShare(check, undefined);
  const share = 1 - (1 - faultyShare(check, hypothesis)) / (1 - alarm);
  if (share <= 0) return false;
  const { segments } = task.hidden.candidate.places;
  const isAlongWire = check.at.type === "segment" && segments.length > 1;
  // A wire is bad in one of the segments it runs through.
  if (isAlongWire && check.at.id !== segments[drawOf(task.number, "segment") % segments.length]) return false;
  // A wiggle test at the right location finds it; else an exercise could not be solved by one wiggle test at each location.
  if (check.kind === "wiggle" && task.hidden.isIntermittent) return true;
  return happens(task.number, check.key, isAlongWire ? Math.min(1, share * segments.length) : share);
}

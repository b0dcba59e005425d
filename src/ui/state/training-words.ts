import { formatMinutes, formatNumber, unreachable } from "../../base/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import type { DrillKind, ExerciseProblem, ExerciseStep, Seen } from "../../training/index.ts";
import type { ExerciseEvent } from "../../job-records/index.ts";
import { methodWords } from "./words.ts";

/** Kinds of drill in words, as a trainee chooses them. */
export const DRILL_WORDS: Readonly<Record<DrillKind, string>> = {
  route: "Where does this wire run",
  zones: "Which zones does it pass",
  hazards: "Where on its way is the danger",
  "next-connector": "Which connector comes next",
  cavity: "Which cavity is this",
  shared: "What do two circuits share",
  without: "What stops without it",
  colour: "Which colour comes behind a joint",
  splice: "Where is this splice",
};

/** Levels, in words. */
export const LEVELS = [
  { level: 1, title: "Level 1", hint: "short ways, plain faults" },
  { level: 2, title: "Level 2", hint: "joints, shorts, look-alikes" },
  { level: 3, title: "Level 3", hint: "long ways, slight faults, what comes and goes" },
] as const;

/** What the meter may be set to. */
export const DIAL = [
  { meter: "dc-voltage", sign: "V", title: "Volts" },
  { meter: "resistance", sign: "Ω", title: "Ohms" },
  { meter: "clamp", sign: "A", title: "Clamp" },
  { meter: "test-lamp", sign: "⊗", title: "Lamp" },
] as const;

/** A range of the meter in words. */
export function rangeText(meter: Measure["meter"], highest: number): string {
  const unit = meter === "resistance" ? "Ω" : meter === "clamp" ? "A" : "V";
  if (highest < 1) return `${highest * 1000} m${unit}`;
  if (highest >= 1e6) return `${highest / 1e6} M${unit}`;
  return highest >= 1000 && unit === "Ω" ? `${highest / 1000} k${unit}` : `${highest} ${unit}`;
}

/** How bright a test lamp burns, from what was noticed at it. */
export function lampOf(notes: readonly string[]): "bright" | "dim" | "dark" | undefined {
  return (["bright", "dim", "dark"] as const).find((each) => notes.some((note) => note.includes(`lamp is ${each}`)));
}

type Measure = Extract<ExerciseEvent, { kind: "measure" }>;

/** What was done, in words. */
export function eventText(event: ExerciseEvent, harness: Harness | undefined): string {
  switch (event.kind) {
    case "hypothesis":
      return event.suspects.length === 0
        ? "Suspected: nothing yet"
        : `Suspected: ${event.suspects.map(({ id }) => id).join(", ")}`;
    case "state":
      return `Set the machine: ${stateLabel(harness, event.to)}`;
    case "open":
      return `Opened ${event.connector}`;
    case "close":
      return `Plugged in ${event.connector}`;
    case "fit":
      return `Fitted ${event.adapter} at ${event.at}`;
    case "remove":
      return `Took ${event.adapter} off ${event.at}`;
    case "zero-leads":
      return "Zeroed the leads";
    case "prove-meter":
      return "Proved the meter on a live point";
    case "measure":
      return measureText(event);
    case "visual-inspection":
      return `Looked at ${event.at.id}`;
    case "wiggle":
      return `Moved ${event.at.id}`;
    case "terminal-drag":
      return `Pulled at terminal ${event.at.id}`;
    case "substitute":
      return `Tried a known good part for ${event.at.id}`;
    case "hint":
      return `Asked for a hint, depth ${event.level}`;
    case "name":
      return `Named as the cause: ${event.cause}`;
    case "repair":
      return `Repaired: ${event.cause}`;
    case "try":
      return `Tried the complaint: ${stateLabel(harness, event.state)}`;
    case "end":
      return "Ended the hunt";
    default:
      return unreachable(event);
  }
}

function measureText({ meter, red, black, insists }: Measure): string {
  const title = DIAL.find((each) => each.meter === meter)?.title ?? meter;
  const lead = (each: Measure["red"]): string => `${each.point} (${methodWords(each.method)})`;
  const places = meter === "clamp" || !black ? `round ${red.point}` : `red ${lead(red)}, black ${lead(black)}`;
  return `${title}, ${places}${insists === true ? ", against the rule" : ""}`;
}

/** What came of it, in words. */
export function seenText(seen: Seen): string {
  switch (seen.kind) {
    case "done":
    case "not-ready":
    case "outcome":
    case "named":
    case "hint":
      return seen.text;
    case "stopped":
      return `Stopped: ${seen.reason}`;
    case "reading":
      return seen.display.is === "wanders" ? `${seen.display.samples?.join(", ") ?? ""}: wanders` : seen.display.text;
    case "tried":
      return seen.words.join(" ");
    default:
      return unreachable(seen);
  }
}

/** A sign beside what came of a step: how it is to be taken, without colour. */
export function seenSign({ seen }: ExerciseStep): string {
  if (seen.kind === "stopped") return "⊘";
  if (seen.kind === "not-ready") return "…";
  if (seen.kind === "outcome") return seen.isHealthy ? "✓" : "✕";
  if (seen.kind === "reading") return seen.damaged === undefined ? "=" : "⚠";
  return seen.kind === "hint" ? "?" : "·";
}

/** Minutes of a hunt, as its clock shows them. */
export function clockText(minutes: number): string {
  return formatMinutes(Math.round(minutes * 10) / 10);
}

/** Points with at most one decimal. */
export function pointsText(points: number): string {
  return formatNumber(Math.round(points * 10) / 10, 1);
}

/** Why a task cannot be made, with what to do about it. */
export function problemText({
  code,
  message,
}: {
  readonly code?: ExerciseProblem["code"];
  readonly message: string;
}): string {
  const advice =
    code === "other-harness"
      ? " Open the machine data the task was made with."
      : code === "mistyped" || code === "wrong-length" || code === "wrong-character"
        ? " Type it again as it was given to you."
        : "";
  return `${message}.${advice}`.replace("..", ".");
}

/** What a state of the machine is called. */
export function stateLabel(harness: Harness | undefined, id: string): string {
  return harness?.document.states.find((state) => state.id === id)?.label ?? id;
}

import { formatMinutes, formatNumber, unreachable } from "../../base/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import type { DrillKind, ExerciseProblem, ExerciseStep, Seen } from "../../training/index.ts";
import type { ExerciseEvent } from "../../job-records/index.ts";
import { methodName } from "./words.ts";

/** Kinds of drill in words, as a trainee chooses them. */
export const DRILL_WORDS: Readonly<Record<DrillKind, string>> = {
  route: "Route of a wire",
  zones: "Zones on a route",
  hazards: "Hazards on a route",
  "next-connector": "Next connector",
  cavity: "Cavity on a face",
  common: "Common wiring of two circuits",
  effect: "Effect of an open circuit",
  colour: "Wire colour behind a contact pair",
  splice: "Location of a splice",
};

/** What the numbers of the class table are. */
export const EXERCISE_POINTS = "Points of 100. If an exercise was done twice, the best result counts.";
/** What the numbers by skill are. */
export const SKILL_POINTS = "Percent of the possible points, over all exercises.";

/** What the two kinds of exercise are called. */
export const WORK_NAMES = { exercise: "fault-finding exercise", drills: "drills" } as const;

/** What a list asks of its trainees. */
export const ASKS_HYPOTHESIS = "Exercises ask for possible causes before each step";

/** Levels, in words. */
export const LEVELS = [
  { level: 1, title: "Level 1", hint: "short paths, simple faults" },
  { level: 2, title: "Level 2", hint: "contact pairs, shorts, similar wires" },
  { level: 3, title: "Level 3", hint: "long paths, small faults, intermittent faults" },
] as const;

/** What the meter may be set to. */
export const DIAL = [
  { meter: "dc-voltage", sign: "V", title: "DC voltage" },
  { meter: "resistance", sign: "Ω", title: "Resistance" },
  { meter: "clamp", sign: "A", title: "Current clamp (DC)" },
  { meter: "test-lamp", sign: "⊗", title: "Test lamp" },
] as const;

/** A range of the meter in words. */
export function rangeText(meter: Measure["meter"], highest: number): string {
  const unit = meter === "resistance" ? "Ω" : meter === "clamp" ? "A" : "V";
  if (highest < 1) return `${highest * 1000} m${unit}`;
  if (highest >= 1e6) return `${highest / 1e6} M${unit}`;
  return highest >= 1000 && unit === "Ω" ? `${highest / 1000} k${unit}` : `${highest} ${unit}`;
}

/** How bright a test lamp is, from what was noticed at it. */
export function lampOf(notes: readonly string[]): "bright" | "dim" | "dark" | undefined {
  return (["bright", "dim", "dark"] as const).find((each) => notes.some((note) => note.includes(`lamp is ${each}`)));
}

type Measure = Extract<ExerciseEvent, { kind: "measure" }>;

/** What was done, in words. */
export function eventText(event: ExerciseEvent, harness: Harness | undefined): string {
  switch (event.kind) {
    case "hypothesis":
      return event.suspects.length === 0
        ? "Possible causes: none yet"
        : `Possible causes: ${event.suspects.map(({ id }) => id).join(", ")}`;
    case "state":
      return `Set the machine: ${stateLabel(harness, event.to)}`;
    case "open":
      return `Disconnected ${event.connector}`;
    case "close":
      return `Connected ${event.connector}`;
    case "fit":
      return `Fitted ${event.adapter} at ${event.at}`;
    case "remove":
      return `Removed ${event.adapter} from ${event.at}`;
    case "zero-leads":
      return "Nulled the lead resistance";
    case "prove-meter":
      return "Proved the meter on a live point";
    case "measure":
      return measureText(event);
    case "visual-inspection":
      return `Inspected ${event.at.id}`;
    case "wiggle":
      return `Wiggle test at ${event.at.id}`;
    case "terminal-drag":
      return `Terminal drag test at ${event.at.id}`;
    case "substitute":
      return `Substituted a known-good part for ${event.at.id}`;
    case "hint":
      return `Hint, level ${event.level}`;
    case "name":
      return `Stated cause: ${event.cause}`;
    case "repair":
      return `Repaired: ${event.cause}`;
    case "try":
      return `Tried to reproduce the complaint: ${stateLabel(harness, event.state)}`;
    case "end":
      return "Ended the exercise";
    default:
      return unreachable(event);
  }
}

function measureText({ meter, red, black, insists }: Measure): string {
  const title = DIAL.find((each) => each.meter === meter)?.title ?? meter;
  const lead = (each: Measure["red"]): string => `${each.point} (${methodName(each.method)})`;
  const places = meter === "clamp" || !black ? `around ${red.point}` : `red ${lead(red)}, black ${lead(black)}`;
  return `${title}, ${places}${insists === true ? ", rule overridden" : ""}`;
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
      return seen.display.is === "wanders" ? `${seen.display.samples?.join(", ") ?? ""}: unstable` : seen.display.text;
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
  if (seen.kind === "outcome") return seen.isNormal ? "✓" : "✕";
  if (seen.kind === "reading") return seen.damaged === undefined ? "=" : "⚠";
  return seen.kind === "hint" ? "?" : "·";
}

/** Minutes of an exercise, as its clock shows them. */
export function clockText(minutes: number): string {
  return formatMinutes(Math.round(minutes * 10) / 10);
}

/** Points with at most one decimal. */
export function pointsText(points: number): string {
  return formatNumber(Math.round(points * 10) / 10, 1);
}

/** Why an exercise cannot be made, with what to do about it. */
export function problemText({
  code,
  message,
}: {
  readonly code?: ExerciseProblem["code"];
  readonly message: string;
}): string {
  const advice =
    code === "other-harness"
      ? " Open the harness data that the exercise was made with."
      : code === "mistyped" || code === "wrong-length" || code === "wrong-character"
        ? " Type the code again as you received it."
        : "";
  return `${message}.${advice}`.replace("..", ".");
}

/** What a state of the machine is called. */
export function stateLabel(harness: Harness | undefined, id: string): string {
  return harness?.document.states.find((state) => state.id === id)?.label ?? id;
}

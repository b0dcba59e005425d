import { formatNumber, formatQuantity } from "../../base/index.ts";
import {
  HAND_METER,
  OHMS_NO_EVIDENCE,
  readMeter,
  type MeterFunction,
  type PlainReading,
  type Probe,
  type OperatingConditions,
} from "../../simulation/index.ts";
import { nodeAt, type Harness, type State } from "../../harness-model/index.ts";
import type { ExerciseEvent } from "../../job-records/index.ts";
import { findProbePoints, isContactPermitted, type Meter } from "../../measurement-safety/index.ts";
import {
  drawOf,
  fittedKey,
  ownerOf,
  conditionsNow,
  type Display,
  type ExerciseState,
  type Seen,
} from "./exercise-state.ts";

type Measure = Extract<ExerciseEvent, { kind: "measure" }>;
type Lead = Measure["red"];

/** Methods that damage a terminal, a seal or a wire; a trainee may insist on them and live with it. */
const DAMAGING: ReadonlySet<Lead["method"]> = new Set(["back-probe", "pierce", "tip-in-socket"]);
/** Ohm of the leads until they are zeroed. Typical, instrument manuals name 0.1 to 0.5. */
const LEADS_OHM = 0.3;

/** What came of a measurement, with the places it had to reach. */
interface Measured {
  readonly seen: Seen;
  readonly probe?: Probe;
  readonly places: readonly { readonly key: string; readonly minutes: number }[];
  readonly damage?: ExerciseState["damage"][number];
}

/** Takes a measurement, or says why it is not taken: a rule, or something that has to be got ready first. */
export function measure(exercise: ExerciseState, state: State, event: Measure): Measured {
  const leads = event.meter === "clamp" || event.black === undefined ? [event.red] : [event.red, event.black];
  if (event.meter !== "clamp" && event.black === undefined) return refuse("Place both leads.");
  const stopped = leads.flatMap((lead) => judgeLead(exercise, state, { lead, event }) ?? []);
  const [first] = stopped;
  if (first) return { seen: first, places: [] };
  for (const lead of leads) {
    const missing = notReady(exercise, lead);
    if (missing !== undefined) return refuse(missing);
  }
  const probe = probeOf(exercise.harness, event, exercise.areLeadsZeroed);
  if (!probe) return refuse("This point cannot be measured in this variant.");
  const shown = readDisplay({
    harness: exercise.harness,
    operatingConditions: conditionsNow(exercise),
    probe,
    range: event.range,
    number: exercise.task.number,
    key: `reading ${exercise.steps.length}`,
  });
  const places = leads.flatMap((lead) => placeOf(exercise.harness, state, lead) ?? []);
  if (shown.kind === "no-reading") return refuse(shown.text);
  const damaged = leads.find((lead) => DAMAGING.has(lead.method));
  const seen: Seen = {
    kind: "reading",
    display: withNotes(shown.display, event),
    ...(damaged ? { damaged: damaged.point } : {}),
  };
  return { seen, probe, places, ...(damaged ? { damage: damageOf(exercise.harness, damaged) } : {}) };
}

function refuse(text: string): Measured {
  return { seen: { kind: "not-ready", text }, places: [] };
}

function withNotes(display: Extract<Seen, { kind: "reading" }>["display"], { meter }: Measure): typeof display {
  const isLow = meter === "resistance" && display.value !== undefined && display.value < OHMS_NO_EVIDENCE + LEADS_OHM;
  if (!isLow) return display;
  return {
    ...display,
    notes: [
      ...display.notes,
      "An ohmmeter supplies almost no current. This reading does not show what current the path can carry.",
    ],
  };
}

function judgeLead(
  { harness }: ExerciseState,
  state: State,
  { lead, event }: { readonly lead: Lead; readonly event: Measure },
): Extract<Seen, { kind: "stopped" | "not-ready" }> | undefined {
  const wanted = { point: lead.point, method: lead.method, meter: event.meter satisfies Meter };
  const answer = isContactPermitted(harness, state, wanted);
  if (answer.kind === "unknown-point")
    return { kind: "not-ready", text: `There is no point "${lead.point}" in this variant.` };
  if (answer.kind === "permitted") return undefined;
  const { rule, reason, source } = answer;
  // Whether a damaging method would also be stopped for the sake of people, the gentlest method at the same point tells.
  const mayInsist = DAMAGING.has(lead.method) && !isDangerous(harness, state, lead);
  if (mayInsist && event.insists === true) return undefined;
  return { kind: "stopped", rule, reason, source, mayInsist };
}

/** Lines and places that nobody may touch in this state, with whatever method. */
function isDangerous(harness: Harness, state: State, { point }: Lead): boolean {
  const number = nodeOf(harness, point);
  if (number === undefined) return false;
  const { points } = findProbePoints(harness, { nodes: [number] }, state, { refusals: "none" });
  return points.every((each) => each.at === undefined);
}

function nodeOf(harness: Harness, address: string): number | undefined {
  return harness.nodeNumbers.get(address) ?? nodeAt(harness, address);
}

/** What has to be done before a lead can be placed. */
function notReady(exercise: ExerciseState, lead: Lead): string | undefined {
  const { harness, setup, fitted } = exercise;
  const owner = ownerOf(harness, lead.point);
  if (lead.method === "front-probe" || lead.method === "tip-in-socket") {
    if (owner !== undefined && !setup.unplugged.includes(owner)) return `Disconnect ${owner} first.`;
  }
  if (lead.adapter !== undefined && !fitted.some((each) => each === fittedKey(harness, lead.adapter ?? "", lead.point)))
    return `Fit ${lead.adapter} first.`;
  const needsAdapter = ["mating-adapter", "in-line", "relay-extension"].includes(lead.method);
  if (needsAdapter && lead.adapter === undefined) return "Choose the adapter for the lead.";
  return undefined;
}

function probeOf(harness: Harness, event: Measure, areLeadsZeroed: boolean): Probe | undefined {
  const red = event.red.point;
  const black = event.black?.point ?? "";
  switch (event.meter) {
    case "dc-voltage":
      return { kind: "dc-voltage", red: addressOf(harness, red), black: addressOf(harness, black) };
    case "resistance":
      return {
        kind: "resistance",
        red: addressOf(harness, red),
        black: addressOf(harness, black),
        leads: { ohm: LEADS_OHM, subtracted: areLeadsZeroed },
      };
    case "test-lamp":
      return { kind: "loaded", red: addressOf(harness, red), black: addressOf(harness, black) };
    case "clamp":
      return harness.fitted.wires.has(red) ? { kind: "dc-current", wire: red } : undefined;
  }
}

/** A wire that is pierced is read at its first end, which is the same point as long as the wire is whole. */
function addressOf(harness: Harness, point: string): string {
  return harness.fitted.wires.get(point)?.ends[0] ?? point;
}

/** What has to be reached for a lead, with the minutes the first time. */
function placeOf(
  harness: Harness,
  state: State,
  lead: Lead,
): { readonly key: string; readonly minutes: number } | undefined {
  const number = nodeOf(harness, lead.point);
  const owner = ownerOf(harness, lead.point);
  if (lead.adapter !== undefined) return undefined;
  if (lead.method === "front-probe" || lead.method === "tip-in-socket") return undefined;
  const target = number === undefined ? undefined : { nodes: [number] };
  const points = target ? findProbePoints(harness, target, state, { refusals: "none" }).points : [];
  const own = points.find((each) => each.method === lead.method && each.relation === "itself") ?? points[0];
  if (!own) return { key: `place ${owner ?? lead.point}`, minutes: 2 };
  return { key: own.zone === undefined ? `place ${own.id}` : `zone ${own.zone} ${own.minutes}`, minutes: own.minutes };
}

function damageOf(harness: Harness, lead: Lead): ExerciseState["damage"][number] {
  const how = {
    "back-probe": "back-probing damaged the seal and displaced the terminal",
    "tip-in-socket": "the probe spread the socket",
    pierce: "the probe pierced the insulation; water can get in",
  };
  const text = how[lead.method === "pierce" ? "pierce" : lead.method === "back-probe" ? "back-probe" : "tip-in-socket"];
  const owner = ownerOf(harness, lead.point);
  const id = owner === undefined ? lead.point : `${owner}${lead.point.slice(lead.point.lastIndexOf(":"))}`;
  const type = harness.edgeNumbers.has(id) && owner !== undefined ? "contact" : "wire";
  return { item: { type, id }, how: text, isRepaired: false };
}

/** What is measured in the exercise. */
interface Held {
  readonly harness: Harness;
  readonly operatingConditions: OperatingConditions;
  readonly probe: Probe;
  /** Highest value of the range chosen by hand; the meter chooses where absent. */
  readonly range: number | undefined;
  /** Number of the task, and a key of this reading, for what wanders. */
  readonly number: number;
  readonly key: string;
}

/** The display, or why the meter shows nothing that means anything. */
type Shown =
  { readonly kind: "display"; readonly display: Display } | { readonly kind: "no-reading"; readonly text: string };

/** Greatest error of the meter of the task, in ten-thousandths of the reading: within its accuracy, the same all through the task. */
const GAIN_ERROR = 40;
/** A point with so many ohm behind it and nothing drawing current is only a voltage as long as nothing is asked of it. */
const SAMPLES = 3;

/**
 * Holds the meter to two points and reads its display: rounded to the count of the range, with sign, `OL` above the range, with the error
 * of this meter and the resistance of its leads in it, unstable where nothing holds a lead.
 */
function readDisplay(held: Held): Shown {
  const { harness, operatingConditions, probe } = held;
  const reading = readMeter(harness, { operatingConditions, probe, compareWith: [] });
  switch (reading.kind) {
    case "value":
      return { kind: "display", display: showValue(held, reading) };
    case "overload":
      return { kind: "display", display: overRange(unitOf(probe)) };
    case "floating":
      return { kind: "display", display: wander(held) };
    case "no-steady-state":
      return {
        kind: "display",
        display: { ...wander(held), notes: ["A part of the machine keeps switching on and off."] },
      };
    case "refused":
      return {
        kind: "no-reading",
        text: [...reading.because.map(({ text }) => text), ...reading.disconnect.map((text) => `First: ${text}`)].join(
          ". ",
        ),
      };
    case "contradictory":
      return {
        kind: "no-reading",
        text: "Two sources without resistance oppose each other. There is no stable reading.",
      };
    case "wrong-question":
      return { kind: "no-reading", text: reading.problems.map(({ text }) => text).join("; ") };
  }
}

function unitOf({ kind }: Probe): Display["unit"] {
  return kind === "resistance" ? "Ω" : kind === "dc-current" ? "A" : "V";
}

function functionOf({ kind }: Probe): MeterFunction {
  return kind === "resistance" ? HAND_METER.ohms : kind === "dc-current" ? HAND_METER.clampAmps : HAND_METER.volts;
}

function overRange(unit: Display["unit"]): Display {
  return { text: "OL", unit, is: "overload", notes: [] };
}

function showValue(held: Held, reading: Extract<PlainReading, { kind: "value" }>): Display {
  const { probe, range, number } = held;
  const unit = unitOf(probe);
  const gain = 1 + ((drawOf(number, "meter") % (2 * GAIN_ERROR + 1)) - GAIN_ERROR) / 10_000;
  const value = reading.value * gain;
  const ranges = functionOf(probe).ranges;
  const chosen = ranges.find(([highest]) => (range === undefined ? Math.abs(value) <= highest : highest >= range));
  if (!chosen || Math.abs(value) > chosen[0]) return overRange(unit);
  const [, count] = chosen;
  const counts = Math.round(value / count);
  const shown = Number((counts * count).toFixed(decimalsOf(count)));
  return {
    text: `${formatNumber(shown, decimalsOf(count))} ${unit}`,
    unit,
    value: shown,
    is: "value",
    notes: notesOf(held, shown),
  };
}

function decimalsOf(count: number): number {
  let decimals = 0;
  while (decimals < 6 && Math.round(count * 10 ** decimals) < 1) decimals++;
  return decimals;
}

function notesOf({ probe, range }: Held, shown: number): readonly string[] {
  const notes: string[] = [];
  if (shown < 0) notes.push("Negative reading: the red (V/Ω) lead is on the lower voltage.");
  if (probe.kind === "loaded")
    notes.push(
      Math.abs(shown) > 9
        ? "The test lamp is bright."
        : Math.abs(shown) > 3
          ? "The test lamp is dim."
          : "The test lamp is dark.",
    );
  if (range !== undefined && Math.abs(shown) < range / 1000)
    notes.push("The range is too high for this value. Choose a lower range.");
  return notes;
}

/** A floating point: the display is unstable. */
function wander({ probe, number, key }: Held): Display {
  const unit = unitOf(probe);
  const samples = Array.from({ length: SAMPLES }, (_, at) => (drawOf(number, `${key} ${at}`) % 900) - 250);
  const texts = samples.map((thousandths) => formatQuantity(thousandths / 1000, unit, 3));
  return { text: texts[0] ?? "0 V", unit, is: "wanders", samples: texts, notes: ["Unstable reading."] };
}

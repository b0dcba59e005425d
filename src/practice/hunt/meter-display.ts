import { formatNumber, formatQuantity } from "../../base/index.ts";
import {
  HAND_METER,
  readMeter,
  type MeterFunction,
  type PlainReading,
  type Probe,
  type Situation,
} from "../../electrics/index.ts";
import type { Harness } from "../../model/index.ts";
import { drawOf } from "./dice.ts";
import type { Display } from "./hunt-state.ts";

/** What is measured in the hunt. */
export interface Held {
  readonly harness: Harness;
  readonly situation: Situation;
  readonly probe: Probe;
  /** Highest value of the range chosen by hand; the meter chooses where absent. */
  readonly range: number | undefined;
  /** Number of the task, and a key of this reading, for what wanders. */
  readonly number: number;
  readonly key: string;
}

/** The display, or why the meter shows nothing that means anything. */
export type Shown =
  { readonly kind: "display"; readonly display: Display } | { readonly kind: "no-reading"; readonly text: string };

/** Greatest error of the meter of the task, in ten-thousandths of the reading: within its accuracy, the same all through the task. */
const GAIN_ERROR = 40;
/** A point with so many ohm behind it and nothing drawing current is only a voltage as long as nothing is asked of it. */
const SAMPLES = 3;

/**
 * Holds the meter to two points and reads its display: rounded to the count of the range, with sign, `OL` above the range, with the error
 * of this meter and the resistance of its leads in it, wandering where a lead hangs on nothing.
 */
export function readDisplay(held: Held): Shown {
  const { harness, situation, probe } = held;
  const reading = readMeter(harness, { situation, probe, compareWith: [] });
  switch (reading.kind) {
    case "value":
      return { kind: "display", display: showValue(held, reading) };
    case "over-range":
      return { kind: "display", display: overRange(unitOf(probe)) };
    case "floating":
      return { kind: "display", display: wander(held) };
    case "no-steady-state":
      return {
        kind: "display",
        display: { ...wander(held), notes: ["Something in the machine keeps switching on and off."] },
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
        text: "Two sources without resistance work against each other; the meter shows nothing steady.",
      };
    case "wrong-question":
      return { kind: "no-reading", text: reading.problems.map(({ text }) => text).join("; ") };
  }
}

function unitOf({ kind }: Probe): Display["unit"] {
  return kind === "ohms" ? "Ω" : kind === "amps" ? "A" : "V";
}

function functionOf({ kind }: Probe): MeterFunction {
  return kind === "ohms" ? HAND_METER.ohms : kind === "amps" ? HAND_METER.clampAmps : HAND_METER.volts;
}

function overRange(unit: Display["unit"]): Display {
  return { text: "OL", unit, is: "over-range", notes: [] };
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
  if (shown < 0) notes.push("The sign is negative: red stands on the lower voltage.");
  if (probe.kind === "loaded")
    notes.push(
      Math.abs(shown) > 9 ? "The lamp is bright." : Math.abs(shown) > 3 ? "The lamp is dim." : "The lamp is dark.",
    );
  if (range !== undefined && Math.abs(shown) < range / 1000) notes.push("The range is coarse for this value.");
  return notes;
}

/** A lead on nothing: the display picks up what is about, and does not stand still. */
function wander({ probe, number, key }: Held): Display {
  const unit = unitOf(probe);
  const samples = Array.from({ length: SAMPLES }, (_, at) => (drawOf(number, `${key} ${at}`) % 900) - 250);
  const texts = samples.map((thousandths) => formatQuantity(thousandths / 1000, unit, 3));
  return { text: texts[0] ?? "0 V", unit, is: "wanders", samples: texts, notes: ["The display does not stand still."] };
}

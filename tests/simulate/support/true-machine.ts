import type { SeededRandom } from "ohmward/base";
import { readMeter, type Fault, type PlainReading } from "ohmward/simulation";
import type { Harness } from "ohmward/harness-model";
import {
  faultyShare,
  isMeterCheck,
  outcomesOf,
  type Check,
  type InspectionCheck,
  type Hypothesis,
  type MeterCheck,
} from "ohmward/diagnosis";
import type { EnteredReading } from "ohmward/job-records";

/** A machine as it really is: its fault, and parts that are a little off, as parts are. */
export interface TrueMachine {
  readonly harness: Harness;
  readonly truth: Hypothesis;
  /** Small deviations of healthy parts, as faults for the solver. */
  readonly offs: readonly Fault[];
  /** What looking, moving and pulling show, drawn once: looking again shows the same. */
  readonly shown: Map<string, boolean>;
}

/** A number with mean 0 and standard deviation 1. */
export function normal(random: SeededRandom): number {
  return Math.sqrt(-2 * Math.log(1 - random.next())) * Math.cos(2 * Math.PI * random.next());
}

/** Draws the deviations: battery, regulators, resistances of parts, and worn joints that are still good. */
export function drawMachine(harness: Harness, truth: Hypothesis, random: SeededRandom): TrueMachine {
  const offs: Fault[] = [];
  const named = new Set(truth.faults.flatMap((fault) => ("of" in fault ? [fault.of] : [])));
  for (const edge of harness.edges) {
    if (edge.kind === "mating" && random.next() < 0.15 && !named.has(edge.key)) {
      offs.push({ kind: "high-resistance", of: edge.key, ohm: 0.002 * Math.exp(0.5 * normal(random)) });
    }
    if (edge.kind !== "element" || edge.key.endsWith(".top") || edge.key.endsWith(".bottom")) continue;
    const { kind } = edge.element;
    const spread =
      kind === "source"
        ? 0.008
        : kind === "ntc" || kind === "resistor" || kind === "coil" || kind === "load"
          ? 0.03
          : 0;
    if (spread > 0 && !named.has(edge.key)) {
      offs.push({ kind: "drift", of: edge.key, factor: 1 + spread * normal(random), offset: 0 });
    }
  }
  return { harness, truth, offs, shown: new Map() };
}

/** How readings go wrong. */
export interface Blunders {
  /** Share of readings taken at another point than meant, or judged the wrong way round. */
  readonly share: number;
  readonly random: SeededRandom;
  /** Checks whose point may be mistaken for the one meant. */
  readonly others: readonly MeterCheck[];
}

/** What the person reads: the true reading, with the meter's own error, or a blunder. */
export function readCheck(machine: TrueMachine, check: Check, blunders: Blunders): EnteredReading {
  const isBlunder = blunders.random.next() < blunders.share;
  if (!isMeterCheck(check)) return readHand(machine, check, { ...blunders, isBlunder });
  const alike = blunders.others.filter((other) => other.kind === check.kind && other.need.state === check.need.state);
  const meant = isBlunder && alike.length > 0 ? blunders.random.pick(alike) : check;
  const isFailing = !machine.truth.isIntermittent || blunders.random.next() < 0.15;
  const faults = [...machine.offs, ...(isFailing ? machine.truth.faults : [])];
  const reading = readMeter(machine.harness, {
    operatingConditions: { state: meant.need.state, unplugged: meant.need.unplugged, faults },
    probe: { kind: meant.kind, red: meant.red.at ?? "", black: meant.black.at ?? "" },
    compareWith: [],
  });
  return toEntered(check, reading, blunders.random);
}

function toEntered({ kind }: MeterCheck, reading: PlainReading, random: SeededRandom): EnteredReading {
  if (reading.kind === "overload") return { kind: "overload", isMeterProven: true };
  if (reading.kind === "floating") {
    return random.next() < 0.3 ? { kind: "unstable" } : value(0.03 * normal(random), "V");
  }
  if (reading.kind === "value") {
    const unit = kind === "dc-voltage" ? "V" : "Ω";
    const count = unit === "V" ? 0.005 : 0.1;
    return value(reading.value * (1 + 0.003 * normal(random)) + count * normal(random), unit);
  }
  return { kind: "unstable" };
}

function value(number: number, unit: "V" | "Ω"): EnteredReading {
  const shown = unit === "Ω" ? Math.max(0, number) : number;
  return { kind: "value", text: `${shown.toPrecision(4)} ${unit}`, value: shown, unit, isMeterProven: true };
}

function readHand(
  { truth, shown }: TrueMachine,
  check: InspectionCheck,
  { random, isBlunder }: Blunders & { readonly isBlunder: boolean },
): EnteredReading {
  const [sound, faulty] = outcomesOf(check);
  const isFaulty = shown.get(check.key) ?? random.next() < faultyShare(check, truth);
  shown.set(check.key, isFaulty);
  return { kind: "outcome", outcome: isFaulty === isBlunder ? sound.id : faulty.id };
}

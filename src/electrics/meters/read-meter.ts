import { unreachable } from "../../base/index.ts";
import type { Harness } from "../../model/index.ts";
import type { Situation } from "../network/situation.ts";
import { solveCircuit } from "../network/solve-circuit.ts";
import type { Bench } from "./at-points.ts";
import { HAND_METER, type MeterSpec } from "./meter-spec.ts";
import { readAmps } from "./read-amps.ts";
import { readDuty } from "./read-duty.ts";
import { readLoaded } from "./read-loaded.ts";
import { readOhms } from "./read-ohms.ts";
import { readVolts } from "./read-volts.ts";
import type { PlainReading, Probe, Reading } from "./reading.ts";

/** What is measured, in which situation, with what. */
export interface MeterQuestion {
  readonly situation: Situation;
  readonly probe: Probe;
  /** The meter; a usual hand meter when left out. */
  readonly meter?: MeterSpec;
  /** States to compare with, by id; all of the machine when left out, none with an empty list. */
  readonly compareWith?: readonly string[];
}

/**
 * What a meter shows at these points in this situation.
 *
 * @param harness The machine in one build.
 * @param question Situation, probe, meter.
 * @returns A value with its band and the reasons for both; or that the point is floating, the reading over range, the measurement
 *   refused, the machine without a steady state, its sources contradictory, or the question wrong. Never a made-up number.
 */
export function readMeter(harness: Harness, question: MeterQuestion): Reading {
  const { situation } = question;
  const reading = readOnce(harness, question, true);
  const states = question.compareWith ?? harness.document.states.map((state) => state.id);
  if (!("because" in reading)) return { ...reading, holdsIn: [] };
  const holdsIn = states.filter((state) => {
    if (state === situation.state) return true;
    return isSame(reading, readOnce(harness, { ...question, situation: inState(situation, state) }, false));
  });
  return { ...reading, holdsIn };
}

// The same situation in another state, kept so that what is worked out for it is found again.
const siblings = new WeakMap<Situation, Map<string, Situation>>();

function inState(situation: Situation, state: string): Situation {
  let known = siblings.get(situation);
  if (!known) {
    known = new Map();
    siblings.set(situation, known);
  }
  let sibling = known.get(state);
  if (!sibling) {
    sibling = { ...situation, state };
    known.set(state, sibling);
  }
  return sibling;
}

function isSame(reading: PlainReading, other: PlainReading): boolean {
  if (reading.kind === "value")
    return other.kind === "value" && other.value >= reading.low && other.value <= reading.high;
  if (reading.kind === "floating") return other.kind === "floating" && other.island === reading.island;
  return reading.kind === other.kind;
}

function readOnce(
  harness: Harness,
  { situation, probe, meter = HAND_METER }: MeterQuestion,
  isBandWanted: boolean,
): PlainReading {
  const settled = solveCircuit(harness, situation);
  if (settled.kind !== "settled") return settled;
  const bench: Bench = { harness, settled, meter, isBandWanted };
  switch (probe.kind) {
    case "volts":
    case "drop":
      return readVolts(bench, probe);
    case "ohms":
      return readOhms(bench, probe);
    case "amps":
      return readAmps(bench, probe);
    case "loaded":
      return readLoaded(bench, probe);
    case "duty":
      return readDuty(bench, probe);
    default:
      return unreachable(probe);
  }
}

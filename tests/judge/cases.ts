import { readFileSync } from "node:fs";
import type { Fault } from "./truth/fault.ts";

/** A reading of a case, with and without its faults; null is over range. */
export interface CaseReading {
  readonly meter: "volts" | "ohms";
  readonly state: string;
  readonly red: string;
  readonly black: string;
  readonly unplugged: readonly string[];
  readonly faulty: number | null;
  readonly faultyShown: string;
  readonly healthy: number | null;
  readonly healthyShown: string;
  readonly permitted: boolean;
}

/** Volts of some points against battery minus, the units that are awake and the relays that are in. */
export type Panel = Readonly<Record<string, Readonly<Record<string, number | readonly string[]>>>>;

/** A workshop case: what is told, what is true, what helps and how long it should take. */
export interface WorkshopCase {
  readonly id: string;
  readonly build: string;
  readonly complaint: string;
  readonly codes: readonly string[];
  readonly bad: readonly string[];
  readonly good: readonly string[];
  readonly extra: readonly string[];
  readonly fault: string;
  readonly faults: readonly Fault[];
  /** How the machine differs from its document without being at fault; nothing in the given cases. */
  readonly faultless?: readonly Fault[];
  readonly intermittent: boolean;
  readonly look: readonly string[];
  readonly wiggle: readonly string[];
  readonly loose: readonly string[];
  readonly exchangeCures: readonly string[];
  readonly repairs: readonly string[];
  readonly allOf: readonly (string | readonly string[])[];
  readonly noElectricalFault: boolean;
  readonly maxChecks: number;
  readonly maxMinutes: number;
  readonly readings: readonly CaseReading[];
  readonly panel: Panel;
  readonly panelHealthy: Panel;
}

/** All workshop cases. */
export function readCases(): readonly WorkshopCase[] {
  const text = readFileSync("tests/fixtures/judge/workshop-cases.json", "utf8");
  return (JSON.parse(text) as { readonly cases: readonly WorkshopCase[] }).cases;
}

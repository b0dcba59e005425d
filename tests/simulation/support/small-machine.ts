import { fitBuild, openHarness, type Harness } from "ohmward/harness-model";
import {
  nodeVolts,
  solveCircuit,
  type NodeVolts,
  type OperatingPoint,
  type OperatingConditions,
} from "ohmward/simulation";
import { findPoint } from "../../../src/simulation/faults/find-target.ts";

type Json = Readonly<Record<string, unknown>>;

/** A machine for a test: everything ends at bare studs, joints have no resistance unless it is given. */
export interface SmallMachine {
  /** Ids of the studs; `N` is the ground everything is measured against. */
  readonly terminalStuds: readonly string[];
  readonly components: readonly (Json & { readonly id: string; readonly elements: readonly Json[] })[];
  readonly wires?: readonly Json[];
  readonly states?: readonly Json[];
  readonly system?: Json;
}

const wholeDocument = ({ terminalStuds, components, wires = [], states = [], system = {} }: SmallMachine): Json => ({
  format: "ohmward-harness",
  version: 3,
  about: { title: "Small machine of a test", machine: "Invented" },
  system: {
    nominalVolt: 12,
    wireStandard: "iec-60228-class-5",
    temperatureC: 20,
    supply: { positive: "P", negative: "N" },
    ...system,
  },
  options: [],
  builds: [{ id: "only", label: "Only build", options: [] }],
  states: states.map((state) => ({ label: "State", conditions: [], ...state })),
  zones: [],
  topologyNodes: [],
  segments: [],
  components: components.map((component) => ({ label: component.id, kind: "other", ...component })),
  connectors: [],
  splices: [],
  terminalStuds: terminalStuds.map((id) => ({ id, label: id, role: id === "N" ? "ground" : "terminal", ringOhm: 0 })),
  nets: [],
  wires,
  adapters: [],
  codes: [],
  cautions: [],
});

/** Opens and fits a small machine. */
export function smallMachine(machine: SmallMachine): Harness {
  const opened = openHarness(JSON.stringify(wholeDocument(machine)));
  if (!opened.ok) throw new Error(opened.error.map((problem) => `${problem.at.path}: ${problem.message}`).join("\n"));
  const harness = fitBuild(opened.value.document, "only");
  if (!harness) throw new Error("The small machine has lost its build");
  return harness;
}

/** Solves a machine that must settle. */
export function operatingPointIn(harness: Harness, operatingConditions: OperatingConditions = {}): OperatingPoint {
  const answer = solveCircuit(harness, operatingConditions);
  if (answer.kind !== "settled") throw new Error(JSON.stringify(answer));
  return answer;
}

/** Number of the node that a point of any spelling names in a settled machine. */
export function pointNumber(harness: Harness, operatingPoint: OperatingPoint, name: string): number | undefined {
  return findPoint(harness, operatingPoint.list, name);
}

/** What stands between two points; black is the ground `N` of a small machine when left out. */
export function standing(
  harness: Harness,
  operatingConditions: OperatingConditions,
  red: string,
  black = "N",
): NodeVolts {
  const operatingPoint = operatingPointIn(harness, operatingConditions);
  const [a, b] = [red, black].map((name) => pointNumber(harness, operatingPoint, name));
  if (a === undefined || b === undefined) throw new Error(`No point ${a === undefined ? red : black}`);
  return nodeVolts(operatingPoint, a, b);
}

/** The voltage between two points that must have one. */
export function voltsIn(harness: Harness, operatingConditions: OperatingConditions, red: string, black = "N"): number {
  const found = standing(harness, operatingConditions, red, black);
  if (found.kind !== "dc-voltage") throw new Error(`${red} is floating in island ${found.island}`);
  return found.volt;
}

/** A battery of 12 V without inner resistance between P and N. */
export const battery = {
  id: "G",
  elements: [{ id: "cells", kind: "source", between: ["P", "N"], role: "battery", voltageVolt: 12, resistanceOhm: 0 }],
} as const;

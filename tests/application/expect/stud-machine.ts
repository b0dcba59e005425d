import type { Machine } from "ohmward/application";
import { open } from "../demo-machine.ts";

type Json = Readonly<Record<string, unknown>>;

/** An invented machine whose parts all end at bare terminalStuds: `P` the positive and `N` the negative supply terminal, and others as named. */
export function studMachine(
  elements: readonly Json[],
  more: { terminalStuds?: readonly string[]; states?: readonly Json[] } = {},
): Machine {
  const terminalStuds = ["P", "N", ...(more.terminalStuds ?? [])];
  const document = {
    format: "ohmward-harness",
    version: 3,
    about: { title: "Studs", machine: "Invented studs" },
    system: {
      nominalVolt: 12,
      wireStandard: "iec-60228-class-5",
      temperatureC: 20,
      supply: { positive: "P", negative: "N" },
    },
    options: [],
    builds: [{ id: "only", label: "Only build", options: [] }],
    states: more.states ?? [{ id: "ON", label: "On", conditions: ["key-on"] }],
    zones: [],
    topologyNodes: [],
    segments: [],
    components: [{ id: "X", label: "Box", kind: "other", elements }],
    connectors: [],
    splices: [],
    terminalStuds: terminalStuds.map((id) => ({ id, label: id, role: id === "N" ? "ground" : "terminal", ringOhm: 0 })),
    nets: [],
    wires: [],
    adapters: [],
    codes: [],
    cautions: [],
  };
  return open(JSON.stringify(document));
}

/** A battery of 12 V across `P` and `N`. */
export const battery = {
  id: "cells",
  kind: "source",
  role: "battery",
  between: ["P", "N"],
  voltageVolt: 12,
  resistanceOhm: 0.01,
};

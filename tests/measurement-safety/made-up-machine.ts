import { fitBuild, openHarness, type Harness, type State } from "ohmward/harness-model";

const sockets = (component: string, cavities: readonly string[], more: object = {}): object => ({
  kind: "component",
  component,
  label: `Plug of ${component}`,
  sides: [
    { id: "harness", contacts: "sockets" },
    { id: "device", contacts: "pins" },
  ],
  face: { view: "wire-side", ofSide: "harness", shape: "rectangular", latch: "top", key: "left" },
  cavities: cavities.map((id, x) => ({ id, x, y: 0, terminalMm: 1.5 })),
  sealed: true,
  zone: "CALM",
  access: { minutes: 2, states: "any" },
  permits: ["unplug", "front-probe", "adapter"],
  ...more,
});
const wire = (id: string, from: string, to: string, net?: string): object => ({
  id,
  ends: [from, to],
  ...(net === undefined ? {} : { net }),
});
const post = (id: string, role: string, more: object = {}): object => ({
  id,
  label: `Post ${id}`,
  role,
  zone: "CALM",
  ...more,
});
const part = (id: string, kind: string, elements: readonly object[] = []): object => ({
  id,
  label: id,
  kind,
  zone: "CALM",
  elements,
});

/**
 * A small machine of our own with what the demo machine does not have: a belt tensioner (SQ) on module AM, of whose two lines only one is
 * labelled; a high-voltage heater (HH) behind a fuse; a module with a battery-power pin; lines without label, terminals without size,
 * places without zone; a post between turning rollers; an isolator in the negative cable.
 */
const DOCUMENT = {
  format: "ohmward-harness",
  version: 3,
  about: { title: "Made-up machine", machine: "Made-up machine", source: "Invented for tests" },
  system: {
    nominalVolt: 12,
    wireStandard: "iec-60228-class-5",
    temperatureC: 20,
    supply: { positive: "BP", negative: "CH" },
    usualAccess: { minutes: 5, states: "any" },
  },
  options: [],
  builds: [{ id: "base", label: "Base", options: [] }],
  states: [
    { id: "ISO", label: "Isolated", conditions: ["battery-disconnected"] },
    { id: "OFF", label: "Key off", conditions: ["key-off"] },
    { id: "ON", label: "Key on", conditions: ["key-on"] },
    { id: "RUN", label: "Running", conditions: ["key-on", "running"] },
  ],
  zones: [
    { id: "CALM", label: "Cab", hazards: [] },
    { id: "ROLLERS", label: "Between the rollers", hazards: [{ kind: "rotating", text: "Rollers never stand still" }] },
  ],
  topologyNodes: [],
  segments: [],
  components: [
    part("BT", "battery", [
      { id: "cells", kind: "source", role: "battery", between: ["BP", "BN"], voltageVolt: 12.6, resistanceOhm: 0.01 },
    ]),
    part("IS", "isolator", [{ id: "blade", kind: "switch", between: ["BN", "CH"], resistanceOhm: 0, rest: "closed" }]),
    part("AM", "module"),
    part("SQ", "other", [{ id: "pill", kind: "resistor", between: ["SQ.X:1", "SQ.X:2"], resistanceOhm: 2 }]),
    part("HF", "fuse-bar", [
      {
        id: "F",
        kind: "fuse",
        between: ["HF.X:1", "HF.X:2"],
        ratedAmpere: 40,
        resistanceOhm: 0.01,
        style: "blade",
        testWindows: true,
      },
    ]),
    part("HH", "heater", [{ id: "coil", kind: "load", between: ["HH.X:1", "HH.X:2"], resistanceOhm: 50 }]),
    part("PM", "module", [{ id: "supply", kind: "load", between: ["PM.X:1", "CH"], resistanceOhm: 10 }]),
    { id: "ND", label: "ND", kind: "other", elements: [] },
    part("LV", "valve", [{ id: "coil", kind: "coil", between: ["LV.X:1", "LV.X:2"], resistanceOhm: 5 }]),
  ],
  connectors: [
    { id: "AM.X", ...sockets("AM", ["1", "2", "3"]) },
    { id: "SQ.X", ...sockets("SQ", ["1", "2"]) },
    { id: "HF.X", ...sockets("HF", ["1", "2"]) },
    { id: "HH.X", ...sockets("HH", ["1", "2"]) },
    { id: "PM.X", ...sockets("PM", ["1", "2"]) },
    { id: "LV.X", ...sockets("LV", ["1", "2"]) },
    {
      id: "ND.X",
      ...sockets("ND", ["1"], { sealed: false, zone: undefined, access: undefined }),
      cavities: [{ id: "1", x: 0, y: 0 }],
    },
  ].map((connector) => JSON.parse(JSON.stringify(connector)) as object),
  splices: [],
  terminalStuds: [
    post("BP", "supply", { component: "BT", access: { minutes: 1, states: "any" } }),
    post("BN", "ground", { component: "BT", access: { minutes: 1, states: "any" } }),
    post("CH", "ground", { access: { minutes: 3, states: "any" } }),
    { id: "FR", label: "Post of an unknown line in an unknown place", role: "terminal" },
    post("RO", "terminal", { zone: "ROLLERS", access: { minutes: 4, states: "any" } }),
  ],
  nets: [
    { id: "PILL", kind: "airbag" },
    { id: "HV", kind: "high-voltage" },
    { id: "BAT", kind: "battery-power" },
    { id: "GND", kind: "ground" },
    { id: "SIG", kind: "signal" },
    { id: "PULSE", kind: "boosted" },
  ],
  wires: [
    wire("W1", "AM.X:1", "SQ.X:1", "PILL"),
    wire("W2", "AM.X:2", "SQ.X:2"),
    wire("W3", "AM.X:3", "PM.X:2", "SIG"),
    wire("W4", "HF.X:1", "HH.X:1", "HV"),
    wire("W5", "HF.X:2", "HH.X:2"),
    wire("W6", "BP", "PM.X:1", "BAT"),
    wire("W7", "LV.X:1", "RO", "PULSE"),
    wire("W8", "LV.X:2", "CH", "GND"),
    wire("W9", "ND.X:1", "FR"),
  ],
  adapters: [
    { id: "TA", label: "T-lead of AM", method: "in-line", fits: ["AM.X"], points: "all" },
    {
      id: "TP",
      label: "T-lead of PM",
      method: "in-line",
      fits: ["PM.X"],
      points: ["PM.X:1", "PM.X:2", "PM.X.device:1"],
    },
  ],
  codes: [],
  cautions: [],
};

/** The made-up machine, fitted, with other lists than its own if some are given; throws if its document has problems. */
export function fitMadeUpMachine(other: object = {}): Harness {
  const opened = openHarness(JSON.stringify({ ...DOCUMENT, ...other }));
  if (!opened.ok) throw new Error(opened.error.map((found) => `${found.at.path}: ${found.message}`).join("\n"));
  const harness = fitBuild(opened.value.document, "base");
  if (!harness) throw new Error("The made-up machine has no build");
  return harness;
}

/** A state of a machine by id. */
export function stateOf(harness: Harness, id: string): State {
  const state = harness.document.states.find((each) => each.id === id);
  if (!state) throw new Error(`No state "${id}"`);
  return state;
}

import { HarnessDocument } from "ohmward/harness-model";

/** Joints between the feed and each lamp, and between the lamp and ground. */
const JOINTS = 3;

/**
 * A large machine of one sort: lamps, each fed through a fuse and inline connectors and grounded through others.
 *
 * @param wires About how many wires.
 */
export function bigHarness(wires: number): HarnessDocument {
  const perLamp = 2 * (JOINTS + 1);
  const count = Math.max(1, Math.round(wires / perLamp));
  const lamps = Array.from({ length: count }, (_, index) => lamp(index));
  const battery = {
    id: "cells",
    kind: "source",
    between: ["G+", "G-"],
    role: "battery",
    voltageVolt: 12.6,
    resistanceOhm: 0.005,
  };
  return HarnessDocument.parse({
    format: "ohmward-harness",
    version: 3,
    about: { title: "Many lamps", machine: "Many lamps (generated)" },
    system: {
      nominalVolt: 12,
      wireStandard: "iec-60228-class-5",
      temperatureC: 20,
      supply: { positive: "G+", negative: "G-" },
    },
    options: [],
    builds: [{ id: "base", label: "Base", options: [] }],
    states: [
      { id: "ON", label: "Key on", conditions: ["key-on"] },
      { id: "OFF", label: "Isolated", conditions: ["battery-disconnected"], settings: [{ of: "G.cells", is: "off" }] },
    ],
    zones: [],
    topologyNodes: [],
    segments: [],
    splices: [],
    nets: [
      { id: "FEED", kind: "supply" },
      { id: "GND", kind: "ground" },
    ],
    adapters: [],
    codes: [],
    cautions: [],
    components: [
      { id: "G", label: "Battery", kind: "battery", elements: [battery] },
      ...lamps.map((each) => each.component),
    ],
    connectors: lamps.flatMap((each) => each.connectors),
    terminalStuds: [
      { id: "G+", label: "Plus", role: "supply", component: "G", access: { minutes: 1 } },
      { id: "G-", label: "Minus", role: "ground", component: "G", access: { minutes: 1 } },
    ],
    wires: lamps.flatMap((each) => each.wires),
  });
}

function lamp(index: number): {
  readonly component: object;
  readonly connectors: readonly object[];
  readonly wires: readonly object[];
} {
  const id = `L${index}`;
  const connectors = ["a", "b"].flatMap((side) =>
    Array.from({ length: JOINTS }, (_, joint) => inline(`X${index}${side}${joint}`)),
  );
  const chain = (side: string, start: string, end: string): readonly object[] => {
    const stops = [start, ...Array.from({ length: JOINTS }, (_, joint) => `X${index}${side}${joint}`), end];
    return stops.slice(1).map((to, step) => ({
      id: `W${index}${side}${step}`,
      ends: [step === 0 ? start : `${stops[step] ?? ""}.f:1`, step === JOINTS ? to : `${to}.m:1`],
      crossSectionMm2: 1.5,
      lengthMm: 900,
      net: side === "a" ? "FEED" : "GND",
    }));
  };
  return {
    component: {
      id,
      label: `Lamp ${index}`,
      kind: "lamp",
      elements: [{ id: "bulb", kind: "load", between: [`${id}.X:1`, `${id}.X:2`], resistanceOhm: 6.9 }],
    },
    connectors: [...connectors, device(id)],
    wires: [...chain("a", "G+", `${id}.X:1`), ...chain("b", `${id}.X:2`, "G-")],
  };
}

const cavity = (id: string): object => ({ id, x: Number(id), y: 0, terminalMm: 2.8 });
const face = (ofSide: string): object => ({
  view: "wire-side",
  ofSide,
  shape: "rectangular",
  latch: "top",
  key: "none",
});

function inline(id: string): object {
  const sides = [
    { id: "m", contacts: "pins" },
    { id: "f", contacts: "sockets" },
  ];
  const permits = ["unplug", "front-probe"];
  return {
    id,
    label: id,
    kind: "inline",
    sides,
    face: face("m"),
    cavities: [cavity("1")],
    sealed: true,
    permits,
    access: { minutes: 3 },
  };
}

function device(component: string): object {
  const id = `${component}.X`;
  const sides = [{ id: "harness", contacts: "sockets" }, { id: "device" }];
  const permits = ["unplug", "front-probe"];
  const cavities = [cavity("1"), cavity("2")];
  return {
    id,
    label: id,
    kind: "component",
    component,
    sides,
    face: face("harness"),
    cavities,
    sealed: true,
    permits,
    access: { minutes: 2 },
  };
}

import type { HarnessDocument } from "ohmward/harness-model";
import type { z } from "zod";
import type { Machine } from "ohmward/application";
import { open } from "./demo-machine.ts";

type DocumentInput = z.input<typeof HarnessDocument>;

const about = { title: "Test bench", machine: "Test bench lamp" };

/** An invented lamp: battery G1, fuse F1, lamp E1 on connector E1.X, an airbag igniter R9 on its unit A9; builds as given. */
export function smallMachine(builds: DocumentInput["builds"], more: Partial<DocumentInput> = {}): Machine {
  const device = (id: string, component: string, zone: string): DocumentInput["connectors"][number] => ({
    id,
    label: `Plug of ${component}`,
    kind: "component",
    component,
    sides: [{ id: "harness" }, { id: "device" }],
    face: { view: "wire-side", ofSide: "harness", shape: "rectangular", latch: "top", key: "none" },
    cavities: [
      { id: "1", x: 0, y: 0 },
      { id: "2", x: 1, y: 0 },
      { id: "3", x: 2, y: 0 },
    ],
    sealed: false,
    zone,
    permits: ["unplug", "front-probe"],
  });
  const document: DocumentInput = {
    format: "ohmward-harness",
    version: 3,
    about,
    system: {
      nominalVolt: 12,
      wireStandard: "iec-60228-class-5",
      temperatureC: 20,
      supply: { positive: "G1+", negative: "G1-" },
    },
    options: [{ id: "OPT-A", label: "Option A" }],
    builds,
    states: [
      { id: "OFF", label: "Isolated", conditions: ["battery-disconnected"] },
      { id: "ON", label: "Key on", conditions: ["key-on"] },
    ],
    zones: [
      { id: "Z1", label: "Dash" },
      { id: "Z2", label: "Steering wheel" },
    ],
    topologyNodes: [],
    segments: [],
    components: [
      { id: "A9", label: "Igniter unit", kind: "module", zone: "Z2", elements: [] },
      {
        id: "G1",
        label: "Battery",
        kind: "battery",
        elements: [
          {
            id: "cell",
            kind: "source",
            role: "battery",
            between: ["G1+", "G1-"],
            voltageVolt: 12,
            resistanceOhm: 0.01,
          },
        ],
      },
      {
        id: "F1",
        label: "Fuse holder",
        kind: "distribution",
        elements: [
          {
            id: "fuse",
            kind: "fuse",
            between: ["F1.1", "F1.2"],
            ratedAmpere: 5,
            resistanceOhm: 0.02,
            style: "blade",
            testWindows: true,
          },
        ],
      },
      {
        id: "E1",
        label: "Lamp",
        kind: "lamp",
        zone: "Z1",
        elements: [{ id: "bulb", kind: "lamp", between: ["E1.X:1", "E1.X:2"], powerWatt: 5, voltageVolt: 12 }],
      },
      {
        id: "R9",
        label: "Igniter",
        kind: "other",
        zone: "Z2",
        elements: [{ id: "squib", kind: "resistor", between: ["R9.X:1", "R9.X:2"], resistanceOhm: 2 }],
      },
    ],
    connectors: [device("E1.X", "E1", "Z1"), device("R9.X", "R9", "Z2"), device("A9.X", "A9", "Z2")],
    splices: [],
    terminalStuds: [
      { id: "G1+", label: "Positive post", role: "supply" },
      { id: "G1-", label: "Negative post", role: "ground" },
      { id: "F1.1", label: "Fuse, feed", role: "terminal", component: "F1" },
      { id: "F1.2", label: "Fuse, load", role: "terminal", component: "F1" },
    ],
    nets: [
      { id: "LAMP", kind: "supply" },
      { id: "SQUIB", kind: "airbag" },
      { id: "GND", kind: "ground" },
    ],
    wires: [
      { id: "W1", ends: ["G1+", "F1.1"], colour: "RD", crossSectionMm2: 1, lengthMm: 300 },
      { id: "W2", ends: ["F1.2", "E1.X:1"], colour: "RD/WH", crossSectionMm2: 0.5, lengthMm: 900, net: "LAMP" },
      { id: "W3", ends: ["E1.X:2", "G1-"], colour: "BK", crossSectionMm2: 0.5, net: "GND" },
      { id: "W8", ends: ["A9.X:1", "R9.X:1"], colour: "YE", net: "SQUIB", when: "!OPT-A" },
      { id: "W9", ends: ["R9.X:2", "A9.X:2"], colour: "YE", net: "SQUIB", when: "!OPT-A" },
    ],
    adapters: [],
    codes: [],
    cautions: [
      { id: "everywhere", text: "Everywhere." },
      { id: "dash", text: "At the dash.", on: { zones: ["Z1"] } },
      { id: "wheel", text: "At the wheel.", on: { components: ["R9"] } },
      { id: "lamp", text: "On the lamp net.", on: { nets: ["LAMP"] } },
      { id: "on", text: "With the key on.", on: { states: ["ON"] } },
    ],
    ...more,
  };
  return open(JSON.stringify(document));
}

import { fitBuild, openHarness, type Harness } from "ohmward/harness-model";

/** A wire of that machine. */
export interface Wire {
  readonly id: string;
  readonly ends: readonly [string, string];
  readonly net?: string;
  readonly note?: string;
}

/** A connector of a part, open to everything that is ever permitted. */
export const plug = (id: string, component: string, cavities: number, label = `Plug ${id}`): object => ({
  id,
  label,
  kind: "component",
  component,
  sides: [{ id: "harness", contacts: "sockets" }, { id: "device" }],
  face: { view: "wire-side", ofSide: "harness", shape: "rectangular", latch: "top", key: "left" },
  cavities: Array.from({ length: cavities }, (_, at) => ({ id: String(at + 1), x: at, y: 0, terminalMm: 1.5 })),
  sealed: false,
  zone: "Z",
  access: { minutes: 1, states: "any" },
  permits: ["unplug", "front-probe", "adapter", "screw"],
});
const part = (id: string, kind: string, elements: readonly object[] = [], label = id): object => ({
  id,
  label,
  kind,
  zone: "Z",
  elements,
});
const bar = (id: string, from: string, to: string): object => ({ id, kind: "bar", between: [from, to] });
const ohms = (id: string, from: string, to: string, resistanceOhm: number): object => ({
  id,
  kind: "resistor",
  between: [from, to],
  resistanceOhm,
});

/**
 * An airbag system of our own, with wires in place of those with the same id: control unit A7 with its feed behind fuse F9, a squib behind a contact coil of two bars, a belt tensioner,
 * and beside them a lamp on the same supply. Only one name tells anything; all lines are without labels.
 */
export function airbagMachine(wires: readonly Wire[] = [], other: object = {}): Harness {
  const all = (
    [
      { id: "1", ends: ["A7.X:1", "CC.X1:1"] },
      { id: "2", ends: ["A7.X:2", "CC.X1:2"] },
      { id: "3", ends: ["CC.X2:1", "SQ.X:1"] },
      { id: "4", ends: ["CC.X2:2", "SQ.X:2"] },
      { id: "5", ends: ["A7.X:3", "BT.X:1"] },
      { id: "6", ends: ["A7.X:4", "BT.X:2"] },
      { id: "7", ends: ["FB.X:2", "A7.X:5"], net: "F9" },
      { id: "8", ends: ["A7.X:6", "GND"], net: "31" },
      { id: "9", ends: ["BATT", "FB.X:1"], net: "30" },
      { id: "10", ends: ["FB.X:3", "LA.X:1"], net: "F10" },
      { id: "11", ends: ["LA.X:2", "GND"], net: "31" },
    ] satisfies readonly Wire[]
  ).map((wire): Wire => wires.find(({ id }) => id === wire.id) ?? wire);
  const fuse = (id: string, to: string): object => ({
    id,
    kind: "fuse",
    between: ["FB.X:1", to],
    ratedAmpere: 10,
    resistanceOhm: 0.01,
    style: "blade",
    testWindows: true,
  });
  const document = {
    format: "ohmward-harness",
    version: 3,
    about: { title: "Airbags", machine: "Made up" },
    system: { nominalVolt: 12, wireStandard: "iec-60228-class-5", temperatureC: 20 },
    options: [],
    builds: [{ id: "base", label: "Base", options: [] }],
    states: [
      { id: "OFF", label: "Isolated", conditions: ["battery-disconnected"] },
      { id: "ON", label: "Key on", conditions: ["key-on"] },
      { id: "RUN", label: "Running", conditions: ["key-on", "running"] },
    ],
    zones: [{ id: "Z", label: "Cab", hazards: [] }],
    topologyNodes: [],
    segments: [],
    components: [
      part("A7", "module", [], "Control unit seven"),
      part("CC", "other", [bar("a", "CC.X1:1", "CC.X2:1"), bar("b", "CC.X1:2", "CC.X2:2")], "Contact coil"),
      part("SQ", "other", [ohms("pill", "SQ.X:1", "SQ.X:2", 2)], "driver_Airbag"),
      part("BT", "other", [ohms("pill", "BT.X:1", "BT.X:2", 2)], "Gurtstraffer links"),
      part("FB", "distribution", [fuse("F9", "FB.X:2"), fuse("F10", "FB.X:3")], "Fuse box"),
      part("LA", "lamp", [{ id: "l", kind: "lamp", between: ["LA.X:1", "LA.X:2"], powerWatt: 5, voltageVolt: 12 }]),
    ],
    connectors: [
      plug("A7.X", "A7", 6),
      plug("CC.X1", "CC", 2),
      plug("CC.X2", "CC", 2),
      plug("SQ.X", "SQ", 2),
      plug("BT.X", "BT", 2),
      plug("FB.X", "FB", 3),
      plug("LA.X", "LA", 2),
    ],
    splices: [],
    terminalStuds: [
      { id: "BATT", label: "Battery +", role: "supply", zone: "Z", access: { minutes: 1, states: "any" } },
      { id: "GND", label: "Ground", role: "ground", zone: "Z", access: { minutes: 1, states: "any" } },
    ],
    nets: [],
    wires: all,
    adapters: [
      { id: "TL", label: "T-lead", method: "in-line", fits: ["A7.X", "CC.X1", "CC.X2", "SQ.X", "BT.X"], points: "all" },
    ],
    codes: [],
    cautions: [],
    ...other,
  };
  const opened = openHarness(JSON.stringify(document));
  if (!opened.ok) throw new Error(opened.error.map((each) => each.message).join("\n"));
  const harness = fitBuild(opened.value.document, "base");
  if (!harness) throw new Error("no build");
  return harness;
}

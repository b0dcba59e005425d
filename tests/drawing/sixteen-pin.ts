/** What each used cavity of the connector is for, as net kind and name. Source: ISO 15031-3 / SAE J1962. */
const USES: readonly (readonly [cavity: number, kind: string, net: string, colour: string])[] = [
  [4, "ground", "chassis ground", "BK"],
  [5, "ground", "signal ground", "BN"],
  [6, "data-bus", "CAN H", "YE"],
  [7, "data-bus", "K line", "WH"],
  [14, "data-bus", "CAN L", "GN"],
  [15, "data-bus", "L line", "GY"],
  [16, "battery-power", "battery +", "RD"],
];

/** A document with one 16-pin diagnostic connector, every used cavity wired to a post of its own; the machine is invented. */
export function sixteenPinDocument(): unknown {
  return {
    format: "ohmward-harness",
    version: 3,
    about: { title: "16-pin diagnostic connector", machine: "Test bench (invented)" },
    system: { nominalVolt: 12, wireStandard: "iso-6722", temperatureC: 20 },
    options: [],
    builds: [{ id: "base", label: "Base", options: [] }],
    states: [],
    zones: [],
    topologyNodes: [],
    segments: [],
    components: [],
    connectors: [
      {
        id: "XD",
        label: "Diagnostic connector, 16 cavities",
        kind: "diagnostic",
        sides: [{ id: "harness", contacts: "sockets" }],
        face: { view: "mating-side", ofSide: "harness", shape: "rectangular", latch: "none", key: "bottom" },
        cavities: Array.from({ length: 16 }, (_, at) => ({ id: `${at + 1}`, x: at % 8, y: Math.floor(at / 8) })),
        sealed: false,
        permits: ["mating-adapter"],
      },
    ],
    splices: [],
    terminalStuds: USES.map(([cavity, , net]) => ({ id: `P${cavity}`, label: `Post for ${net}`, role: "terminal" })),
    nets: USES.map(([, kind, id]) => ({ id, kind })),
    wires: USES.map(([cavity, , net, colour]) => ({
      id: `W${cavity}`,
      ends: [`XD:${cavity}`, `P${cavity}`],
      colour,
      net,
    })),
    adapters: [],
    codes: [],
    cautions: [],
  };
}

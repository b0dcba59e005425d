import { endAddresses, type HarnessDocument } from "ohmward/harness-model";

/** A contact that somebody was told they may make. */
export interface Told {
  readonly build: string;
  readonly state: string;
  readonly method: string;
  /** Address of the electrical point, or the wire's id. */
  readonly at: string;
  readonly meters: readonly string[];
  readonly zone?: string | undefined;
  readonly segment?: string | undefined;
  readonly terminalMm?: number | undefined;
  readonly adapter?: string | undefined;
}

// What must never be offered on the demo machine, written down from the machine's own list of what may be touched and from the trade's
// list of forbidden contacts. It speaks of ids and of the document only and knows nothing of the table of rules.
const LAMP_NETS = new Set(["BATT", "BATT-FL1", "HEAT-1", "HEAT-2", "START-50", "PUMP"]);
const MODULES = new Set(["A1.X1", "A1.X2", "A2.X1", "A3.X1", "A3.X2"]);
const OPENED = /^(?:B[1-7]\.X|Y7\.X|M2\.X|RT[12]\.X|XE1|XF1|XT1)$/u;
const SCREWED = /^(?:S1|S5|Y[1-4])\.X$/u;
const STUDS =
  /^(?:G2[+-]|S10\.[12]|FL1\.2|A3\.S1|M1\.(?:30|50)|G1\.(?:B\+|S)|FB1\.1|K1[01]\.(?:30|87)|R1\.[12]|GND-(?:E1|C1|C2))$/u;
const INJECTOR_PINS = /^(?:A1\.X1:(?:5[3-9]|60)|XP[12]:[1-4]|Y[1-4]\.X:[12])$/u;
const INJECTOR_WIRES = /^W1(?:0[3-9]|1[0-8])$/u;
/** Zones where something turns or crushes, and in which states. */
const MOVING: Readonly<Record<string, readonly string[]>> = {
  Z2i: ["CRANK", "RUN"],
  Z3: ["CRANK", "RUN"],
  Z4: ["CRANK", "RUN"],
  Z5: ["CRANK", "RUN"],
  Z6: ["RUN"],
  Z10: ["RUN"],
};
const BY_HAND = new Set(["clamp", "tip", "fuse-window", "screw", "front-probe"]);
const KNOWN = new Set([...BY_HAND, "clip", "mating-adapter", "in-line", "relay-extension"]);

/** Knows of a contact whether it is forbidden on the demo machine. */
export function forbiddenOn(document: HarnessDocument): (told: Told) => string | undefined {
  const sides = new Map<string, string>();
  for (const connector of document.connectors)
    for (const side of connector.sides)
      for (const name of [side.name, `${connector.id}.${side.id}`])
        if (name !== undefined) sides.set(name, connector.id);
  /** `XF1e:2` and `XF1.e:2` become `XF1:2`, a stud stays what it is. */
  const pinOf = (at: string): string => {
    const colon = at.lastIndexOf(":");
    return colon < 0 ? at : `${sides.get(at.slice(0, colon)) ?? at.slice(0, colon)}${at.slice(colon)}`;
  };
  const lampPins = new Map<string, boolean>();
  for (const wire of document.wires)
    for (const end of endAddresses(wire)) {
      const pin = pinOf(end);
      lampPins.set(pin, (lampPins.get(pin) ?? true) && LAMP_NETS.has(wire.net ?? ""));
    }
  const zones = new Map<string, string | undefined>([
    ...document.connectors.map((each) => [each.id, each.zone] as const),
    ...document.terminalStuds.map((each) => [each.id, each.zone] as const),
    ...document.segments.map((each) => [each.id, each.zone] as const),
  ]);
  const connectors = new Map(document.connectors.map((each) => [each.id as string, each]));

  return (told) => {
    const { method, at, state, meters } = told;
    const pin = pinOf(at);
    const [connector = "", cavity = ""] = pin.includes(":") ? pin.split(":") : [];
    const isDevice = at.includes(".device:");
    const isTurning = state === "RUN" || state === "CRANK";
    const isThroughAdapter = method === "in-line" || method === "relay-extension" || method === "mating-adapter";

    if (!KNOWN.has(method)) return "back of a connector, insulation, tip in a socket";
    if (connector === "Y8.X") return "the moulded plug";
    if (isTurning && (INJECTOR_PINS.test(pin) || INJECTOR_WIRES.test(at)) && method !== "clamp")
      return "an injector line";
    if (MODULES.has(connector) && !isThroughAdapter && method !== "fuse-window") return "a module without an adapter";
    if (isDevice && !isThroughAdapter && method !== "fuse-window") return "a device half";
    if (method === "front-probe") {
      if (!OPENED.test(connector)) return "opening this connector";
      if (
        told.terminalMm !== undefined &&
        told.terminalMm !== connectors.get(connector)?.cavities.find((each) => each.id === cavity)?.terminalMm
      )
        return "a test lead of another size";
      if (state === "RUN") return "an opened connector on a running machine";
    }
    if (method === "screw" && !SCREWED.test(connector)) return "a screw that is none";
    if (method === "screw" && connector.startsWith("Y") && state !== "OFF")
      return "injector nuts with the machine not isolated";
    if ((method === "tip" || method === "clip") && !STUDS.test(at)) return "a stud that is none";
    if (method === "mating-adapter" && connector !== "XD1") return "a mating adapter anywhere else";
    if (method === "clamp" && meters.some((meter) => meter !== "clamp")) return "a clamp for anything but amperes";
    if (method !== "clamp" && meters.includes("clamp")) return "amperes without a clamp";
    if (meters.includes("resistance") && state !== "OFF") return "ohms on a live circuit";
    if (meters.includes("resistance") && (at === "G2+" || at === "S10.1")) return "ohms on the battery";
    if (meters.includes("test-lamp") && lampPins.get(pin) !== true) return "a test lamp";
    if (meters.includes("test-lamp") && /^A[12]\./u.test(connector)) return "a test lamp at a control unit";
    for (const zone of new Set([told.zone, zones.get(connector), zones.get(at), zones.get(told.segment ?? "")])) {
      if (zone !== undefined && BY_HAND.has(method) && (MOVING[zone] ?? []).includes(state))
        return "hands near moving parts";
      if (zone === "Z3" && isTurning) return "anything near the turning fan";
    }
    return undefined;
  };
}

import { seededRandom } from "ohmward/base";
import { planModule, type ModulePlan } from "./branch-plan.ts";
import { HarnessDraft, type DocumentInput, type PinBank } from "./harness-draft.ts";
import { layBattery, layBox, layModule, type BusEnd } from "./lay-machine.ts";
import { Trunk } from "./trunk.ts";
import { wireBus } from "./wire-bus.ts";

/** What harness to make. */
export interface GenerateOptions {
  /** The same number gives the same document. */
  readonly seed: number;
  /** How many wires the document lists, 20 to 250,000; met exactly. A build has fewer: some are optional. */
  readonly wires: number;
}

const MODULES_PER_BOX = 8;
const WIRES_PER_MODULE = 160;

/**
 * Makes a harness document of an invented machine that opens without problems: a trunk with branches up and down, modules,
 * sensors on shared supplies and returns, valves, relays and fuses in distribution boxes, inline connectors, splices, ground
 * studs, a data bus, options with a jumper plug, builds `base` and `full`.
 *
 * @throws RangeError where the number of wires is outside the range.
 */
export function generateHarness({ seed, wires }: GenerateOptions): DocumentInput {
  if (!Number.isInteger(wires) || wires < 20 || wires > 250_000)
    throw new RangeError(`Cannot make a harness of ${wires} wires`);
  const draft = new HarnessDraft(seededRandom(seed));
  const modules = planModules(draft, wires);
  const frame: DocumentInput["components"][number] = { id: "FR1", label: "Machine frame", kind: "other", elements: [] };
  const trunk = new Trunk(draft);
  let post = layBattery(draft, trunk, frame);
  const ends: BusEnd[] = [];
  let box: PinBank | undefined;
  modules.forEach((plan, at) => {
    if (at % MODULES_PER_BOX === 0) {
      box?.finish(draft, "distribution", `Distribution box ${box.id}`);
      ({ box, post } = layBox(draft, trunk, post));
    }
    if (!box) throw new RangeError("Cannot lay a module before its box");
    const bus = modules.length > 1;
    ends.push(...layModule(draft, plan, { trunk, frame, box, boxPost: post.address, bus }));
  });
  box?.finish(draft, "distribution", `Distribution box ${box.id}`);
  wireBus(draft, ends);
  draft.components.push(frame);
  return toDocument(draft, trunk.width, seed);
}

/** Wires every machine has: 3 battery cables, per module supply and ground, per box after the first a cable, and the bus. */
function planModules(draft: HarnessDraft, wires: number): readonly ModulePlan[] {
  const count = Math.max(1, Math.round(wires / WIRES_PER_MODULE));
  const boxes = Math.ceil(count / MODULES_PER_BOX);
  const bus = count > 1 ? 4 * count + 2 : 0;
  let left = wires - 3 - 2 * count - (boxes - 1) - bus;
  return Array.from({ length: count }, (_, at) => {
    const share =
      at === count - 1 ? left : Math.min(left, Math.round((left / (count - at)) * (0.75 + draft.random.next() / 2)));
    left -= share;
    return planModule(draft.random, share, at === 0);
  });
}

function toDocument(draft: HarnessDraft, width: number, seed: number): DocumentInput {
  return {
    format: "ohmward-harness",
    version: 3,
    about: {
      title: `Generated harness ${seed}`,
      machine: "Generated machine",
      source: "made by tests/generate; every value is invented",
    },
    system: {
      nominalVolt: 12,
      chargingVolt: 14,
      wireStandard: "iec-60228-class-5",
      temperatureC: 20,
      supply: { positive: "G1+", negative: "G1-" },
    },
    options: [
      { id: "OPT-COLD", label: "Cold package" },
      { id: "OPT-REAR", label: "Rear equipment" },
    ],
    builds: [
      { id: "base", label: "Base", options: [] },
      { id: "full", label: "All options", options: ["OPT-COLD", "OPT-REAR"] },
    ],
    ...statesAndZones(),
    // Kept inside the drawing range by laying the middle of the trunk at 0.
    topologyNodes: draft.tree.places(-Math.floor(width / 2)),
    segments: draft.tree.segments(),
    components: draft.components,
    connectors: draft.connectors,
    splices: draft.splices,
    terminalStuds: draft.terminalStuds,
    nets: [...draft.nets].map(([id, kind]) => ({ id, kind })),
    wires: draft.wires,
    adapters: [
      {
        id: "AD1",
        label: "Break-out lead for module connectors",
        method: "in-line",
        fits: ["M1.X1"],
        points: ["M1.X1:1", "M1.X1:2"],
        minutes: 5,
      },
    ],
    codes: draft.codes,
    cautions: [
      { id: "CA1", text: "Open the isolator before unplugging a distribution box", on: { components: ["D1"] } },
    ],
  };
}

function statesAndZones(): Pick<DocumentInput, "states" | "zones"> {
  const quantities = [
    { name: "temperature", value: 20, unit: "C" },
    { name: "pressure", value: 100, unit: "kPa" },
  ];
  const state = (id: string, label: string, conditions: DocumentInput["states"][number]["conditions"]) => {
    const settings = [
      { of: "S1.main", is: conditions.includes("battery-disconnected") ? ("open" as const) : ("closed" as const) },
    ];
    return { id, label, conditions, settings, quantities };
  };
  return {
    states: [
      state("ISOLATED", "Isolator open", ["battery-disconnected"]),
      state("OFF", "Key off", ["key-off"]),
      state("KEY-ON", "Key on, engine off", ["key-on"]),
      state("RUN", "Engine running", ["key-on", "running"]),
    ],
    zones: Array.from({ length: 8 }, (_, at) => {
      const hazard = { kind: "rotating" as const, text: "Fan", states: ["RUN"] };
      return { id: `Z${at + 1}`, label: `Zone ${at + 1}`, hazards: at % 3 === 0 ? [hazard] : [] };
    }),
  };
}

import type { ModulePlan } from "./branch-plan.ts";
import { PinBank, type DocumentInput, type HarnessDraft, type WireEnd, type WireKind } from "./harness-draft.ts";
import type { Trunk } from "./trunk.ts";
import { wireBranch } from "./wire-branch.ts";

type Part = DocumentInput["components"][number];

const CABLE = { kind: "battery-power", colour: "RD", crossSectionMm2: 35 } as const satisfies Partial<WireKind>;

/** Lays battery, isolator and first ground stud; returns the stud the boxes are fed from. */
export function layBattery(draft: HarnessDraft, trunk: Trunk, frame: Part): WireEnd {
  const battery = trunk.hang("N-G1", -1);
  const isolator = trunk.hang("N-S1", -1);
  const plus = draft.stud("G1+", battery, { role: "supply", label: "Battery positive post", component: "G1" });
  const minus = draft.stud("G1-", battery, { role: "ground", label: "Battery negative post", component: "G1" });
  const before = draft.stud("S1.1", isolator, { role: "terminal", label: "Isolator, battery side", component: "S1" });
  const after = draft.stud("S1.2", isolator, { role: "terminal", label: "Isolator, machine side", component: "S1" });
  const earth = layGround(draft, trunk, frame);
  draft.components.push(
    {
      id: "G1",
      label: "Battery",
      kind: "battery",
      elements: [
        {
          id: "cells",
          kind: "source",
          role: "battery",
          between: ["G1+", "G1-"],
          voltageVolt: 12.6,
          resistanceOhm: 0.01,
        },
      ],
    },
    {
      id: "S1",
      label: "Battery isolator",
      kind: "isolator",
      elements: [{ id: "main", kind: "switch", between: ["S1.1", "S1.2"], resistanceOhm: 0.001, rest: "closed" }],
    },
  );
  draft.wire(plus, before, { ...CABLE, net: "battery" });
  draft.wire(minus, earth, { ...CABLE, net: "battery ground", kind: "ground", colour: "BK" });
  return after;
}

function layGround(draft: HarnessDraft, trunk: Trunk, frame: Part): WireEnd {
  const id = draft.nextId("GND");
  frame.elements.push({
    id: `bar${frame.elements.length + 1}`,
    kind: "bar",
    between: [id, "#frame"],
    resistanceOhm: 0.0005,
  });
  return draft.stud(id, trunk.hang(`N-${id}`, 1), { role: "ground", label: `Ground stud ${id}`, component: frame.id });
}

/** Lays a distribution box and its feed cable. */
export function layBox(draft: HarnessDraft, trunk: Trunk, feed: WireEnd): { box: PinBank; post: WireEnd } {
  const id = draft.nextId("D");
  const place = trunk.hang(`N-${id}`, -1);
  const post = draft.stud(`${id}+`, place, { role: "terminal", label: `Supply stud of box ${id}`, component: id });
  draft.wire(feed, post, { ...CABLE, net: `supply ${id}`, crossSectionMm2: 16 });
  return { box: new PinBank(id, place, 32), post };
}

/** The bus pins of a module. */
export interface BusEnd {
  readonly high: WireEnd;
  readonly low: WireEnd;
  /** The module's own place; the splices sit on its stub. */
  readonly place: number;
}

/** What a module is laid between. */
export interface ModuleSite {
  readonly trunk: Trunk;
  readonly frame: Part;
  readonly box: PinBank;
  readonly boxPost: string;
  readonly bus: boolean;
}

/** Lays a module with supply, ground and branches; returns its bus pins, if it has a bus. */
export function layModule(
  draft: HarnessDraft,
  plan: ModulePlan,
  { trunk, frame, box, boxPost, bus }: ModuleSite,
): readonly BusEnd[] {
  const id = draft.nextId("M");
  const place = trunk.hang(`N-${id}`, -1);
  const ground = layGround(draft, trunk, frame);
  const module = new PinBank(id, place, 96);
  const supplyPin = module.pin();
  const groundPin = module.pin();
  const feed = box.pin();
  box.elements.push({
    id: box.elementId("F"),
    kind: "fuse",
    between: [boxPost, feed.address],
    ratedAmpere: 20,
    resistanceOhm: 0.004,
    style: "blade",
    testWindows: true,
  });
  module.elements.push(
    { id: "draw", kind: "load", between: [supplyPin.address, "#gnd"], resistanceOhm: 40 },
    { id: "ground", kind: "bar", between: [groundPin.address, "#gnd"] },
    { id: "reference", kind: "source", role: "regulator", between: ["#5v", "#gnd"], voltageVolt: 5, resistanceOhm: 1 },
  );
  draft.wire(feed, supplyPin, { net: `supply ${id}`, kind: "battery-power", colour: "RD", crossSectionMm2: 2.5 });
  draft.wire(groundPin, ground, { net: `ground ${id}`, kind: "module-ground", colour: "BK", crossSectionMm2: 2.5 });
  const ends: BusEnd[] = [];
  if (bus) {
    const [high, low] = [module.pin(), module.pin()];
    module.elements.push({
      id: "receiver",
      kind: "resistor",
      between: [high.address, low.address],
      resistanceOhm: 30_000,
    });
    ends.push({ high, low, place });
  }
  let leaves = 0;
  plan.branches.forEach((branch, at) => {
    // Two branches leave at each trunk place, one up and one down.
    if (at % 2 === 0) leaves = trunk.grow();
    wireBranch(draft, branch, { module, box, boxPost, ground, trunk: leaves, side: at % 2 === 0 ? -1 : 1 });
  });
  module.finish(draft, "module", `Module ${id}`);
  return ends;
}

import type { BranchPlan, LinePlan, PinRole } from "./branch-plan.ts";
import type { DocumentInput, HarnessDraft, PinBank, WireEnd, WireKind } from "./harness-draft.ts";

type Elements = DocumentInput["components"][number]["elements"];

const TRACERS = ["BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "PK"];

/** What a branch is wired to: its module, the distribution box and the ground stud. */
export interface BranchSources {
  readonly module: PinBank;
  readonly box: PinBank;
  readonly boxPost: string;
  readonly ground: WireEnd;
  /** Trunk place at which the branch leaves. */
  readonly trunk: number;
  /** -1 goes up in the drawing, 1 down. */
  readonly side: -1 | 1;
}

/** Where a line starts and what its wires are like. */
export interface LineSource {
  readonly end: WireEnd;
  readonly kind: WireKind;
}

/** Takes a pin for a line at the module or box, describes what is behind it, and says what its wires are like. */
export function takeSource(
  draft: HarnessDraft,
  line: LinePlan,
  given: { plan: BranchPlan; sources: BranchSources },
): LineSource {
  const { module, box, boxPost, ground } = given.sources;
  const role = line.role;
  if (role === "ground") return { end: ground, kind: wireKind(draft, role, ground.address) };
  if (role === "feed" || role === "relay-out") {
    const end = box.pin();
    addFuse(draft, { box, boxPost, end, relay: role === "relay-out" });
    if (role === "relay-out") wireRelayControl(draft, given.sources, given.plan);
    return { end, kind: wireKind(draft, role, end.address) };
  }
  const end = module.pin();
  module.elements.push(modulePin(module, end.address, role));
  if (role === "signal" || role === "body-signal") addCode(draft, module.id, end.address, given.plan.when);
  return { end, kind: wireKind(draft, role, end.address) };
}

/** What is behind a module pin of a role. */
export function modulePin(module: PinBank, pin: string, role: PinRole): Elements[number] {
  const id = module.elementId("p");
  switch (role) {
    case "supply":
      return { id, kind: "bar", between: [pin, "#5v"] };
    case "return":
      return { id, kind: "bar", between: [pin, "#gnd"] };
    case "driver":
      return { id, kind: "driver", side: "low", between: [pin, "#gnd"], resistanceOhm: 0.05 };
    case "signal":
    case "body-signal":
    case "feed":
    case "relay-out":
    case "ground":
      return { id, kind: "bias", pull: "up", between: [pin, "#5v"], resistanceOhm: 2200 };
  }
}

function addFuse(
  draft: HarnessDraft,
  { box, boxPost, end, relay }: { box: PinBank; boxPost: string; end: WireEnd; relay: boolean },
): void {
  const id = box.elementId("F");
  const after = relay ? `#${id}` : end.address;
  const ratedAmpere = draft.random.pick([5, 7.5, 10, 15, 20, 30]);
  box.elements.push({
    id,
    kind: "fuse",
    between: [boxPost, after],
    ratedAmpere,
    resistanceOhm: 0.005,
    style: "blade",
    testWindows: true,
  });
  if (!relay) return;
  const control = box.pin();
  const coil = box.elementId("K");
  box.elements.push({
    id: coil,
    kind: "coil",
    between: [boxPost, control.address],
    resistanceOhm: 90,
    suppressor: { kind: "resistor", resistanceOhm: 680 },
  });
  box.elements.push({
    id: `${coil}c`,
    kind: "contact",
    of: coil,
    form: "make",
    between: [after, end.address],
    resistanceOhm: 0.005,
  });
}

/** The wire from the module output that pulls the coil of the relay made last. */
function wireRelayControl(draft: HarnessDraft, { module, box }: BranchSources, { when }: BranchPlan): void {
  const coil = box.elements.findLast((element) => element.kind === "coil");
  if (!coil) throw new RangeError("Cannot wire a relay: the box has none");
  const end = module.pin();
  module.elements.push(modulePin(module, end.address, "driver"));
  const control: WireEnd = { address: coil.between[1], spot: { kind: "place", place: box.place } };
  draft.wire(end, control, { ...wireKind(draft, "driver", end.address), when });
}

function addCode(draft: HarnessDraft, module: string, pin: string, when: string | undefined): void {
  const id = draft.nextId("C");
  const spn = 500_000 + (draft.codes.length % 20_000);
  const label = `Signal at ${pin}: voltage high`;
  draft.codes.push({
    id,
    label,
    module,
    spn,
    fmi: 3,
    points: [pin],
    failure: "voltage-high",
    ...(when === undefined ? {} : { when }),
  });
}

/** What the wires of a role are like. */
export function wireKind(draft: HarnessDraft, role: PinRole, source: string): WireKind {
  const net = `${role} ${source}`;
  const tracer = draft.random.pick(TRACERS);
  switch (role) {
    case "supply":
      return { net, kind: "sensor-supply", colour: "PK", crossSectionMm2: 0.5 };
    case "return":
      return { net, kind: "sensor-return", colour: "BN", crossSectionMm2: 0.5 };
    case "ground":
      return { net, kind: "ground", colour: "BK", crossSectionMm2: 2.5 };
    case "feed":
      return { net, kind: "supply", colour: "OG", crossSectionMm2: 1.5 };
    case "relay-out":
      return { net, kind: "supply", colour: "RD/WH", crossSectionMm2: 2.5 };
    case "driver":
      return { net, kind: "driver", colour: `GY/${tracer}`, crossSectionMm2: 0.75 };
    case "signal":
    case "body-signal":
      return { net, kind: "signal", colour: `WH/${tracer}`, crossSectionMm2: 0.5 };
  }
}

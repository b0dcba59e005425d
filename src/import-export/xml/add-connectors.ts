import { cleanId, freeName, type ComponentInput, type FittedCavityInput } from "../draft/draft-parts.ts";
import { defined } from "../../base/index.ts";
import { importProblem } from "../import-problem.ts";
import { fittedWithWires, countFitted, whenOf, wiresOf, type Assembly, unionOf } from "./assembly.ts";
import type {
  FittedWith,
  SourceBox,
  SourceCavity,
  SourceConnector,
  SourcePart,
  SourceTerminal,
} from "./harness-source.ts";

/** Adds the components that the file describes, and all connectors, splices and ring terminals. */
export function addConnectors(assembly: Assembly): void {
  const { source, draft } = assembly;
  const fittedBoxes = new Map(source.boxes.map((box) => [box.key, boxFitted(assembly, box)]));
  const insides = new Map<string, ComponentInput["elements"]>();
  for (const box of source.boxes) {
    const { name: id, label = box.name, kind, note, part } = box;
    const elements: ComponentInput["elements"] = [];
    insides.set(box.key, elements);
    const when = whenOf(assembly, box, fittedBoxes.get(box.key));
    const component = { id, label, kind, elements, ...defined({ note, part: part?.part }), ...when };
    source.account.keep(box.madeOf, "component");
    source.account.keep(part?.madeOf ?? [], "part of a component");
    assembly.boxes.set(box.key, draft.addComponent(component, box.at));
  }
  let rings = 0;
  for (const connector of source.connectors) {
    if (connector.use === "splice") addSplice(assembly, connector);
    else if (connector.use === "ring") {
      rings += 1;
      addTerminalStud(assembly, connector);
    } else addPlug(assembly, connector, fittedBoxes);
  }
  let fuses = 0;
  for (const box of source.boxes) {
    const elements = elementsOf(assembly, box);
    fuses += elements.filter((element) => "resistanceOhm" in element && element.resistanceOhm === 0).length;
    insides.get(box.key)?.push(...elements);
  }
  if (fuses > 0) draft.report(importProblem("fuse-resistance-assumed", {}, { fuses }));
  if (rings > 0) draft.report(importProblem("ring-roles-unknown", {}, { rings }));
}

/** A component is there with any of its connectors, since its elements end at them. */
function boxFitted(assembly: Assembly, box: SourceBox): FittedWith {
  return fittedWithWires(
    assembly,
    box.fitted,
    assembly.source.connectors.filter((connector) => connector.box === box.key),
  );
}

/** A part, ready to be spread into what it is the part of. */
function partIn(part: SourcePart | undefined) {
  return defined({ part: part?.part });
}

function keepConnector(
  { source: { account } }: Assembly,
  { madeOf, part, cavities }: SourceConnector,
  as: string,
): void {
  account.keep(madeOf, as);
  account.keep(part?.madeOf ?? [], `part of a ${as}`);
  for (const cavity of cavities) account.keep(cavity.madeOf, as === "connector" ? "cavity" : as);
}

function leaveOutConnector({ source: { account } }: Assembly, connector: SourceConnector, reason: string): void {
  account.leaveOut(connector.madeOf, reason);
  account.leaveOut(connector.part?.madeOf ?? [], reason);
  for (const { madeOf, fitted } of connector.cavities) {
    account.leaveOut(madeOf, reason);
    for (const each of fitted) account.leaveOut(each.madeOf, reason);
  }
}

function placeOf({ places }: Assembly, { node }: SourceConnector): { readonly place?: string } {
  return defined({ place: places.get(node ?? "") });
}

function addSplice(assembly: Assembly, connector: SourceConnector): void {
  const { draft } = assembly;
  const wires = wiresOf(assembly, connector);
  // A splice that joins nothing is a place on the drawing and nothing to trace.
  if (wires.length === 0) {
    leaveOutConnector(assembly, connector, "a splice without wires");
    return;
  }
  const { label, part } = connector;
  const more = defined({ label, at: spotOf(assembly, connector), part: part?.part });
  // Its own options may reach further than its wires do, and a splice without wires is an error.
  const when = whenOf(assembly, connector, unionOf(wires.map((wire) => wire.fitted)));
  const id = draft.addSplice({ id: connector.name, ...more, ...when }, connector.at);
  assembly.connectors.set(connector.key, { kind: "splice", id });
  keepConnector(assembly, connector, "splice");
  capLoneWire(assembly, connector, id, when);
}

/** Where a splice sits: its way along a segment, or the end of a segment that meets its node. */
function spotOf({ source, places, segments, index }: Assembly, { spot, node }: SourceConnector) {
  const along = spot && index.segments.get(spot.segment);
  if (spot && along) {
    const segment = segments.get(spot.segment);
    const from = places.get(spot.fromEnd ? along.to : along.from);
    // A place beyond the segment is no place.
    const isOn = spot.offsetMm >= 0 && spot.offsetMm <= (along.lengthMm ?? 0);
    return segment === undefined || from === undefined || !isOn
      ? undefined
      : { segment, from, offsetMm: spot.offsetMm };
  }
  const touching = source.segments.find(({ key, from, to }) => segments.has(key) && (from === node || to === node));
  const segment = segments.get(touching?.key ?? "");
  const from = places.get(node ?? "");
  return segment === undefined || from === undefined ? undefined : { segment, from, offsetMm: 0 };
}

/** A splice with one wire only would be an error of the document: the free side becomes a place of its own. */
function capLoneWire(
  assembly: Assembly,
  connector: SourceConnector,
  id: string,
  when: { readonly when?: string },
): void {
  const { draft, builds } = assembly;
  const parts = wiresOf(assembly, connector).map((wire) => wire.fitted);
  if (countFitted(parts, builds).fewest !== 1) return;
  const lone = builds.find((build) => countFitted(parts, [build]).most === 1);
  const facts = { splice: id, build: lone?.label ?? "" };
  draft.report(importProblem("splice-with-one-wire", connector.at, facts));
  const end = draft.addConnector(
    { id: `${id}-end`, label: `Free end of splice ${id}`, kind: "inline", sides: [{ id: "harness" }], ...when },
    connector.at,
  );
  const ends: [string, string] = [id, draft.contact(end, "1")];
  draft.addWire({ id: `${id}-lead`, ends, note: "Not a wire: the free side of the splice", ...when }, connector.at);
}

function addTerminalStud(assembly: Assembly, connector: SourceConnector): void {
  const label = connector.label ?? connector.name;
  const when = whenOf(assembly, connector, fittedWithWires(assembly, connector.fitted, [connector]));
  const more = { ...placeOf(assembly, connector), ...partIn(connector.part), ...when };
  const stud = { id: connector.name, label, role: "terminal" as const, ...more };
  keepConnector(assembly, connector, "stud");
  assembly.connectors.set(connector.key, { kind: "stud", id: assembly.draft.addTerminalStud(stud, connector.at) });
}

function addPlug(assembly: Assembly, connector: SourceConnector, boxes: ReadonlyMap<string, FittedWith>): void {
  const { draft } = assembly;
  if (connector.cavities.length === 0) {
    draft.report(importProblem("source-connector-empty", connector.at, { connector: connector.name }));
    leaveOutConnector(assembly, connector, "a connector without cavities");
    return;
  }
  const box = connector.box === undefined ? undefined : assembly.boxes.get(connector.box);
  const fitted =
    connector.box === undefined ? fittedWithWires(assembly, connector.fitted, [connector]) : boxes.get(connector.box);
  const when = whenOf(assembly, connector, fitted);
  const isAlone = box === undefined && (connector.label === undefined || connector.use === "open-end");
  const label = connector.label ?? connector.name;
  const sealed = connector.cavities.some((cavity) => cavity.sealed) ? { sealed: true } : {};
  const common = { id: connector.name, label, ...sealed, ...placeOf(assembly, connector), ...when };
  let id: string;
  if (isAlone) id = draft.addConnector({ ...common, kind: "inline" }, connector.at);
  else {
    // One component a connector: which connectors belong to one device the file does not say.
    const component = box ?? draft.addComponent({ id: `${connector.name}-unit`, label, ...when }, connector.at);
    id = draft.addConnector({ ...common, kind: "component", component }, connector.at);
  }
  const held = connector.cavities.flatMap((cavity) => {
    const sealedHere = cavity.sealed ? { sealed: true } : {};
    return fittedIn(assembly, cavity, draft.addCavity(id, { id: cavity.name, ...sealedHere }, cavity.at));
  });
  const side = { id: "harness", ...partIn(connector.part), ...(held.length === 0 ? {} : { fitted: held }) };
  draft.addSide(id, side, connector.at);
  keepConnector(assembly, connector, "connector");
  assembly.connectors.set(connector.key, { kind: "connector", id });
}

/** What is fitted in a cavity: one entry, or more where several parts of a sort exclude one another. */
function fittedIn({ source }: Assembly, { fitted }: SourceCavity, cavity: string): readonly FittedCavityInput[] {
  const entries: FittedCavityInput[] = [];
  for (const { what, part, madeOf } of fitted) {
    source.account.keep(madeOf, `${what} in a cavity`);
    if (entries.some((entry) => entry[what]?.number === part.number)) continue;
    const free = entries.find((entry) => entry[what] === undefined);
    if (free) free[what] = part;
    else entries.push({ cavity, [what]: part });
  }
  return entries;
}

function elementsOf(assembly: Assembly, box: SourceBox): ComponentInput["elements"] {
  const cavities = new Map<string, string>();
  for (const connector of assembly.source.connectors) {
    const placed = assembly.connectors.get(connector.key);
    if (connector.box !== box.key || placed?.kind !== "connector") continue;
    for (const cavity of connector.cavities) cavities.set(cavity.key, assembly.draft.contact(placed.id, cavity.name));
  }
  const address = (terminal: SourceTerminal): string | undefined =>
    "inner" in terminal ? `#${cleanId(terminal.inner) ?? "point"}` : cavities.get(terminal.cavity);
  const taken = new Set<string>();
  const elements: ComponentInput["elements"] = [];
  // A relay contact names its coil, whose id may have been changed on the way.
  const renamed = new Map<string, string>();
  const { account } = assembly.source;
  for (const { element, between, fitted, madeOf } of box.elements) {
    const [first, second] = between.map(address);
    if (first === undefined || second === undefined || first === second) {
      account.leaveOut(madeOf, "its two ends are not in the file");
      continue;
    }
    account.keep(madeOf, "element of a component");
    const id = freeName(cleanId(element.id) ?? "element", taken);
    taken.add(id);
    renamed.set(element.id, id);
    const of = element.kind === "contact" ? { of: renamed.get(element.of) ?? element.of } : {};
    elements.push({ ...element, ...of, id, between: [first, second], ...whenOf(assembly, box, fitted) });
  }
  return elements;
}

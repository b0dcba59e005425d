import { err, formatQuantity, keptFor, keptIn, ok, type Result } from "../../base/index.ts";
import {
  nodeAt,
  supplyTerminals,
  type Cavity,
  type Component,
  type Connector,
  type Element,
  type Harness,
  type HarnessNode,
  type Wire,
} from "../../harness-model/index.ts";
import {
  SPLICE_LEG,
  TYPICAL_DROP_OUT_SHARE,
  TYPICAL_PULL_IN_SHARE,
  typicalContact,
  typicalRing,
} from "../tables/typical-parts.ts";
import { wireResistance } from "../tables/wire-resistance.ts";
import { addElement, supplyOf } from "./add-element.ts";
import { elementKey, resolveConditions, PartDraft, type ResolvedConditions } from "./part-draft.ts";
import type { Part, PartList, PlacedElement, QuestionProblem, OperatingConditions, ElementState } from "./part.ts";
import { shareShape } from "./shared-shape.ts";

/**
 * Turns a machine in a situation into parts between nodes, without its faults.
 *
 * @param operatingConditions The situation; its faults are not looked at.
 * @returns The parts, or what the machine does not have.
 */
export function buildParts(
  harness: Harness,
  operatingConditions: OperatingConditions,
): Result<PartList, readonly QuestionProblem[]> {
  const around = resolveConditions(harness, operatingConditions);
  if (around.problems.length > 0) return err(around.problems);
  const reference = supplyTerminals(harness).negative[0];
  if (reference === undefined) {
    const text = "The document names no ground stud and no negative supply terminal. Add one as the reference point";
    return err([{ code: "no-reference", of: "system.supply", text }]);
  }
  const draft = new PartDraft(draftConductors(around));
  harness.edges.forEach((edge, number) => {
    if (edge.kind !== "element") return;
    const { component, element, key: edgeKey } = edge;
    const from = harness.index.from[number] ?? 0;
    const to = harness.index.to[number] ?? 0;
    const key = elementKey(edge);
    const place = (): PlacedElement => {
      const top = element.kind === "divider" ? topOf(harness, edgeKey, from) : from;
      return { edgeKey, key, component, element, from, to, top };
    };
    addKnownElement(draft, around, { edgeKey, key, element, place });
  });
  const windings = new Map<string, number>();
  draft.parts.forEach(({ group, key }, at) => {
    if (group === "coil") windings.set(key, at);
  });
  for (const component of harness.fitted.components.values()) {
    addCoils(draft, around, { component, windings });
    addNeed(draft, harness, component);
  }
  const list = draft.finish(reference);
  return ok({ ...list, shape: shareShape(harness, list.shape) });
}

/** First node of the top edge of the divider an edge belongs to. */
function topOf(harness: Harness, edgeKey: string, from: number): number {
  const topEdge = harness.edgeNumbers.get(edgeKey.replace(/\.bottom$/u, ".top"));
  return topEdge === undefined ? from : (harness.index.from[topEdge] ?? from);
}

/**
 * Coils that work a contact. The volts at which they pull in and let go are those of a winding with its nominal resistance.
 */
function addCoils(
  draft: PartDraft,
  around: ResolvedConditions,
  { component, windings }: { readonly component: Component; readonly windings: ReadonlyMap<string, number> },
): void {
  const worked = new Set(component.elements.flatMap((each) => (each.kind === "contact" ? [each.of] : [])));
  for (const element of component.elements) {
    if (element.kind !== "coil" || !worked.has(element.id)) continue;
    const key = `${component.id}.${element.id}`;
    const at = windings.get(key);
    if (at === undefined) continue;
    const pullInVolt = element.pullInVolt ?? TYPICAL_PULL_IN_SHARE * around.nominalVolt;
    const dropOutVolt = Math.min(pullInVolt, element.dropOutVolt ?? TYPICAL_DROP_OUT_SHARE * around.nominalVolt);
    if (element.pullInVolt === undefined || element.dropOutVolt === undefined)
      draft.assume("typical", key, `${key}: ${pullText(around.harness, pullInVolt, dropOutVolt)}`);
    draft.coils.push({
      ...{ key, at, from: draft.from[at] ?? 0, to: draft.to[at] ?? 0 },
      pullInAmpere: pullInVolt / element.resistanceOhm,
      dropOutAmpere: dropOutVolt / element.resistanceOhm,
    });
  }
}

function addNeed(draft: PartDraft, harness: Harness, component: Component): void {
  const supply = supplyOf(component);
  if (!supply) return;
  const nodeOf = (address: string): number | undefined => nodeAt(harness, address, { by: "element", component });
  const positive = nodeOf(supply.positive);
  const negative = nodeOf(supply.negative);
  if (positive === undefined || negative === undefined)
    draft.assume("missing", component.id, `${component.id}: its supply terminals are not fitted. Assumed: supplied`);
  else {
    const { leastVolt, wake } = supply;
    draft.modules.push({
      ...{ id: component.id, positive, negative, leastVolt },
      wake: wake === undefined ? undefined : nodeOf(wake),
    });
  }
}

// Many relays of a machine are alike, and numbers take long to write.
const pullTexts = keptFor((_: Harness) => new Map<string, string>());

function pullText(harness: Harness, pullInVolt: number, dropOutVolt: number): string {
  const write = (): string =>
    `pulls in at ${formatQuantity(pullInVolt, "V")}, drops out below ${formatQuantity(dropOutVolt, "V")}, typical`;
  return keptIn(pullTexts(harness), `${pullInVolt} ${dropOutVolt}`, write);
}

/** What of the situation an element hangs on. */
interface ElementDependencies {
  readonly elementState: ElementState | undefined;
  readonly value: number | undefined;
  readonly state: string | undefined;
  readonly isRunning: boolean;
}

/** The first part an element became, with all that it hangs on, and the parts after it. */
interface Block extends ElementDependencies {
  readonly part: Part;
  readonly from: number;
  readonly to: number;
  readonly next: Block | undefined;
}

interface Known {
  readonly temperatureC: number;
  readonly blocks: Map<string, Block>;
}

// Most elements are the same in every state of the machine, so what they were last time is taken again.
const knownBlocks = new WeakMap<Harness, Known>();

/** Adds what an element is in the situation, as it was last time if nothing that it hangs on has changed. */
function addKnownElement(
  draft: PartDraft,
  around: ResolvedConditions,
  element: {
    readonly edgeKey: string;
    readonly key: string;
    readonly element: Element;
    readonly place: () => PlacedElement;
  },
): void {
  const { blocks } = knownOf(around);
  const dependencies = dependenciesOf(around, element);
  const before = blocks.get(element.edgeKey);
  if (before && isSame(before, dependencies)) {
    for (let at: Block | undefined = before; at; at = at.next) draft.addAgain(at.from, at.to, at.part);
    return;
  }
  const start = draft.parts.length;
  const assumed = draft.assumptionCount;
  addElement(draft, around, element.place());
  // One that takes something for granted says so each time.
  if (draft.assumptionCount !== assumed) return;
  let block: Block | undefined;
  for (let at = draft.parts.length - 1; at >= start; at--) {
    const part = draft.parts[at];
    const { elementState, value, state, isRunning } = dependencies;
    const [from = 0, to = 0] = [draft.from[at], draft.to[at]];
    if (part) block = { elementState, value, state, isRunning, part, from, to, next: block };
  }
  if (block) blocks.set(element.edgeKey, block);
}

function knownOf({ harness, temperatureC }: ResolvedConditions): Known {
  const found = knownBlocks.get(harness);
  if (found?.temperatureC === temperatureC) return found;
  const made = { temperatureC, blocks: new Map<string, Block>() };
  knownBlocks.set(harness, made);
  return made;
}

function dependenciesOf(
  around: ResolvedConditions,
  { key, element }: { readonly key: string; readonly element: Element },
): ElementDependencies {
  const { kind } = element;
  return {
    elementState: around.elementStates.get(key),
    value: kind === "ntc" || kind === "divider" ? around.quantities.get(element.quantity) : undefined,
    state: kind === "load" && element.resistanceByState ? around.stateId : undefined,
    isRunning: kind === "source" && around.isRunning,
  };
}

function isSame(one: ElementDependencies, other: ElementDependencies): boolean {
  return (
    one.elementState === other.elementState &&
    one.value === other.value &&
    one.state === other.state &&
    one.isRunning === other.isRunning
  );
}

// Wires and contacts do not depend on the state of the machine, so its states share them. Only the last draft of a harness is kept.
const known = new WeakMap<Harness, { readonly key: string; readonly draft: PartDraft }>();

/** Wires and mated contacts of a machine in a situation, to be copied and gone on from. */
function draftConductors(around: ResolvedConditions): PartDraft {
  const { harness, temperatureC, unplugged, inLine } = around;
  const key = `${temperatureC}|${[...unplugged].toSorted().join(" ")}|${[...inLine].toSorted().join(" ")}`;
  const last = known.get(harness);
  if (last?.key === key) return last.draft;
  const draft = new PartDraft(harness.nodes.map((node) => node.key));
  harness.edges.forEach((edge, number) => {
    const from = harness.index.from[number] ?? 0;
    const to = harness.index.to[number] ?? 0;
    if (edge.kind === "wire") addWire(draft, around, { wire: edge.wire, from, to });
    else if (edge.kind === "mating") {
      const { connector, cavity } = edge;
      addMating(draft, around, { key: edge.key, connector, cavity, from, to });
    }
  });
  known.set(harness, { key, draft });
  return draft;
}

/**
 * Adds a wire. Where it ends at a splice or a stud, the crimp or ring there is a part of its own, between the splice or stud and a node
 * named like `W78@SP13`.
 *
 * @param at The wire and the nodes it ends at.
 */
function addWire(
  draft: PartDraft,
  around: ResolvedConditions,
  at: { readonly wire: Wire; readonly from: number; readonly to: number },
): void {
  const { wire } = at;
  const { wireStandard } = around.harness.document.system;
  const { crossSectionMm2, lengthMm } = wire;
  const answer = wireResistance({
    standard: wireStandard,
    crossSectionMm2,
    lengthMm,
    temperatureC: around.temperatureC,
  });
  if (answer.kind === "unknown")
    draft.assume("missing", wire.id, `${wire.id}: no ${answer.missing.join(" and no ")} given, assumed 0 Ω`);
  else if (!answer.isListed) draft.assume("standard", wire.id, `${wire.id}: ${answer.source}`);
  const from = endOf(draft, around.harness, wire, at.from);
  const to = endOf(draft, around.harness, wire, at.to);
  const ohm = answer.kind === "known" ? answer.ohm : 0;
  draft.addConductor(from, to, { key: wire.id, group: "wire", ohm, present: true });
}

function endOf(draft: PartDraft, harness: Harness, wire: Wire, number: number): number {
  const node = harness.nodes[number];
  if (node?.kind !== "splice" && node?.kind !== "stud") return number;
  const name = `${wire.id}@${node.key}`;
  const end = draft.node(name);
  draft.addConductor(number, end, { key: name, group: "joint", ohm: endOhm(draft, node, wire), present: true });
  return end;
}

function endOhm(draft: PartDraft, node: Extract<HarnessNode, { kind: "splice" | "stud" }>, wire: Wire): number {
  const given = node.kind === "splice" ? node.splice.resistanceOhm : node.stud.ringOhm;
  if (given !== undefined) return given;
  const typical = node.kind === "splice" ? SPLICE_LEG : typicalRing(wire.crossSectionMm2);
  draft.assumeJoint(typical);
  return typical.ohm;
}

/** Adds a mated contact; it is absent while its connector is unplugged. */
function addMating(
  draft: PartDraft,
  around: ResolvedConditions,
  at: {
    readonly key: string;
    readonly connector: Connector;
    readonly cavity: Cavity;
    readonly from: number;
    readonly to: number;
  },
): void {
  const { connector, cavity } = at;
  let ohm = cavity.resistanceOhm ?? connector.contactOhm;
  if (ohm === undefined) {
    const typical = typicalContact(cavity.terminalMm);
    draft.assumeJoint(typical);
    ohm = typical.ohm;
  }
  // A lead in line has a contact on either side.
  if (around.inLine.has(connector.id)) ohm *= 2;
  const present = !around.unplugged.has(connector.id);
  draft.addConductor(at.from, at.to, { key: at.key, group: "joint", ohm, present });
}

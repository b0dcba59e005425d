import { err, formatQuantity, ok, type Result } from "../../base/index.ts";
import { lookUpPoint, pointKey, type Component, type Harness } from "../../model/index.ts";
import { TYPICAL_DROP_OUT_SHARE, TYPICAL_PULL_IN_SHARE } from "../tables/typical-parts.ts";
import { draftConductors } from "./draft-conductors.ts";
import { addKnownElement } from "./known-elements.ts";
import { PartDraft } from "./part-draft.ts";
import type { PartList } from "./part.ts";
import type { PlacedElement } from "./placed-element.ts";
import { shareShape } from "./shared-shape.ts";
import type { QuestionProblem, Situation } from "./situation.ts";
import { elementKey, lookUpSurroundings, type Surroundings } from "./surroundings.ts";

/**
 * Turns a machine in a situation into parts between nodes, without its faults.
 *
 * @param harness The machine in one build.
 * @param situation The situation; its faults are not looked at.
 * @returns The parts, or what the machine does not have.
 */
export function buildParts(harness: Harness, situation: Situation): Result<PartList, readonly QuestionProblem[]> {
  const around = lookUpSurroundings(harness, situation);
  if (around.problems.length > 0) return err(around.problems);
  const reference = referenceOf(harness);
  if (reference === undefined) {
    const text = "The document names no ground stud and no negative supply terminal to measure against";
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
  for (const component of harness.fitted.components.values()) {
    addCoils(draft, around, component);
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

/** The node at 0 V: the negative terminal of the supply, or the first ground stud. */
function referenceOf(harness: Harness): number | undefined {
  const negative = harness.document.system.supply?.negative;
  const point = negative === undefined ? undefined : lookUpPoint(harness.book, negative, { by: "wire" });
  const number = point && point.kind !== "none" ? harness.nodeNumbers.get(pointKey(point)) : undefined;
  if (number !== undefined) return number;
  const ground = harness.nodes.findIndex((node) => node.kind === "stud" && node.stud.role === "ground");
  return ground < 0 ? undefined : ground;
}

/** Coils that work a contact. Where they run is read from their part. */
function addCoils(draft: PartDraft, around: Surroundings, component: Component): void {
  const worked = new Set(component.elements.flatMap((each) => (each.kind === "contact" ? [each.of] : [])));
  for (const element of component.elements) {
    if (element.kind !== "coil" || !worked.has(element.id)) continue;
    const key = `${component.id}.${element.id}`;
    const number = around.harness.edgeNumbers.get(key);
    if (number === undefined) continue;
    const pullInVolt = element.pullInVolt ?? TYPICAL_PULL_IN_SHARE * around.nominalVolt;
    const dropOutVolt = Math.min(pullInVolt, element.dropOutVolt ?? TYPICAL_DROP_OUT_SHARE * around.nominalVolt);
    if (element.pullInVolt === undefined || element.dropOutVolt === undefined)
      draft.assume("typical", key, `${key}: ${pullText(around.harness, pullInVolt, dropOutVolt)}`);
    const { from, to } = around.harness.index;
    draft.coils.push({ key, from: from[number] ?? 0, to: to[number] ?? 0, pullInVolt, dropOutVolt });
  }
}

function addNeed(draft: PartDraft, harness: Harness, component: Component): void {
  if (!component.needs) return;
  const nodeOf = (address: string): number | undefined => {
    const point = lookUpPoint(harness.book, address, { by: "element", component });
    return point.kind === "none" ? undefined : harness.nodeNumbers.get(pointKey(point));
  };
  const positive = nodeOf(component.needs.positive);
  const negative = nodeOf(component.needs.negative);
  if (positive === undefined || negative === undefined)
    draft.assume("missing", component.id, `${component.id}: its supply terminals are not fitted, taken as supplied`);
  else draft.modules.push({ id: component.id, positive, negative, leastVolt: component.needs.leastVolt });
}

// Many relays of a machine are alike, and numbers take long to write.
const pullTexts = new WeakMap<Harness, Map<string, string>>();

function pullText(harness: Harness, pullInVolt: number, dropOutVolt: number): string {
  const known = pullTexts.get(harness) ?? new Map<string, string>();
  pullTexts.set(harness, known);
  const key = `${pullInVolt} ${dropOutVolt}`;
  const text =
    known.get(key) ??
    `pulls in at ${formatQuantity(pullInVolt, "V")}, lets go below ${formatQuantity(dropOutVolt, "V")}, typical`;
  known.set(key, text);
  return text;
}

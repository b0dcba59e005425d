import { addTo, keptFor } from "../../base/index.ts";
import { lookUpPoint, pointKey, type Harness } from "../../harness-model/index.ts";
import type { PartList, QuestionProblem } from "../network/part.ts";

/** The parts of a list by what a fault may call them: the owner first, then the part's own key. */
const partNumbers = keptFor((parts: PartList["parts"]): ReadonlyMap<string, readonly number[]> => {
  const byName = new Map<string, number[]>();
  parts.forEach((part, at) => {
    for (const name of new Set([part.owner, part.key])) addTo(byName, name, at);
  });
  return byName;
});

/**
 * Finds the parts a fault names: a wire, an element, a wire's end, a contact by its cavity or by either half.
 *
 * @returns The numbers of the parts, or undefined.
 */
export function findTarget(harness: Harness, list: PartList, name: string): readonly number[] | undefined {
  const numbers = partNumbers(list.parts);
  const known = numbers.get(name);
  if (known) return known;
  const point = lookUpPoint(harness.book, name, { by: "wire" });
  return point.kind === "contact" ? numbers.get(`${point.connector.id}:${point.cavity.id}`) : undefined;
}

/**
 * Finds the node of a point: a contact, splice, stud, inner point, or a wire's end such as `W06@GND-C1`. Where a connector between
 * harnesses is named without its half, the first fitted half counts.
 *
 * @returns The number of the node, or undefined.
 */
export function findPoint(harness: Harness, list: PartList, name: string): number | undefined {
  // The nodes of the harness come first in a whole list; in a reduced one they have other numbers.
  const own = harness.nodeNumbers.get(name);
  if (own !== undefined && list.nodeKeys[own] === name) return own;
  const numbers = nodeNumbers(list.nodeKeys);
  const known = numbers.get(name);
  if (known !== undefined) return known;
  const colon = name.lastIndexOf(":");
  const connector = colon < 0 ? undefined : harness.book.connectors.get(name.slice(0, colon));
  const cavity = connector && harness.book.cavities.get(connector)?.get(name.slice(colon + 1));
  if (connector && cavity) {
    const sides = harness.fitted.sides.get(connector.id) ?? [];
    // A device connector is met from the harness.
    const ordered = [...sides].sort((a, b) => Number(a.id === "device") - Number(b.id === "device"));
    const keys = ordered.map((side) => pointKey({ kind: "contact", connector, side, cavity }));
    return keys.map((key) => numbers.get(key)).find((number) => number !== undefined);
  }
  const point = lookUpPoint(harness.book, name, { by: "wire" });
  return point.kind === "none" ? undefined : numbers.get(pointKey(point));
}

const nodeNumbers = keptFor((keys: PartList["nodeKeys"]) => new Map(keys.map((key, number) => [key, number])));

/** The problem of a name that names nothing here. */
export function unknownTarget(harness: Harness, of: string, wanted: string): QuestionProblem {
  const { document } = harness;
  const isElsewhere =
    document.wires.some((wire) => wire.id === of) ||
    document.components.some((component) => component.elements.some((each) => `${component.id}.${each.id}` === of)) ||
    lookUpPoint(harness.book, of, { by: "wire" }).kind !== "none" ||
    harness.book.connectors.has(of);
  if (isElsewhere)
    return { code: "not-fitted", of, text: `"${of}" is not fitted or not mated in build "${harness.build.id}"` };
  return { code: "unknown-target", of, text: `There is no ${wanted} "${of}" in this machine` };
}

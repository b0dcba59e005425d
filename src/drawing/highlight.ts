import type { Harness } from "../harness-model/index.ts";
import { thingKey, wireEnds } from "./wire-ends.ts";

/** What of a drawing lights up: wires to be drawn, keys of connectors, studs and splices such as `stud G2+`, ids of bundles. */
export interface Highlight {
  readonly wires: readonly string[];
  readonly items: ReadonlySet<string>;
  readonly bundles: ReadonlySet<string>;
}

/**
 * Finds what of the drawing stands for the things of an answer. Wires bring the things at their ends with them; a component stands for its
 * connectors and studs.
 *
 * @param ids Ids of an answer: wires, contacts, splices, studs, connectors, components, segments; others are passed over.
 */
export function highlight(harness: Harness, ids: Iterable<string>): Highlight {
  const wires = new Set<string>();
  const items = new Set<string>();
  const bundles = new Set<string>();
  const components = new Set<string>();
  for (const id of ids) {
    const { fitted, book } = harness;
    const owner = id.includes(":") ? id.slice(0, id.lastIndexOf(":")) : id;
    const connector = book.sides.get(owner)?.connector ?? book.connectors.get(owner);
    if (fitted.wires.has(id)) wires.add(id);
    else if (connector && fitted.connectors.has(connector.id))
      items.add(thingKey({ type: "connector", id: connector.id }));
    else if (fitted.terminalStuds.has(id)) items.add(thingKey({ type: "stud", id }));
    else if (fitted.splices.has(id)) items.add(thingKey({ type: "splice", id }));
    else if (harness.segments.has(id)) bundles.add(id);
    else if (fitted.components.has(id)) components.add(id);
  }
  for (const wire of wires) for (const end of wireEnds(harness, wire) ?? []) items.add(thingKey(end));
  for (const id of components) for (const key of thingsOfComponent(harness, id)) items.add(key);
  return { wires: [...wires], items, bundles };
}

function* thingsOfComponent({ fitted }: Harness, component: string): Iterable<string> {
  for (const connector of fitted.connectors.values())
    if (connector.component === component) yield thingKey({ type: "connector", id: connector.id });
  for (const stud of fitted.terminalStuds.values())
    if (stud.component === component) yield thingKey({ type: "stud", id: stud.id });
}

import { formatNumber, formatQuantity, naturalOrder } from "../base/index.ts";
import { describeItem, findCircuits, isFuseOrRelay } from "../connectivity/index.ts";
import type { Component, Element, Harness } from "../harness-model/index.ts";

/** A fuse or a relay of a box, and what it feeds. */
export interface FuseRow {
  /** Id of the element; of a relay that of its coil. */
  readonly id: string;
  readonly what: "fuse" | "relay";
  readonly label: string;
  /** `15 A` of a fuse, the resistance of the coil of a relay. */
  readonly rating: string;
  /** Parts whose supply or ground runs through it, by id; each stops without it, unless the data has a second path. */
  readonly feeds: readonly { readonly id: string; readonly label: string }[];
}

/** Kinds of components whose coils are relays; a coil that works a contact elsewhere, as in a starter, is none that is plugged in. */
const RELAY_KINDS: ReadonlySet<Component["kind"]> = new Set(["distribution", "relay", "fuse-bar", "other"]);

/**
 * The fuses and relays of a component, such as a fuse box, with what each feeds. Positions in the box are not in the data, so they stand in
 * natural order of their ids.
 *
 * @param harness The harness.
 * @param component The component.
 * @returns A row for each fuse and each relay; none where it has neither.
 */
export function fuseList(harness: Harness, component: Component): readonly FuseRow[] {
  const { elements } = component;
  const idOf = ({ id }: Element): string => `${component.id}.${id}`;
  return elements
    .filter((element) => harness.edgeNumbers.has(idOf(element)) && isFuseOrRelay(element, elements))
    .filter(({ kind }) => kind === "fuse" || (kind === "coil" && RELAY_KINDS.has(component.kind)))
    .map((element): FuseRow => {
      const isFuse = element.kind === "fuse";
      const contacts = elements.filter((each) => "of" in each && each.of === element.id);
      return {
        id: idOf(element),
        what: isFuse ? "fuse" : "relay",
        label: element.label ?? "",
        rating: ratingOf(element),
        feeds: fedBy(harness, component, (isFuse ? [element] : contacts).map(idOf)),
      };
    })
    .sort((a, b) => naturalOrder(a.id, b.id));
}

function ratingOf(element: Element): string {
  if (element.kind === "fuse") return `${formatNumber(element.ratedAmpere, 2)} A`;
  return element.kind === "coil" ? `coil ${formatQuantity(element.resistanceOhm, "Ω")}` : "";
}

/** The parts whose circuit runs through some elements of a component, each once. */
function fedBy(harness: Harness, component: Component, elements: readonly string[]): FuseRow["feeds"] {
  const circuits = findCircuits(harness);
  const edges = elements.flatMap((id) => harness.edgeNumbers.get(id) ?? []);
  const feeds = new Map<string, string>();
  for (const at of edges.flatMap((edge) => circuits.ofEdge.get(edge) ?? [])) {
    const circuit = circuits.all[at];
    if (!circuit) continue;
    // A consumer of the box itself, such as a relay coil, and a free connector go by their own names.
    const isWhole = circuit.component !== undefined && circuit.component !== component.id;
    const item = isWhole ? ({ type: "component", id: circuit.component } as const) : circuit.serves;
    feeds.set(item.id, describeItem(harness, item).label);
  }
  return [...feeds].sort(([a], [b]) => naturalOrder(a, b)).map(([id, label]) => ({ id, label }));
}

/**
 * The fuses and relays of all components as a table.
 *
 * @param harness The harness.
 * @returns Rows of text, the headings first.
 */
export function fuseTable(harness: Harness): readonly (readonly string[])[] {
  const rows = [...harness.fitted.components.values()].flatMap((component) =>
    fuseList(harness, component).map(({ id, what, label, rating, feeds }) => [
      component.label,
      id,
      what,
      label,
      rating,
      feeds.map((each) => `${each.label} ${each.id}`).join("; "),
    ]),
  );
  return [["Box", "Id", "Sort", "Name", "Rating", "Feeds"], ...rows];
}

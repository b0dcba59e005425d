import type { Fault } from "../../electrics/index.ts";
import type { Component, Element } from "../../model/index.ts";
import type { Candidate, FaultMode } from "./candidate.ts";
import type { CandidateContext } from "./conductor-candidates.ts";
import { makeCandidates } from "./make-candidate.ts";
import { hazardFactors } from "./place-factors.ts";
import type { ThingSort } from "./prior-table.ts";
import { partCurrents, resistanceLevels } from "./severity.ts";

type Ways = Partial<Record<FaultMode, readonly (readonly Fault[])[]>>;

/** Candidates of an element: the part itself fails. */
export function elementCandidates(context: CandidateContext, edge: number): readonly Candidate[] {
  const { harness, priors, scope } = context;
  const thing = harness.edges[edge];
  // A divider has two edges; the first speaks for it.
  if (thing?.kind !== "element" || thing.key.endsWith(".bottom")) return [];
  const { component, element } = thing;
  const sort = sortOf(component, element);
  if (sort === undefined) return [];
  const id = `${component.id}.${element.id}`;
  const zones = component.zone === undefined ? [] : [component.zone];
  const connectors = harness.document.connectors
    .filter((each) => each.component === component.id)
    .map((each) => each.id);
  const places = { connectors, segments: [], zones };
  const inside = {
    item: { type: "element", id } as const,
    sort,
    name: `${component.id} ${element.label ?? component.label}`,
    repair: repairOf(component, element),
    places,
    factors: component.kind === "module" ? [] : hazardFactors(harness, priors, places),
  };
  const ways = waysOf(context, { component, element, id });
  // Beside the circuits only what pulls a shared line down matters.
  return makeCandidates(priors, inside, scope.edges.has(edge) ? ways : pullingDown(ways));
}

function pullingDown({ bridge }: Ways): Ways {
  return bridge ? { bridge } : {};
}

function sortOf(component: Component, element: Element): ThingSort | undefined {
  if (component.kind === "module") return element.kind === "bar" || element.kind === "load" ? undefined : "module-part";
  switch (element.kind) {
    case "fuse":
      return "fuse";
    case "switch":
    case "contact":
    case "coil":
      return element.kind === "coil" && component.kind !== "relay" && component.kind !== "distribution"
        ? "actuator"
        : "moving-part";
    case "ntc":
    case "divider":
      return "sensor";
    case "resistor":
    case "diode":
      return "resistor";
    case "load":
    case "lamp":
      return component.kind === "sensor" ? "sensor" : "actuator";
    case "driver":
    case "bias":
      return component.kind === "sensor" ? "sensor" : "module-part";
    case "source":
      return element.role === "battery" ? "supply" : "moving-part";
    case "bar":
      return undefined;
  }
}

/** A relay is changed whole: coil and contact are one repair; so is a sensor with all it holds. */
function repairOf(component: Component, element: Element): string {
  if (component.kind === "distribution") {
    if (element.kind === "contact") return `relay ${component.id}.${element.of}`;
    if (element.kind === "coil") return `relay ${component.id}.${element.id}`;
    return `${element.kind} ${component.id}.${element.id}`;
  }
  return element.kind === "fuse" ? `fuse ${component.id}.${element.id}` : `part ${component.id}`;
}

interface OfElement {
  readonly component: Component;
  readonly element: Element;
  readonly id: string;
}

function waysOf({ harness }: CandidateContext, { component, element, id }: OfElement): Ways {
  const volt = harness.document.system.nominalVolt;
  const levels = resistanceLevels(partCurrents(harness).get(id) ?? 0, volt);
  const open: Ways = { open: [[{ kind: "open", of: id }]] };
  const resistance: Ways = { resistance: levels.slice(0, 2).map((ohm) => [{ kind: "resistance", of: id, ohm }]) };
  const drifts = (...factors: readonly (readonly [number, number])[]): readonly (readonly Fault[])[] =>
    factors.map(([factor, offset]) => [{ kind: "drift", of: id, factor, offset }]);
  const bridge: Ways = shortedInside(component, element);
  switch (element.kind) {
    case "fuse":
      return { blown: [[{ kind: "blown", of: id }]] };
    case "switch":
    case "contact":
      return {
        ...resistance,
        "stuck-open": [[{ kind: "stuck-open", of: id }]],
        "stuck-closed": [[{ kind: "stuck-closed", of: id }]],
      };
    case "coil":
      return { ...open, ...bridge, resistance: drifts([1.6, 0]) };
    case "ntc":
      return { ...open, ...bridge, drift: drifts([0.4, 0], [2.5, 0]) };
    case "divider":
      // Output low, high, and off by a third either way.
      return { ...open, ...bridge, drift: drifts([0, 0.01], [0, 0.99], [0.7, 0], [1.4, 0]) };
    case "resistor":
      return { ...open, ...bridge, drift: drifts([0.5, 0], [2, 0]) };
    case "load":
    case "lamp":
      return { ...open, ...bridge, resistance: drifts([2, 0]) };
    case "diode":
      return { ...open, ...bridge };
    case "source":
      return element.role === "battery"
        ? { drift: drifts([0.87, 0], [0.7, 0]) }
        : { dead: [[{ kind: "stuck-off", of: id }]], "stuck-open": [[{ kind: "stuck-off", of: id }]] };
    case "driver":
      return {
        dead: [[{ kind: "stuck-off", of: id }]],
        "always-on": [[{ kind: "stuck-on", of: id }]],
        open: [[{ kind: "stuck-off", of: id }]],
        bridge: [[{ kind: "stuck-on", of: id }]],
      };
    case "bias":
      return { dead: [[{ kind: "open", of: id }]], open: [[{ kind: "open", of: id }]] };
    case "bar":
      return {};
  }
}

/** Ohm of a part shorted inside. Common practice, no source. */
const INSIDE_OHM = 0.5;

function shortedInside(component: Component, element: Element): Ways {
  const [first, second] = element.between;
  const hasNames = !first.startsWith("#") && !second.startsWith("#");
  // Terminals of the part are its device contacts; an inner point is named with its component in front.
  const name = (address: string): string =>
    address.startsWith("#") ? `${component.id}${address}` : deviceSide(address);
  return hasNames || component.kind === "distribution"
    ? { bridge: [[{ kind: "bridge", between: [name(first), name(second)], ohm: INSIDE_OHM }]] }
    : {};
}

function deviceSide(address: string): string {
  const colon = address.lastIndexOf(":");
  return colon < 0 || address.slice(0, colon).endsWith(".device")
    ? address
    : `${address.slice(0, colon)}.device${address.slice(colon)}`;
}

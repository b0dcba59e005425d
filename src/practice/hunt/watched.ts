import type { Harness, HarnessEdge } from "../../model/index.ts";
import { mainTerminals, waysThrough } from "../../trace/index.ts";

/** Two nodes whose voltage shows whether a part does its work: across a consumer, or at the input a switch is read by. */
export interface Watched {
  readonly component: string;
  readonly kind: "consumer" | "input";
  readonly from: number;
  readonly to: number;
}

/** A consumer with this share or less of what its part draws most is no function of its own, such as a sensor cell beside a coil. */
const LEAST_SHARE = 0.05;

// Worked out once a harness, which never changes.
const known = new WeakMap<Harness, readonly Watched[]>();

/** Everything whose work a driver notices: loads, lamps, coils of valves and the like, and switches that a control unit reads. */
export function findWatched(harness: Harness): readonly Watched[] {
  let watched = known.get(harness);
  if (!watched) {
    watched = [...consumers(harness), ...inputs(harness)];
    known.set(harness, watched);
  }
  return watched;
}

function consumers(harness: Harness): readonly Watched[] {
  const found = harness.edges.flatMap((edge, number) => {
    const siemens = conductance(edge);
    if (edge.kind !== "element" || siemens <= 0) return [];
    const isCoil = edge.element.kind === "coil";
    return [{ component: edge.component.id, number, siemens, isCoil }];
  });
  const most = new Map<string, number>();
  for (const { component, siemens } of found) most.set(component, Math.max(most.get(component) ?? 0, siemens));
  return found
    .filter(({ component, siemens, isCoil }) => isCoil || siemens > LEAST_SHARE * (most.get(component) ?? 0))
    .map(({ component, number }) => ({
      component,
      kind: "consumer",
      from: harness.index.from[number] ?? 0,
      to: harness.index.to[number] ?? 0,
    }));
}

function conductance(edge: HarnessEdge): number {
  if (edge.kind !== "element") return 0;
  const { component, element } = edge;
  if (["module", "sensor", "relay", "distribution", "terminator", "alternator"].includes(component.kind)) return 0;
  if (element.kind === "load" || element.kind === "coil") return 1 / Math.max(element.resistanceOhm, 1e-6);
  return element.kind === "lamp" ? element.powerWatt / element.voltageVolt ** 2 : 0;
}

/** Module pins with a pull resistor that hang on one net with a switch. */
function inputs(harness: Harness): readonly Watched[] {
  const { ofNode } = waysThrough(harness, "conductors").components;
  const { negative } = mainTerminals(harness);
  if (negative === undefined) return [];
  const pins = new Map<number, number>();
  harness.edges.forEach((edge, number) => {
    if (edge.kind !== "element" || edge.element.kind !== "bias" || edge.component.kind !== "module") return;
    for (const end of [harness.index.from[number] ?? -1, harness.index.to[number] ?? -1])
      if (harness.nodes[end]?.kind === "contact") pins.set(ofNode[end] ?? -1, end);
  });
  return harness.edges.flatMap((edge, number): Watched[] => {
    if (edge.kind !== "element" || edge.element.kind !== "switch") return [];
    const ends = [harness.index.from[number] ?? -1, harness.index.to[number] ?? -1];
    const pin = ends.map((end) => pins.get(ofNode[end] ?? -1)).find((each) => each !== undefined);
    return pin === undefined ? [] : [{ component: edge.component.id, kind: "input", from: pin, to: negative }];
  });
}

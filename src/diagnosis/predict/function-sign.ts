import { circuitsOf, resolve, type Circuit } from "../../connectivity/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import { feedsAlone } from "../candidates/module-lines.ts";
import { statesToMeasure } from "./normal-circuit.ts";
import {
  groundOf,
  isOhmNoticed,
  isVoltNoticed,
  TRUST,
  usefulStates,
  type Shown,
  type Sign,
  type SignProbe,
} from "./sign.ts";

/** The circuits that a named thing serves or, where it serves none, belongs to. */
export function circuitsServed(harness: Harness, name: string): readonly Circuit[] {
  const resolution = resolve(harness, name);
  if (resolution.kind !== "one") return [];
  const circuits = circuitsOf(harness, resolution.item);
  const own = circuits.filter(
    ({ component, serves }) => component === resolution.item.id || serves.id === resolution.item.id,
  );
  return own.length > 0 ? feedsAlone(harness, resolution.item, own) : circuits;
}

/**
 * The sign that some circuits do not do their work. A consumer works by the current in it, never by the volts across it, which stay when it
 * opens itself. A sensor works by what its module reads, in volts against the ground of that module; what only moves works by its ohms.
 */
export function functionSign(harness: Harness, circuits: readonly Circuit[]): Sign {
  const probes = functionProbes(harness, circuits);
  return {
    probes,
    share: (now, normal) => {
      const shares = probes.map((probe, at) => disturbed(probe, now[at], normal[at]));
      const worst = Math.max(0, ...shares);
      return TRUST.badWithoutCause + worst * (TRUST.bad - TRUST.badWithoutCause);
    },
  };
}

/** A change of current that nobody notices, and one that everybody does, as shares. Common practice, no source. */
const UNNOTICED = 0.06;
const PLAIN = 0.2;
/** A consumer with less current than this rests, in ampere. */
const RESTS_AMPERE = 1e-6;

/** How surely a change is noticed, from 0 to 1. */
function disturbed({ kind }: SignProbe, now: Shown, normal: Shown): number {
  switch (kind) {
    case "dc-voltage":
      return Number(isVoltNoticed(now, normal));
    case "resistance":
      return Number(isOhmNoticed(now, normal));
    case "current": {
      if (now === "unsteady") return 1;
      if (typeof now !== "number" || typeof normal !== "number") return 0;
      const [ampere, usual] = [Math.abs(now), Math.abs(normal)];
      if (usual < RESTS_AMPERE) return Number(ampere > 0.02);
      const change = Math.abs(ampere / usual - 1);
      return Math.min(1, Math.max(0, (change - UNNOTICED) / (PLAIN - UNNOTICED)));
    }
  }
}

function functionProbes(harness: Harness, circuits: readonly Circuit[]): readonly SignProbe[] {
  const { off } = usefulStates(harness);
  const edges = new Set(circuits.flatMap((circuit) => [...circuit.edges]));
  const live = statesToMeasure(harness, edges).filter(({ conditions }) => !conditions.includes("battery-disconnected"));
  const probes = new Map<string, SignProbe>();
  const add = (probe: SignProbe): void => {
    if (probe.red !== "" && probe.black !== "" && probe.red !== probe.black)
      probes.set(Object.values(probe).join(" "), probe);
  };
  const keyOf = (node: number | undefined): string => harness.nodes[node ?? -1]?.key ?? "";
  for (const circuit of circuits) {
    const pins = modulePins(circuit);
    const isConsumer = harness.fitted.components.get(circuit.component ?? "")?.kind !== "sensor";
    for (const { id: state } of live) {
      for (const edge of circuit.ownEdges) {
        const item = harness.edges[edge];
        if (item?.kind !== "element" || item.element.kind === "divider") continue;
        const of = `${item.component.id}.${item.element.id}`;
        const [red, black] = [keyOf(harness.index.from[edge]), keyOf(harness.index.to[edge])];
        add({ state, kind: "current", of, red, black });
      }
      if (isConsumer && circuit.ownEdges.length > 0) continue;
      for (const pin of pins) {
        const node = harness.nodes[pin];
        const module = node?.kind === "contact" ? node.connector.component : undefined;
        add({ state, kind: "dc-voltage", red: keyOf(pin), black: groundOf(harness, module) ?? "" });
      }
    }
    // Between two pins lies the consumer itself; with more of them the inside of the module would be measured.
    const [first, second, ...more] = pins;
    if (off && second !== undefined && more.length === 0)
      add({ state: off.id, kind: "resistance", red: keyOf(first), black: keyOf(second) });
  }
  return [...probes.values()];
}

function modulePins({ sides }: Circuit): readonly number[] {
  return [...new Set(sides.flatMap(({ role, ends }) => (role === "module" ? ends : [])))].slice(0, 8);
}

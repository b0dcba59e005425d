import type { Circuit, SideRole } from "../../connectivity/index.ts";
import type { NetKind, Wire } from "../../harness-model/index.ts";
import type { DiagramScope } from "./diagram-scope.ts";

/** What a wire does in its circuit. */
export type WireRole = "supply" | "ground" | "signal" | "control" | "data";

/** The word and the tag of each role. */
export const ROLE_WORDS: Readonly<Record<WireRole, { readonly word: string; readonly tag: string }>> = {
  supply: { word: "supply", tag: "+" },
  ground: { word: "ground", tag: "−" },
  signal: { word: "signal", tag: "S" },
  control: { word: "control", tag: "C" },
  data: { word: "data", tag: "D" },
};

/**
 * What a wire does: by the kind of its net where that is a signal, a bus or a control line, else by the side of the circuit it lies on;
 * where that ends at a control unit, and in a net, by the kind of its net.
 *
 * @param edge Number of its edge.
 * @returns The role; undefined where neither says it.
 */
export function wireRole(scope: DiagramScope, edge: number, wire: Wire): WireRole | undefined {
  const kind = scope.harness.nets.get(wire.net ?? "")?.kind;
  const sides = scope.circuits
    .filter((circuit) => circuit.edges.has(edge))
    .flatMap((circuit) => sidesAt(circuit, edge));
  const roles = new Set(sides);
  if (kind === "signal" || kind === "data-bus" || kind === "driver" || kind === "boosted") return byNet(kind);
  if (roles.has("supply") && !roles.has("ground")) return "supply";
  if (roles.has("ground") && !roles.has("supply")) return "ground";
  return byNet(kind) ?? (roles.has("module") ? "control" : undefined);
}

function sidesAt(circuit: Circuit, edge: number): readonly SideRole[] {
  return circuit.sides.filter((side) => side.edges.has(edge)).map(({ role }) => role);
}

function byNet(kind: NetKind | undefined): WireRole | undefined {
  switch (kind) {
    case "battery-power":
    case "supply":
    case "sensor-supply":
      return "supply";
    case "ground":
    case "module-ground":
    case "sensor-return":
      return "ground";
    case "signal":
      return "signal";
    case "data-bus":
      return "data";
    case "start":
    case "driver":
    case "boosted":
      return "control";
    case "airbag":
    case "high-voltage":
    case undefined:
      return undefined;
  }
}

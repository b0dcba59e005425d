import type { Harness } from "../../harness-model/index.ts";
import { findPoint, unknownTarget } from "../faults/find-target.ts";
import { nodeVolts, type NodeVolts } from "../network/node-volts.ts";
import type { OperatingConditions } from "../network/part.ts";
import { solveCircuit, type SolvedCircuit } from "../network/solve-circuit.ts";

/** One stop on a way: its voltage against the chosen reference, and what is lost since the stop before. */
interface StopReading {
  /** Canonical address of the node. */
  readonly point: string;
  readonly at: NodeVolts;
  /** Volt from the stop before to this one, positive where voltage is lost; undefined at the first stop and next to a floating one. */
  readonly dropVolt: number | undefined;
}

/** Readings of a way, or why there are none. */
export type ReadingsAlong =
  | { readonly kind: "readings"; readonly stops: readonly StopReading[] }
  | Exclude<SolvedCircuit, { readonly kind: "settled" }>;

/**
 * The voltages along a way, stop by stop, for a path strip. No meter is held anywhere: these are the voltages that are there.
 *
 * @param way Numbers of the nodes in order, and the point at 0 V (the negative supply terminal when left out).
 */
export function readingsAlong(
  harness: Harness,
  operatingConditions: OperatingConditions,
  way: { readonly nodes: readonly number[]; readonly reference?: string },
): ReadingsAlong {
  const operatingPoint = solveCircuit(harness, operatingConditions);
  if (operatingPoint.kind !== "settled") return operatingPoint;
  const reference =
    way.reference === undefined
      ? operatingPoint.list.reference
      : findPoint(harness, operatingPoint.list, way.reference);
  if (reference === undefined)
    return { kind: "wrong-question", problems: [unknownTarget(harness, way.reference ?? "", "point")] };
  let before: NodeVolts | undefined;
  const stops = way.nodes.map((node): StopReading => {
    const at = nodeVolts(operatingPoint, node, reference);
    const dropVolt = before?.kind === "dc-voltage" && at.kind === "dc-voltage" ? before.volt - at.volt : undefined;
    before = at;
    return { point: operatingPoint.list.nodeKeys[node] ?? "", at, dropVolt };
  });
  return { kind: "readings", stops };
}

import type { OperatingPoint } from "ohmward/simulation";
import type { DcNetwork } from "../../simulation/support/plain-network.ts";

/** The network of a settled machine: relays, fold-back and pulsed drivers as they have settled. */
export function settledNetwork({ list, values }: OperatingPoint): DcNetwork {
  const { shape } = list;
  return {
    nodeCount: shape.nodeCount,
    branches: list.parts.map((_, at) => ({
      from: shape.from[at] ?? 0,
      to: shape.to[at] ?? 0,
      ohm: values.ohm[at] ?? Infinity,
      volt: values.volt[at] ?? 0,
    })),
  };
}

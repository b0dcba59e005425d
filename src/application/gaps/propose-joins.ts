import { formatCrossSectionMm2, naturalOrder } from "../../base/index.ts";
import { isUnusedSignal } from "../../import-export/index.ts";
import type { HarnessDocument, Wire } from "../../harness-model/index.ts";
import type { JoinProposal } from "./gap.ts";

/**
 * Finds wires with an open end that may be one: the same signal and the same colour at different connectors, fitted in the same builds, and
 * sizes that do not differ. They are proposals only: one signal name may be used for two lines.
 *
 * @param document The document.
 * @returns The proposals, in natural order of their signals; the same document gives the same ones with the same names.
 */
export function proposeJoins({ wires }: HarnessDocument): readonly JoinProposal[] {
  const groups = new Map<string, Wire[]>();
  for (const wire of wires) {
    const { ends, net, colour, when } = wire;
    if (ends[1] !== undefined || net === undefined || colour === undefined || isUnusedSignal(net)) continue;
    const key = JSON.stringify([plain(net), colour, when ?? ""]);
    groups.set(key, [...(groups.get(key) ?? []), wire]);
  }
  const likely = [...groups.values()].filter((group) => ownersOf(group) > 1 && sizesOf(group).length < 2);
  likely.sort((a, b) => naturalOrder(a[0]?.net ?? "", b[0]?.net ?? "") || naturalOrder(a[0]?.id ?? "", b[0]?.id ?? ""));
  return likely.map((group, at) => {
    const [size] = sizesOf(group);
    return {
      id: `J${at + 1}`,
      wires: group.map(({ id }) => id),
      points: group.map(({ ends }) => ends[0]),
      as: group.length === 2 ? "wire" : "splice",
      evidence: [
        `same signal ${group[0]?.net ?? ""}`,
        `same colour ${group[0]?.colour ?? ""}`,
        ...(size === undefined ? [] : [`size ${formatCrossSectionMm2(size)}`]),
      ],
    };
  });
}

function plain(net: string): string {
  return net.toUpperCase().replace(/\s+/gu, " ").trim();
}

function ownersOf(group: readonly Wire[]): number {
  return new Set(group.map(({ ends }) => ends[0].slice(0, Math.max(0, ends[0].lastIndexOf(":"))))).size;
}

function sizesOf(group: readonly Wire[]): readonly number[] {
  return [...new Set(group.flatMap(({ crossSectionMm2 }) => crossSectionMm2 ?? []))];
}

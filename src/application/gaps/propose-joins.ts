import { addTo, formatCrossSectionMm2, naturalOrder } from "../../base/index.ts";
import { endAddresses, type HarnessDocument, type Wire } from "../../harness-model/index.ts";
import { isUnusedSignal } from "../../import-export/index.ts";
import type { JoinProposal } from "./gap.ts";

/** The known end of a wire whose other end is open, or a pin of which the data gives the function and no wire. */
interface LooseEnd {
  readonly point: string;
  readonly name: string;
  readonly wire?: Wire;
}

/**
 * Finds wires with an open end, and pins without a wire, that may be one net: the same signal or function at different connectors, fitted in
 * the same builds, in colours that do not differ. They are proposals only: one name may be used for two lines.
 *
 * @param document The document.
 * @returns The proposals, in natural order of their signals; the same document gives the same ones with the same names.
 */
export function proposeJoins(document: HarnessDocument): readonly JoinProposal[] {
  const groups = new Map<string, LooseEnd[]>();
  for (const end of looseEnds(document)) addTo(groups, JSON.stringify([plain(end.name), end.wire?.when ?? ""]), end);
  const likely = [...groups.values()].flatMap(ofOneColour).filter((group) => ownersOf(group) > 1);
  likely.sort((a, b) => naturalOrder(nameOf(a), nameOf(b)) || naturalOrder(a[0]?.point ?? "", b[0]?.point ?? ""));
  return likely.map((group, at) => {
    const [colour] = coloursOf(group);
    const sizes = [...new Set(group.flatMap(({ wire }) => wire?.crossSectionMm2 ?? []))].sort((a, b) => a - b);
    return {
      id: `J${at + 1}`,
      net: nameOf(group),
      wires: group.flatMap(({ wire }) => wire?.id ?? []),
      points: group.map(({ point }) => point),
      as: group.length === 2 ? "wire" : "splice",
      evidence: [
        `same signal ${nameOf(group)}`,
        ...(colour === undefined ? [] : [`same colour ${colour}`]),
        ...(sizes.length === 0 ? [] : [`size ${sizes.map(formatCrossSectionMm2).join(", ")}`]),
      ],
    };
  });
}

function looseEnds({ wires, connectors }: HarnessDocument): readonly LooseEnd[] {
  const used = new Set(wires.flatMap((wire) => endAddresses(wire)));
  const ofWires = wires.flatMap((wire): readonly LooseEnd[] => {
    const { ends, net } = wire;
    return ends[1] !== undefined || net === undefined || isUnusedSignal(net)
      ? []
      : [{ point: ends[0], name: net, wire }];
  });
  const ofPins = connectors.flatMap(({ id, kind, when, cavities }): readonly LooseEnd[] => {
    if (kind !== "component" || when !== undefined) return [];
    return cavities.flatMap(({ id: cavity, note }) => {
      const point = `${id}:${cavity}`;
      return note === undefined || isUnusedSignal(note) || used.has(point) ? [] : [{ point, name: note }];
    });
  });
  return [...ofWires, ...ofPins];
}

/** The ends of one name by colour, where they have several; an end without a colour then belongs to none of them. */
function ofOneColour(group: readonly LooseEnd[]): readonly (readonly LooseEnd[])[] {
  const colours = coloursOf(group);
  if (colours.length < 2) return [group];
  return colours.map((colour) => group.filter(({ wire }) => wire?.colour === colour));
}

function coloursOf(group: readonly LooseEnd[]): readonly string[] {
  return [...new Set(group.flatMap(({ wire }) => wire?.colour ?? []))];
}

function nameOf(group: readonly LooseEnd[]): string {
  return group[0]?.name ?? "";
}

function plain(name: string): string {
  return name.toUpperCase().replace(/\s+/gu, " ").trim();
}

function ownersOf(group: readonly LooseEnd[]): number {
  return new Set(group.map(({ point }) => point.slice(0, Math.max(0, point.lastIndexOf(":"))))).size;
}

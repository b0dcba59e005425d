import { naturalOrder } from "../../base/index.ts";
import { isPermittedAt, type Connector, type HarnessDocument, type Wire } from "../../harness-model/index.ts";
import { shapeOf } from "./like-connectors.ts";
import { makeGap } from "./gap-texts.ts";
import { groundedEnds, guessInside } from "./guess-inside.ts";
import type { Gap, ItemGaps } from "./gap.ts";

/**
 * Finds what the data leaves open: for each item what is missing for following wires, expected readings, meter tests and jobs.
 *
 * @param document The document.
 * @returns The items with gaps: the machine, connectors, wires and nets, components, states, zones, adapters.
 */
export function findGaps(document: HarnessDocument): readonly ItemGaps[] {
  return [
    machineGaps(document),
    ...connectorGaps(document),
    ...wireGaps(document),
    ...netGaps(document),
    ...componentGaps(document),
    ...document.states.map(({ id, label, conditions }) =>
      gapsOf({ about: id, sort: "state", label }, conditions.length === 0 ? [makeGap(id, "conditions")] : []),
    ),
    ...document.zones.map(({ id, label, hazards }) =>
      gapsOf({ about: id, sort: "zone", label }, hazards ? [] : [makeGap(id, "hazards")]),
    ),
    ...document.adapters.map(({ id, label, points }) =>
      gapsOf({ about: id, sort: "adapter", label }, points === undefined ? [makeGap(id, "adapter-points")] : []),
    ),
  ].filter(({ gaps }) => gaps.length > 0);
}

type Named = Pick<ItemGaps, "about" | "sort" | "label">;

function gapsOf(item: Named, gaps: readonly Gap[], alike: readonly string[] = []): ItemGaps {
  return { ...item, gaps, alike };
}

function machineGaps(document: HarnessDocument): ItemGaps {
  const { system, terminalStuds, wires, about, connectors, components } = document;
  const isFed =
    system.supply !== undefined ||
    components.some(({ elements }) => elements.some((each) => each.kind === "source" && each.role === "battery"));
  const hasRole = (role: "supply" | "ground"): boolean => isFed || terminalStuds.some((stud) => stud.role === role);
  return gapsOf({ about: "machine", sort: "machine", label: about.machine }, [
    ...(wires.length === 0 ? [makeGap("machine", "wires")] : []),
    ...(hasRole("supply") ? [] : [makeGap("machine", "supply")]),
    ...(hasRole("ground") ? [] : [makeGap("machine", "ground")]),
    ...(isAccessKnown(system) || connectors.every((each) => each.access) ? [] : [makeGap("machine", "access")]),
  ]);
}

function isAccessKnown({ usualAccess }: HarnessDocument["system"]): boolean {
  return usualAccess?.states !== undefined;
}

/**
 * The gaps of one connector. A terminal size is asked for only while the connector may have to be probed.
 *
 * @param document The document.
 * @param connector One of its connectors.
 */
export function gapsOfConnector(document: HarnessDocument, connector: Connector): readonly Gap[] {
  const { id, sealed, permits, cavities, access, zone } = connector;
  const isProbed = permits === undefined || isPermittedAt(connector, "front-probe");
  const zones = document.zones.map(({ id: value, label }) => ({ value, label }));
  return [
    ...(sealed === undefined && cavities.some((each) => each.sealed === undefined) ? [makeGap(id, "sealed")] : []),
    ...(permits === undefined ? [makeGap(id, "permits")] : []),
    ...(isProbed && cavities.some((each) => each.terminalMm === undefined) ? [makeGap(id, "terminal-size")] : []),
    ...((access ?? document.system.usualAccess)?.states === undefined ? [makeGap(id, "access")] : []),
    ...(zone === undefined ? [makeGap(id, "zone", zones)] : []),
  ];
}

function connectorGaps(document: HarnessDocument): readonly ItemGaps[] {
  const found = document.connectors.map((connector) => ({ connector, gaps: gapsOfConnector(document, connector) }));
  const byShape = new Map<string, typeof found>();
  for (const each of found) {
    const shape = shapeOf(each.connector);
    byShape.set(shape, [...(byShape.get(shape) ?? []), each]);
  }
  return found.map(({ connector, gaps }) => {
    const open = new Set(gaps.map(({ what }) => what));
    const alike = (byShape.get(shapeOf(connector)) ?? []).filter(
      (each) => each.connector !== connector && each.gaps.some(({ what }) => open.has(what)),
    );
    const { id, label } = connector;
    return gapsOf(
      { about: id, sort: "connector", label },
      gaps,
      alike.map((each) => each.connector.id),
    );
  });
}

function wireGaps({ wires }: HarnessDocument): readonly ItemGaps[] {
  const label = ({ net, colour, ends }: Wire): string =>
    [`at ${ends[0]}`, net, colour].filter((part) => part !== undefined).join(", ");
  return wires
    .filter(({ ends }) => ends[1] === undefined)
    .map((wire) => gapsOf({ about: wire.id, sort: "wire", label: label(wire) }, [makeGap(wire.id, "far-end")]));
}

function netGaps({ wires, nets }: HarnessDocument): readonly ItemGaps[] {
  const known = new Map(nets.map((net) => [net.id, net]));
  const used = [...new Set(wires.flatMap(({ net }) => net ?? []))].sort(naturalOrder);
  return used.map((id) => {
    const net = known.get(id);
    return gapsOf({ about: id, sort: "net", label: net?.label ?? id }, net?.kind ? [] : [makeGap(id, "net-kind")]);
  });
}

function componentGaps(document: HarnessDocument): readonly ItemGaps[] {
  const grounded = groundedEnds(document);
  return document.components.map((component) => {
    const { id, label, elements } = component;
    if (elements.length > 0) return gapsOf({ about: id, sort: "component", label }, []);
    const guesses = guessInside(document, component, grounded).map((text) => ({ value: text, label: text }));
    return gapsOf({ about: id, sort: "component", label }, [makeGap(id, "inside", guesses)]);
  });
}

import { formatCrossSectionMm2, formatLengthMm, formatMinutes, formatNumber } from "../base/index.ts";
import { sideKey, type Connector, type Harness } from "../harness-model/index.ts";
import type { ItemFacts } from "../connectivity/index.ts";
import { colourMark, type ColourMark } from "./colour-mark.ts";
import { wireEnds } from "./wire-ends.ts";

/** A box of the strip: one thing on the way. */
export interface StripBox {
  readonly type: string;
  readonly id: string;
  /** What stands at the top: its id. */
  readonly title: string;
  /** What it is, in words. */
  readonly label: string;
  /** Facts, a line each: size and length, terminal, where it lies. */
  readonly lines: readonly string[];
  /** The colour of a wire. */
  readonly mark?: ColourMark;
  /** Both halves of a contact by name, in the order the way passes them; one where only one half is passed. */
  readonly sides?: readonly string[];
  /** Every path passes it. */
  readonly isMustPass: boolean;
  /** The wires before and after this contact differ in colour. */
  readonly colourChanges: boolean;
}

/**
 * The way between two things as boxes in order, ready to be drawn.
 *
 * @param harness The harness, for the names of connector halves.
 * @param path Facts of the things on the way, in order.
 * @param mustPass Ids of what every path passes.
 */
export function pathStrip(
  harness: Harness,
  path: readonly ItemFacts[],
  mustPass: readonly string[] = [],
): readonly StripBox[] {
  const must = new Set(mustPass);
  return path.map((facts, at): StripBox => {
    const [before, after] = [nearestWire(path, at, -1), nearestWire(path, at, 1)];
    const sides = facts.type === "contact" ? sidesOnTheWay(harness, facts, [before, after]) : undefined;
    return {
      type: facts.type,
      id: facts.id,
      title: facts.id,
      label: facts.label,
      lines: linesOf(facts),
      ...(facts.type === "wire" && { mark: colourMark(facts.colour) }),
      ...(sides && { sides }),
      isMustPass: must.has(facts.id),
      colourChanges:
        facts.type === "contact" && before !== undefined && after !== undefined && before.colour !== after.colour,
    };
  });
}

/** The wire right before or after a contact; none where something else lies between. */
function nearestWire(path: readonly ItemFacts[], at: number, step: 1 | -1): ItemFacts | undefined {
  const next = path[at + step];
  return next?.type === "wire" ? next : undefined;
}

function linesOf(facts: ItemFacts): readonly string[] {
  const { crossSectionMm2, lengthMm, terminalMm, position, minutes } = facts;
  const lines: string[] = [];
  const size = [
    ...(crossSectionMm2 === undefined ? [] : [formatCrossSectionMm2(crossSectionMm2)]),
    ...(lengthMm === undefined ? [] : [formatLengthMm(lengthMm)]),
  ];
  if (size.length > 0) lines.push(size.join(", "));
  if (terminalMm !== undefined) lines.push(`terminal ${formatNumber(terminalMm, 2)} mm`);
  if (position !== undefined) lines.push(position);
  if (minutes !== undefined) lines.push(`${formatMinutes(minutes)} to reach`);
  return lines;
}

function sidesOnTheWay(
  harness: Harness,
  facts: ItemFacts,
  [before, after]: readonly [ItemFacts | undefined, ItemFacts | undefined],
): readonly string[] | undefined {
  const owner = facts.id.slice(0, facts.id.lastIndexOf(":"));
  // A contact named by its half is passed in that half only.
  if (harness.book.sides.has(owner)) return [facts.id];
  const connector = harness.fitted.connectors.get(owner);
  if (!connector || facts.cavity === undefined) return undefined;
  const fitted = (harness.fitted.sides.get(connector.id) ?? []).map((side) => sideKey(connector, side));
  const first = sideOfWire(harness, before?.id, { connector, cavity: facts.cavity });
  const last = sideOfWire(harness, after?.id, { connector, cavity: facts.cavity });
  const ordered = fitted.toSorted((a, b) => rank(a, first, last) - rank(b, first, last));
  return ordered.map((side) => shortSide(connector, side, facts.cavity ?? ""));
}

/** A half as it is told beside the connector's own name: `XC1m:3`, or the bare name of a half that has no short way to be written. */
function shortSide(connector: Connector, side: string, cavity: string): string {
  const prefix = `${connector.id}.`;
  return side.startsWith(prefix) ? side.slice(prefix.length) : `${side}:${cavity}`;
}

function rank(side: string, first: string | undefined, last: string | undefined): number {
  if (side === first) return 0;
  return side === last ? 2 : 1;
}

/** The half of a cavity that a wire ends in. */
function sideOfWire(
  harness: Harness,
  wire: string | undefined,
  at: { readonly connector: Connector; readonly cavity: string },
): string | undefined {
  for (const { node } of wire === undefined ? [] : (wireEnds(harness, wire) ?? [])) {
    if (node.kind === "contact" && node.connector === at.connector && node.cavity.id === at.cavity)
      return sideKey(node.connector, node.side);
  }
  return undefined;
}

import type { ImportPlace } from "../import-problem.ts";
import type { EndPoint } from "./end-text.ts";
import type { WireFacts } from "./wire-facts.ts";

/** A contact of a table. */
export type ContactPoint = Extract<EndPoint, { kind: "contact" }>;

/** The ends of a wire as a table gives them; without the second its far end is not known. */
export type EntryEnds = readonly [EndPoint, EndPoint | undefined];

/** A wire as a table gives it. */
export interface WireEntry {
  /** What the file calls it; empty if it has no name. */
  readonly id: string;
  readonly ends: EntryEnds;
  readonly facts: WireFacts;
  readonly netKind: string;
  readonly at: ImportPlace;
}

/** A pin as a table gives it, whether or not a wire sits in it. */
export interface PinEntry {
  readonly point: ContactPoint;
  readonly note: string;
  readonly terminalMm: number | undefined;
  /** Name of the connector this one mates with; empty if the row does not say. */
  readonly mate: string;
  readonly at: ImportPlace;
}

/** Everything a table says, row by row, before it becomes a document. */
export interface TableEntries {
  readonly wires: readonly WireEntry[];
  readonly pins: readonly PinEntry[];
}

/** One text for one point, so that points can be compared. */
export function pointText(point: EndPoint): string {
  if (point.kind !== "contact") return point.id;
  return [point.connector === "" ? point.component : "", point.connector, point.half, point.pin].join("\0");
}

/** One text for a pair of ends, whichever comes first. */
export function endsText(ends: EntryEnds): string {
  return knownEnds(ends).map(pointText).sort().join("\u0001");
}

/** The ends of a wire that the table names. */
export function knownEnds([first, second]: EntryEnds): readonly EndPoint[] {
  return second ? [first, second] : [first];
}

/** A contact in words, as `X1:5`. */
export function showPoint(point: EndPoint): string {
  if (point.kind !== "contact") return point.id;
  return `${point.connector === "" ? point.component : point.connector}${point.half === "" ? "" : `.${point.half}`}:${point.pin}`;
}

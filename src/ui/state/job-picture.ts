import {
  cavityContents,
  connectorFace,
  highlight,
  litBundles,
  type CavityContent,
  type ConnectorFace,
} from "../../drawing/index.ts";
import type { Connector, ConnectorSide, Harness } from "../../harness-model/index.ts";
import type { Item } from "../../connectivity/index.ts";
import type { Highlighted } from "../graph/harness-graph.ts";
import {
  type CheckFacts,
  describeItem,
  itemOfId,
  joinNames,
  type PossibleCauseFacts,
} from "../../application/index.ts";
import { sidesToShow } from "./inspect.ts";

/** A place on the machine: a cavity of a side, or an item without a face. */
export interface ShownPlace {
  readonly at: string;
  /** What a person calls it. */
  readonly words: string;
  readonly face?: { readonly connector: Connector; readonly side: ConnectorSide; readonly cavity?: string };
}

/**
 * Finds what is to be shown of an address.
 *
 * @param harness The harness.
 * @param at An address, such as `B3.X.harness:2`, `G2-` or `XC1`.
 */
export function placeToShow(harness: Harness, at: string): ShownPlace {
  const colon = at.lastIndexOf(":");
  const owner = colon < 0 ? at : at.slice(0, colon);
  const named = harness.book.sides.get(owner);
  const connector = harness.fitted.connectors.get(named?.connector.id ?? owner);
  const side = connector && (named?.side ?? sidesToShow(harness, connector)[0]);
  if (!connector || !side) return { at, words: wordsOf(harness, at) };
  const cavity = colon < 0 ? {} : { cavity: at.slice(colon + 1) };
  return { at, words: wordsOf(harness, connector.id), face: { connector, side, ...cavity } };
}

/** A lead that goes into a connector. */
export interface FacedLead {
  readonly lead: "red" | "black";
  readonly at: string;
  readonly face: NonNullable<ShownPlace["face"]>;
}

/** Those of some leads that go into a connector. */
export function facedLeads(harness: Harness, leads: readonly Pick<FacedLead, "lead" | "at">[]): readonly FacedLead[] {
  return leads.flatMap(({ lead, at }): FacedLead[] => {
    const { face } = placeToShow(harness, at);
    return face ? [{ lead, at, face }] : [];
  });
}

/** What is seen of an opened connector. */
export interface FacesOfPlace {
  /** The side that a lead goes into first. */
  readonly faces: readonly ConnectorFace[];
  readonly contents: ReadonlyMap<string, CavityContent>;
  /** Too wide for two beside each other with the letters of the colours. */
  readonly isWide: boolean;
}

const WIDE = 330;

/** Both faces of the side at a point. */
export function facesOfPlace(harness: Harness, { connector, side }: NonNullable<ShownPlace["face"]>): FacesOfPlace {
  const faces = (["mating-side", "wire-side"] as const).map((view) => connectorFace(connector, side, view));
  return {
    faces,
    contents: cavityContents(harness, connector, side),
    isWide: faces.some(({ width }) => width > WIDE),
  };
}

function wordsOf(harness: Harness, at: string): string {
  const item = itemOfId(harness, at);
  const { label, component } = describeItem(harness, item);
  const of = harness.fitted.components.get(
    component ?? harness.fitted.connectors.get(at)?.component ?? at.split(/[.#]/u)[0] ?? "",
  );
  return joinNames([of?.label, label === at ? undefined : label]);
}

/** Possible causes above this probability light up. */
const LIT_SHARE = 0.01;

/** What of the drawing lights up for a job: the points of the check, what is disconnected, and what is still possible. */
export function litOfJob(
  harness: Harness,
  check: Pick<CheckFacts, "points" | "unplugged">,
  suspects: readonly PossibleCauseFacts[],
): Highlighted | undefined {
  const suspected = suspects.filter(({ share }) => share >= LIT_SHARE).flatMap(({ items }) => items);
  const { wires, items, bundles } = highlight(harness, [...check.points, ...check.unplugged, ...suspected]);
  if (wires.length + items.size + bundles.size === 0) return undefined;
  return { wires: litBundles(harness, wires).wires, items, bundles };
}

/** The item on the drawing that the check is about. */
export function pickedOfJob(harness: Harness, { points: [at] }: Pick<CheckFacts, "points">): Item | undefined {
  if (at === undefined) return undefined;
  const { face } = placeToShow(harness, at);
  return face ? { type: "connector", id: face.connector.id } : itemOfId(harness, at);
}

import type { Access, Adapter, Cavity, Connector, Half, HarnessEdge, HarnessNode, Hazard } from "../model/index.ts";
import type { Item } from "../trace/index.ts";
import type { Method, PlaceKind } from "./method.ts";

/** How a place is reached. */
export interface Reaching {
  readonly zone: string | undefined;
  /** Minutes until the reading can be taken, adapters fitted. */
  readonly minutes: number;
  /** The document gives no time for this very thing; the figure is that of the quickest thing nearby, or a typical one. */
  readonly isEstimated: boolean;
  readonly remove: string | undefined;
  /** The states in which it can be reached; undefined means not known. */
  readonly states: Access["states"];
  readonly hazards: readonly Hazard[];
  /** The document does not say where it is, or not what the dangers are there. */
  readonly isPlaceUnknown: boolean;
}

/** One way of taking a reading at one place: what the rules judge. */
export interface Contact {
  readonly method: Method;
  readonly place: PlaceKind;
  /** What is touched or embraced, as an item of the harness. */
  readonly item: Item;
  /** The electrical point, as a node number; for a wire undefined. */
  readonly node: number | undefined;
  /** The wire or fuse, as an edge number. */
  readonly edge: number | undefined;
  readonly socket: { readonly connector: Connector; readonly half: Half; readonly cavity: Cavity } | undefined;
  readonly component: string | undefined;
  readonly adapter: Adapter | undefined;
  /** Where a wire is embraced: the segment of its route or, where no route is known, the point it ends at. */
  readonly near: string | undefined;
  readonly reaching: Reaching;
}

/** A node with its number. */
export interface NumberedNode {
  readonly number: number;
  readonly node: HarnessNode;
}

/** An edge with its number. */
export interface NumberedEdge {
  readonly number: number;
  readonly edge: HarnessEdge;
}

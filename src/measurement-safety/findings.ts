import type {
  Access,
  Adapter,
  Cavity,
  Connector,
  ConnectorSide,
  HarnessEdge,
  HarnessNode,
  Hazard,
} from "../harness-model/index.ts";
import type { Item } from "../connectivity/index.ts";
import type { Meter, Method, PlaceKind, ProbeClass } from "./rule.ts";

/**
 * How a point relates to what was asked: `itself`; `same-net`, joined by conductors alone; `parted`, on the same net only until the
 * connector is unplugged for the reading.
 */
export type Relation = "itself" | "same-net" | "parted";

/** Why a meter or a method is refused: the row of the table. */
export interface Refused {
  readonly rule: string;
  readonly reason: string;
  readonly source: string;
}

/** A place where a meter may be put, in the state asked about. */
export interface ProbePoint {
  /** Unique in the answer: method, place and adapter, such as `front-probe@B3.X.harness:1`. */
  readonly id: string;
  readonly class: ProbeClass;
  readonly method: Method;
  /** What to do, as a sentence. */
  readonly how: string;
  /** What is touched or embraced. */
  readonly item: Item;
  /** The electrical point that is reached, as a canonical address; absent where nothing is touched. */
  readonly at?: string;
  readonly relation: Relation;
  /** Items between the item asked about and this point, in order; empty for the thing itself. */
  readonly between: readonly Item[];
  /** Id of the adapter of the document. */
  readonly adapter?: string;
  readonly terminalMm?: number;
  /** The connector that is unplugged for the reading. */
  readonly unplug?: string;
  readonly minutes: number;
  /** The document gives no time for this point; the value is typical or taken from the nearest item. */
  readonly isEstimated: boolean;
  readonly remove?: string;
  readonly zone?: string;
  /** The segment where the clamp goes round the wire. */
  readonly segment?: string;
  readonly meters: readonly Meter[];
  readonly notFor: readonly (Refused & { readonly meter: Meter })[];
  readonly cautions: readonly string[];
}

/** A way of taking a reading that is refused. */
export interface NotPermittedPoint extends Refused {
  readonly id: string;
  readonly method: Method;
  readonly item: Item;
  readonly at?: string;
  /** Id of the nearest point that is allowed, on the same net. */
  readonly instead?: string;
}

/** Test points and where not. */
export interface ProbeFindings {
  readonly kind: "probe-points";
  /** The state it holds for. */
  readonly state: string;
  /** Best first. */
  readonly points: readonly ProbePoint[];
  /** Nearest to the thing asked about first. */
  readonly refused: readonly NotPermittedPoint[];
  readonly cautions: readonly string[];
}

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
  readonly socket: { readonly connector: Connector; readonly side: ConnectorSide; readonly cavity: Cavity } | undefined;
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

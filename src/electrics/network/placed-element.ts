import type { Component, Element } from "../../model/index.ts";

/** An element with the nodes of its edge. */
export interface PlacedElement {
  /** Key of the edge: `A3.F3`, or `B3.cell.top`. */
  readonly edgeKey: string;
  readonly key: string;
  readonly component: Component;
  readonly element: Element;
  readonly from: number;
  readonly to: number;
  /** First node of the other edge of a divider; the same as `from` for anything else. */
  readonly top: number;
}

import type { Cavity, Connector, ConnectorSide } from "./schema/connector.ts";
import type { Component, Element } from "./schema/element.ts";
import type { Splice, TerminalStud, Wire } from "./schema/routing.ts";

/** A node of the graph. `key` is its canonical address. */
export type HarnessNode =
  | {
      readonly kind: "contact";
      readonly key: string;
      readonly connector: Connector;
      readonly side: ConnectorSide;
      readonly cavity: Cavity;
    }
  | { readonly kind: "splice"; readonly key: string; readonly splice: Splice }
  | { readonly kind: "stud"; readonly key: string; readonly stud: TerminalStud }
  | { readonly kind: "open-end"; readonly key: string; readonly wire: Wire }
  | { readonly kind: "inner"; readonly key: string; readonly component: Component; readonly name: string };

/**
 * An edge of the graph. `key` is the wire id, `A1.X1:36` for the mating of two halves in a cavity, `A3.F3` for an element; the two
 * edges of a divider end in `.top` and `.bottom`.
 */
export type HarnessEdge =
  | { readonly kind: "wire"; readonly key: string; readonly wire: Wire }
  | { readonly kind: "mating"; readonly key: string; readonly connector: Connector; readonly cavity: Cavity }
  | { readonly kind: "element"; readonly key: string; readonly component: Component; readonly element: Element };

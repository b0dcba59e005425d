import type { AddressBook } from "./address-book.ts";
import type { FrozenGraph } from "./frozen-graph.ts";
import type { GraphIndex } from "./graph-index.ts";
import type { Cavity, Connector, Half } from "./schema/connector.ts";
import type { HarnessDocument } from "./schema/document.ts";
import type { Component, Element } from "./schema/element.ts";
import type { Build, Net } from "./schema/machine.ts";
import type { Segment, Splice, Stud, Wire } from "./schema/routing.ts";

/** A node of the graph. `key` is its canonical address. */
export type HarnessNode =
  | {
      readonly kind: "contact";
      readonly key: string;
      readonly connector: Connector;
      readonly half: Half;
      readonly cavity: Cavity;
    }
  | { readonly kind: "splice"; readonly key: string; readonly splice: Splice }
  | { readonly kind: "stud"; readonly key: string; readonly stud: Stud }
  | { readonly kind: "inner"; readonly key: string; readonly component: Component; readonly name: string };

/**
 * An edge of the graph. `key` is the wire id, `A1.X1:36` for the mating of two halves in a cavity, `A3.F3` for an element; the two
 * edges of a divider end in `.top` and `.bottom`.
 */
export type HarnessEdge =
  | { readonly kind: "wire"; readonly key: string; readonly wire: Wire }
  | { readonly kind: "mating"; readonly key: string; readonly connector: Connector; readonly cavity: Cavity }
  | { readonly kind: "element"; readonly key: string; readonly component: Component; readonly element: Element };

/**
 * One machine in one build, ready to be asked: the document, the frozen graph of what is fitted, and the typed-array index whose node
 * and edge numbers are positions in `nodes` and `edges`. Nothing in it ever changes.
 */
export interface Harness {
  readonly document: HarnessDocument;
  readonly build: Build;
  readonly graph: FrozenGraph;
  readonly index: GraphIndex;
  readonly nodes: readonly HarnessNode[];
  readonly edges: readonly HarnessEdge[];
  /** Node number by canonical address. */
  readonly nodeNumbers: ReadonlyMap<string, number>;
  /** Edge number by edge key. */
  readonly edgeNumbers: ReadonlyMap<string, number>;
  readonly book: AddressBook;
  /** Things of the document fitted in this build, by id. */
  readonly fitted: FittedThings;
  /** Segments by id. */
  readonly segments: ReadonlyMap<string, Segment>;
  /** Nets by label. */
  readonly nets: ReadonlyMap<string, Net>;
}

/** What is fitted in the build. */
export interface FittedThings {
  readonly wires: ReadonlyMap<string, Wire>;
  readonly splices: ReadonlyMap<string, Splice>;
  readonly studs: ReadonlyMap<string, Stud>;
  readonly connectors: ReadonlyMap<string, Connector>;
  readonly components: ReadonlyMap<string, Component>;
  /** Fitted halves of each fitted connector, in document order: one or two. */
  readonly halves: ReadonlyMap<string, readonly Half[]>;
}

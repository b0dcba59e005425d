import type { AddressBook } from "./address-book.ts";
import type { GraphIndex } from "./graph-index.ts";
import type { HarnessEdge, HarnessNode } from "./harness-parts.ts";
import type { Connector, ConnectorSide } from "./schema/connector.ts";
import type { HarnessDocument } from "./schema/document.ts";
import type { Component } from "./schema/element.ts";
import type { Build, Net } from "./schema/machine.ts";
import type { Segment, Splice, TerminalStud, Wire } from "./schema/routing.ts";

/**
 * One machine in one build, ready to be asked: the document, what is fitted, and the graph of it as a typed-array index whose node and
 * edge numbers are positions in `nodes` and `edges`. Nothing in it ever changes. `harnessGraph` gives the same graph for programs.
 */
export interface Harness {
  readonly document: HarnessDocument;
  readonly build: Build;
  readonly index: GraphIndex;
  readonly nodes: readonly HarnessNode[];
  readonly edges: readonly HarnessEdge[];
  /** Node number by canonical address. */
  readonly nodeNumbers: ReadonlyMap<string, number>;
  /** Edge number by edge key. */
  readonly edgeNumbers: ReadonlyMap<string, number>;
  readonly book: AddressBook;
  /** Things of the document fitted in this build, by id. */
  readonly fitted: FittedItems;
  /** Segments by id. */
  readonly segments: ReadonlyMap<string, Segment>;
  /** Nets by label. */
  readonly nets: ReadonlyMap<string, Net>;
}

/** What is fitted in the build. */
export interface FittedItems {
  readonly wires: ReadonlyMap<string, Wire>;
  readonly splices: ReadonlyMap<string, Splice>;
  readonly terminalStuds: ReadonlyMap<string, TerminalStud>;
  readonly connectors: ReadonlyMap<string, Connector>;
  readonly components: ReadonlyMap<string, Component>;
  /** Fitted halves of each fitted connector, in document order: one or two. */
  readonly sides: ReadonlyMap<string, readonly ConnectorSide[]>;
}

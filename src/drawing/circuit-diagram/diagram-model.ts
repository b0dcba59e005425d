import type { Thing } from "./diagram-graph.ts";
import type { DiagramScope } from "./diagram-scope.ts";
import type { DiagramGraph, Line } from "./diagram-graph.ts";

/** A bar or a box: what columns begin and end at. */
export interface WideThing {
  /** Its thing, as a position in the graph. A box that is drawn twice is two wide things of one thing. */
  readonly thing: number;
  /** Height in the circuit, 1 at the supply and 0 at the ground. */
  readonly height: number;
  /** Columns that come down to it, as positions in the model. */
  readonly above: readonly number[];
  /** Columns that go down from it. */
  readonly below: readonly number[];
}

/** A chain of gates, pins and parts between two wide things, from the upper one to the lower one. */
export interface DiagramColumn {
  readonly key: string;
  /** Position of the upper wide thing. */
  readonly upper: number;
  readonly lower: number;
  /** Pin of the upper wide thing where that is a box. */
  readonly upperPin: string | undefined;
  readonly lowerPin: string | undefined;
  /** Things in it, as positions in the graph. */
  readonly things: readonly number[];
  /** Lines between them, one more than things. */
  readonly lines: readonly Line[];
  readonly strong: boolean;
}

/** A coil and a contact that it moves, as positions of things. */
export interface DiagramLink {
  readonly contact: number;
  readonly coil: number;
}

/** A circuit diagram before it has any place: bars and boxes with columns between them, up and down decided. */
export interface DiagramModel {
  readonly scope: DiagramScope;
  readonly graph: DiagramGraph;
  readonly wides: readonly WideThing[];
  readonly columns: readonly DiagramColumn[];
  readonly links: readonly DiagramLink[];
  /** Pairs of things that stand at one height. */
  readonly levels: readonly (readonly [number, number])[];
}

/** A thing of a model; throws where there is none. */
export function thingAt({ graph }: Pick<DiagramModel, "graph">, at: number): Thing {
  const thing = graph.things[at];
  if (!thing) throw new RangeError(`There is no thing ${at}`);
  return thing;
}

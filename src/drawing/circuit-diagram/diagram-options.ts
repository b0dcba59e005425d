import type { CoilDepth } from "./choose-circuits.ts";

/** What is written at a point: an expected voltage or the words for a lead, and whether a meter may be put there. */
export interface PointMark {
  readonly text: string;
  /** Whether the rules permit a contact there. This room never decides it. */
  readonly permitted: boolean;
}

/** How a diagram is drawn. */
export interface DiagramOptions {
  /** Draws the feed from the battery where it would be left out. Default: it is left out. */
  readonly wholeFeed?: boolean;
  /** How far coils of relays are followed. Default: those of the contacts of the circuit. */
  readonly coils?: CoilDepth;
  /** `full` labels, or `short` ones with id and value only. */
  readonly labels?: "full" | "short";
  /** `normal` rows, `close` ones with the label of a wire on one row, or `auto`: close where the drawing is higher than 1000 px. */
  readonly rows?: "normal" | "close" | "auto";
  /** Writes the role of a wire as a word beside its tag. Default: the tag alone, with a legend. */
  readonly roleWords?: boolean;
  /** Lines above the drawing, the first one large: what it is of, machine and build. Needed where it stands by itself. */
  readonly heading?: readonly string[];
  /** Sentences below the drawing, such as cautions; they are broken into rows of the width of the drawing. */
  readonly footing?: readonly string[];
  /** What is written at points, by address of the point or of the mated contact pair. */
  readonly marks?: ReadonlyMap<string, PointMark>;
}

/** What sketches need to know of the options. */
export interface SketchStyle {
  readonly short: boolean;
  readonly close: boolean;
  readonly roleWords: boolean;
  readonly marks: ReadonlyMap<string, PointMark>;
}

import type { ReadOptions } from "../format-reader.ts";
import type { Delimiter } from "../csv.ts";
import type { ColourScheme } from "./wire-facts.ts";
import type { DecimalSign } from "../../base/index.ts";
import type { TableMapping } from "./columns.ts";

/** Two connectors of a table that are the halves of one inline connector. */
export interface InlinePair {
  readonly halves: readonly [string, string];
  /** Id of the connector they make; absent means what their names have in common. */
  readonly id?: string;
}

/** What a person has said about a table: every part may be left out, and what is left out is found and reported. */
export interface TableOptions {
  /** Sheet of a workbook; absent means the first visible one with headings that are understood. */
  readonly sheet?: string;
  readonly delimiter?: Delimiter;
  /** Row with the headings, from 1. */
  readonly headingRow?: number;
  readonly mapping?: TableMapping;
  readonly decimal?: DecimalSign;
  readonly colours?: ColourScheme;
  /** What stands between connector and pin where both are in one cell. */
  readonly endSeparator?: string;
  /** How names of splices begin, such as `SP`. */
  readonly splicePrefixes?: readonly string[];
  /** How names of ground points begin, such as `GND`. */
  readonly groundPrefixes?: readonly string[];
  readonly inlinePairs?: readonly InlinePair[];
}

/** What the readers of CSV and XLSX are told. */
export interface TableReadOptions extends ReadOptions {
  readonly table?: TableOptions;
}

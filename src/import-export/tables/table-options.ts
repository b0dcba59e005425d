import type { ReadOptions } from "../format-reader.ts";
import type { Delimiter } from "../csv.ts";
import type { DecimalSign } from "../../base/index.ts";
import type { TableMapping } from "./columns.ts";
import type { MappingMemory } from "./mapping-memory.ts";
import type { TableRepair } from "./repair-tables.ts";
import type { ProposalKind } from "./table-proposal.ts";

/** What the colour codes of a file mean. */
export type ColourScheme =
  /** Two-letter codes of IEC 60757, and colours written out. */
  | { readonly kind: "iec-60757" }
  /** Codes of the file's own, each with the IEC 60757 code it stands for; codes not listed are not read. */
  | { readonly kind: "codes"; readonly codes: readonly (readonly [written: string, code: string])[] };

/** Two connectors of a table that are the halves of one inline connector. */
export interface InlinePair {
  readonly sides: readonly [string, string];
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
  /** One mapping for all rows below the headings. */
  readonly mapping?: TableMapping;
  /** Mappings of the tables of the file, each by its headings. */
  readonly known?: MappingMemory;
  readonly decimal?: DecimalSign;
  readonly colours?: ColourScheme;
  /** Text between connector and pin where both are in one cell. */
  readonly endSeparator?: string;
  /** How names of splices begin, such as `SP`. */
  readonly splicePrefixes?: readonly string[];
  /** How names of ground points begin, such as `GND`. */
  readonly groundPrefixes?: readonly string[];
  readonly inlinePairs?: readonly InlinePair[];
  /** Sorts of proposals that a person has confirmed. */
  readonly accept?: ReadonlySet<ProposalKind>;
  /** What a person has corrected, in the order in which it was done. */
  readonly repairs?: readonly TableRepair[];
}

/** What the readers of CSV and XLSX are told. */
export interface TableReadOptions extends ReadOptions {
  readonly table?: TableOptions;
}

import { z } from "zod";
import { ok, type Result } from "../../base/index.ts";
import type { TableRepair } from "../../import-export/index.ts";
import { readJson } from "./read-json.ts";

const place = {
  sheet: z.string().optional().describe("Sheet of the workbook; absent where the file has none"),
  row: z.int().min(1).describe("Row of the file or sheet, from 1"),
};

/** What a person has corrected in a table, as a file that is kept beside it. */
export const TableRepairs = z.strictObject({
  repairs: z
    .array(
      z.union([
        z.strictObject({
          ...place,
          column: z.int().min(1).max(300).describe("Position of the cell, from 1"),
          text: z.string().max(10_000).describe("What the cell holds instead"),
        }),
        z.strictObject({
          ...place,
          leaveOut: z.literal(true).describe("The row is left out; its text stays as a note"),
        }),
      ]),
    )
    .max(250_000)
    .describe("Corrections, in the order in which they apply"),
});

/** A repair with what stood there before it; one that is undone counts for nothing until it is done again. */
export interface MadeRepair {
  readonly repair: TableRepair;
  /** Heading of the cell; empty where it has none, or the whole row is meant. */
  readonly heading: string;
  readonly was: string;
  readonly isUndone: boolean;
}

/** The repairs that count, as the readers of tables take them. */
export function activeRepairs(made: readonly MadeRepair[]): readonly TableRepair[] {
  return made.flatMap(({ repair, isUndone }) => (isUndone ? [] : [repair]));
}

/**
 * Reads the text of a file of repairs.
 *
 * @param text JSON, as `data-schemas/table-repairs.schema.json` describes it.
 * @returns The repairs, or in words what is wrong with the file.
 */
export function readTableRepairs(text: string): Result<readonly TableRepair[], string> {
  const data = readJson(text, TableRepairs);
  return data.ok ? ok(data.value.repairs) : data;
}

/** Writes repairs as the text of a file that is kept beside the table. */
export function writeTableRepairs(repairs: readonly TableRepair[]): string {
  return `${JSON.stringify({ repairs }, undefined, 2)}\n`;
}

import { z } from "zod";
import { err, type Result } from "../../base/index.ts";
import {
  PIN_TABLE_COLUMNS,
  type ColourScheme,
  type ColumnField,
  type TableMapping,
  type TableOptions,
  type TablePreview,
  type Unit,
} from "../../import-export/index.ts";
import { readJson } from "./read-json.ts";

const FIELDS = PIN_TABLE_COLUMNS.map((column) => column.field) as [ColumnField, ...ColumnField[]];
const UNITS = ["mm", "cm", "m", "in", "ft", "mm2", "AWG"] as const satisfies readonly Unit[];

/** What a person has said about a table, as a file that can be kept and used for the next table of its kind. */
export const ImportMap = z.strictObject({
  shape: z.enum(["pin", "wire"]).optional().describe("A row for each pin, or a row for each wire"),
  columns: z
    .array(
      z.strictObject({
        column: z.int().min(1).max(300).describe("Position from 1"),
        heading: z.string().optional().describe("The heading it must have; absent means any"),
        field: z.enum(FIELDS).describe("Column meaning"),
        unit: z.enum(UNITS).optional().describe("Unit of the column"),
      }),
    )
    .max(300)
    .optional()
    .describe("Columns and their meaning"),
  sheet: z.string().optional().describe("Sheet of the workbook"),
  headingRow: z.int().min(1).optional().describe("Row with the headings, from 1"),
  delimiter: z.enum([",", ";", "\t"]).optional().describe("Character between the cells"),
  decimal: z.enum(["point", "comma"]).optional().describe("Decimal sign"),
  endSeparator: z
    .string()
    .min(1)
    .max(4)
    .optional()
    .describe("Text between connector and pin where both are in one cell"),
  splicePrefixes: z.array(z.string().min(1)).optional().describe("How the ids of splices start"),
  groundPrefixes: z.array(z.string().min(1)).optional().describe("How the ids of ground points start"),
  colours: z
    .union([z.literal("iec-60757"), z.array(z.tuple([z.string(), z.string()]))])
    .optional()
    .describe("Codes of IEC 60757, or the codes of the file each with the one it stands for"),
  pairs: z
    .array(z.tuple([z.string(), z.string()]))
    .optional()
    .describe("Connectors that mate: the two sides of one connector"),
});

export type ImportMap = Readonly<z.infer<typeof ImportMap>>;

/**
 * Reads the text of a map file.
 *
 * @param text JSON, as `data-schemas/import-map.schema.json` describes it.
 * @returns The map, or in words what is wrong with it.
 */
export function readImportMap(text: string): Result<ImportMap, string> {
  const read = readJson(text, ImportMap);
  if (read.ok && (read.value.shape === undefined) !== (read.value.columns === undefined))
    return err('"shape" and "columns" go together: give both or neither');
  return read;
}

/** What a map says, as the readers of tables take it. */
export function tableOptionsOf(map: ImportMap): TableOptions {
  const { shape, columns, colours, pairs, ...rest } = map;
  const mapping: TableMapping | undefined = shape &&
    columns && {
      shape,
      columns: columns.map(({ column, field, unit }) => ({ column: column - 1, field, ...(unit && { unit }) })),
    };
  return withoutGaps({
    ...rest,
    mapping,
    colours: colours === undefined ? undefined : schemeOf(colours),
    inlinePairs: pairs?.map((sides) => ({ sides })),
  });
}

/**
 * Compares the headings a map names with those of a table.
 *
 * @param map The map.
 * @param headings Headings of the table.
 * @returns In words where they differ; undefined if they do not.
 */
export function headingFault(map: ImportMap, headings: readonly string[]): string | undefined {
  const plain = (text: string): string => text.trim().toLowerCase();
  const wrong = map.columns?.find(
    ({ column, heading }) => heading !== undefined && plain(heading) !== plain(headings[column - 1] ?? ""),
  );
  if (!wrong) return undefined;
  const found = (headings[wrong.column - 1] ?? "").slice(0, 80);
  return `column ${wrong.column} is headed "${found}", and the map expects "${wrong.heading ?? ""}"`;
}

/**
 * Writes how a table is understood as the text of a map file, to be kept or edited.
 *
 * @param preview How the table is understood.
 * @param options What a person has said about it.
 */
export function writeImportMap(preview: TablePreview, options: TableOptions = {}): string {
  const { mapping, headings, sheet, delimiter, decimal, endSeparator } = preview;
  const { splicePrefixes, groundPrefixes, colours, inlinePairs, headingRow } = options;
  const map = {
    shape: mapping.shape,
    columns: mapping.columns.map(({ column, field, unit }) =>
      withoutGaps({ column: column + 1, heading: headings[column] ?? "", field, unit }),
    ),
    ...withoutGaps({
      ...{ sheet, headingRow, delimiter, decimal, endSeparator, splicePrefixes, groundPrefixes },
      colours: colours?.kind === "codes" ? colours.codes : colours?.kind,
      pairs: inlinePairs?.map((pair) => pair.sides),
    }),
  };
  return `${JSON.stringify(map, undefined, 2)}\n`;
}

function schemeOf(colours: NonNullable<ImportMap["colours"]>): ColourScheme {
  return colours === "iec-60757" ? { kind: "iec-60757" } : { kind: "codes", codes: colours };
}

type WithoutGaps<Values> = { readonly [Key in keyof Values]?: Exclude<Values[Key], undefined> };

/** The values that are there: an optional member is left out, not set to undefined. */
function withoutGaps<Values extends object>(values: Values): WithoutGaps<Values> {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as WithoutGaps<Values>;
}

import { PIN_TABLE_COLUMNS } from "../../application/index.ts";
import type {
  ColourScheme,
  ColumnField,
  PinTableColumn,
  TableMapping,
  TablePreview,
  TableShape,
  Unit,
} from "../../import-export/index.ts";

/** A column that a table of this shape may have. */
export interface ColumnChoice extends PinTableColumn {
  readonly field: ColumnField;
}

/** What columns of a table of this shape may hold. */
export function columnChoices(shape: TableShape): readonly ColumnChoice[] {
  const all: readonly ColumnChoice[] = PIN_TABLE_COLUMNS;
  return all.filter((column) => column.shapes.includes(shape));
}

/** Says what a column holds. A meaning that another column had is taken from it: each comes once. */
export function withField(mapping: TableMapping, column: number, field: ColumnField | undefined): TableMapping {
  const others = mapping.columns.filter((each) => each.column !== column && each.field !== field);
  const columns = field === undefined ? others : [...others, { column, field }];
  return { ...mapping, columns: columns.sort((first, second) => first.column - second.column) };
}

/** Says in which unit a column is. */
export function withUnit(mapping: TableMapping, column: number, unit: Unit | undefined): TableMapping {
  const columns = mapping.columns.map((each) => {
    if (each.column !== column) return each;
    return unit === undefined ? { column, field: each.field } : { column, field: each.field, unit };
  });
  return { ...mapping, columns };
}

/** Changes the shape; columns that the other shape does not have are let go. */
export function withShape(mapping: TableMapping, shape: TableShape): TableMapping {
  const fields = new Set<string>(columnChoices(shape).map((column) => column.field));
  return { shape, columns: mapping.columns.filter((each) => fields.has(each.field)) };
}

/** Single colour codes of a file, most frequent first: `B/W` gives `B` and `W`. */
export function colourParts(preview: TablePreview): readonly string[] {
  const counts = new Map<string, number>();
  for (const { written, count } of preview.colours) {
    for (const part of written.trim().split(/\s*[/\-.+]\s*|\s+/u))
      if (part !== "") counts.set(part, (counts.get(part) ?? 0) + count);
  }
  return [...counts].sort((first, second) => second[1] - first[1]).map(([part]) => part);
}

/** Says what one colour code of the file stands for; an empty code takes it back. */
export function withColour(scheme: ColourScheme, written: string, code: string): ColourScheme {
  const before = scheme.kind === "codes" ? scheme.codes.filter(([each]) => each !== written) : [];
  return { kind: "codes", codes: code === "" ? before : [...before, [written, code]] };
}

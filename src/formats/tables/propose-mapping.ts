import type { ColumnField, TableShape } from "./columns.ts";
import { fieldOf, readHeading, type HeadingReading } from "./read-heading.ts";
import { PIN_TABLE_COLUMNS } from "./columns.ts";
import type { MappedColumn, ProposedMapping } from "./table-mapping.ts";

interface Candidate {
  readonly column: number;
  readonly field: ColumnField;
  readonly score: number;
  readonly reading: HeadingReading;
}

/**
 * Proposes what each column of a table holds, from its headings alone. A heading that comes twice stands for the two ends of a wire
 * where that makes sense (`Connector, Pin, ..., Connector, Pin`); otherwise the first one counts.
 *
 * @param headings The cells of the heading row.
 * @returns The mapping with its score; what a table of its shape needs at least and does not have is listed as missing.
 * @example
 * ```ts
 * import { proposeMapping } from "ohmward/formats";
 * const proposed = proposeMapping(["Leitung", "Von", "Nach", "Farbe", "Querschnitt [mm²]", "Preis"]);
 * expect(proposed.columns.map((each) => each.field)).toEqual(["wire", "from", "to", "colour", "crossSection"]);
 * expect(proposed.unmapped).toEqual([5]);
 * ```
 */
export function proposeMapping(headings: readonly string[]): ProposedMapping {
  const candidates = splitEnds(headings);
  const shape = shapeOf(candidates);
  const allowed = new Set<string>(
    PIN_TABLE_COLUMNS.filter((column) => (column.shapes as readonly TableShape[]).includes(shape)).map(
      (column) => column.field,
    ),
  );
  const taken = new Map<ColumnField, Candidate>();
  for (const candidate of [...candidates].sort(
    (first, second) => second.score - first.score || first.column - second.column,
  )) {
    if (allowed.has(candidate.field) && !taken.has(candidate.field)) taken.set(candidate.field, candidate);
  }
  const chosen = [...taken.values()].sort((first, second) => first.column - second.column);
  const columns = chosen.map(({ column, field, reading }): MappedColumn => {
    const hasUnit = field === "length" || field === "crossSection" || field === "terminalSize";
    return hasUnit && reading.unit !== undefined ? { column, field, unit: reading.unit } : { column, field };
  });
  const mapped = new Set(columns.map((each) => each.column));
  const missing = missingFrom(shape, new Set(taken.keys()));
  const mean = chosen.reduce((sum, each) => sum + each.score, 0) / Math.max(1, chosen.length);
  return {
    shape,
    columns,
    score: missing.length > 0 ? 0 : mean,
    missing,
    columnScores: new Map(chosen.map((each) => [each.column, each.score])),
    unmapped: headings.flatMap((heading, column) => (heading.trim() === "" || mapped.has(column) ? [] : [column])),
  };
}

/** Reads the headings; where connector or pin comes twice without a word on the end, first and second are the ends. */
function splitEnds(headings: readonly string[]): readonly Candidate[] {
  const readings = headings.map((heading) => readHeading(heading));
  const columnsOfTopic = (wanted: string): readonly number[] =>
    readings.flatMap((reading, column) => (reading?.topic === wanted && reading.end === undefined ? [column] : []));
  const [pins, connectors] = [columnsOfTopic("pin"), columnsOfTopic("connector")];
  const isSplit = isTwice(headings, pins) || (pins.length === 0 && isTwice(headings, connectors));
  const seen = new Map<string, number>();
  return readings.flatMap((reading, column): Candidate[] => {
    if (!reading) return [];
    let { end } = reading;
    const { topic } = reading;
    if (isSplit && end === undefined && ["component", "connector", "half", "pin"].includes(topic)) {
      const before = seen.get(topic) ?? 0;
      seen.set(topic, before + 1);
      end = before === 0 ? "from" : "to";
    }
    const field = fieldOf(topic, end);
    return field === undefined ? [] : [{ column, field, score: reading.score, reading }];
  });
}

/** Whether the same heading stands over just two columns. */
function isTwice(headings: readonly string[], columns: readonly number[]): boolean {
  const [first, second] = columns.map((column) => headings[column]?.trim().toLowerCase());
  return columns.length === 2 && first === second;
}

function shapeOf(candidates: readonly Candidate[]): TableShape {
  const fields = new Set<string>(candidates.map((candidate) => candidate.field));
  const has = (...names: readonly string[]): boolean => names.some((name) => fields.has(name));
  return has("from", "fromConnector", "fromComponent", "fromPin") && has("to", "toConnector", "toComponent", "toPin")
    ? "wire"
    : "pin";
}

/** What a table of a shape cannot do without and a set of fields does not have, in words. */
export function missingFrom(shape: TableShape, fields: ReadonlySet<string>): readonly string[] {
  const missing: string[] = [];
  const need = (what: string, ...names: readonly string[]): void => {
    if (!names.some((name) => fields.has(name))) missing.push(what);
  };
  if (shape === "wire") {
    need("the first end of the wire", "from", "fromConnector", "fromComponent");
    need("the other end of the wire", "to", "toConnector", "toComponent");
  } else {
    need("the connector", "connector", "component");
    need("the pin", "pin");
  }
  return missing;
}

import { columnLooks, type ColumnLooks } from "./cell-looks.ts";
import {
  PIN_TABLE_COLUMNS,
  type ColumnField,
  type MappedColumn,
  type ProposedMapping,
  type TableShape,
} from "./columns.ts";
import { pinOwner, readHeading, type HeadingReading } from "./read-heading.ts";

/** What a column may hold, with how sure that is. */
interface Candidate {
  readonly column: number;
  readonly field: ColumnField;
  readonly score: number;
  readonly reading: HeadingReading;
}

/** The cells of a table by column, and what they look like. */
interface Columns {
  readonly headings: readonly string[];
  readonly looks: readonly ColumnLooks[];
}

/**
 * Proposes what each column of a table holds, from its headings and from what its cells look like. A heading that comes twice stands for the
 * two ends of a wire where that makes sense (`Connector, Pin, ..., Connector, Pin` or `From, Pin, To, Pin`); otherwise the first one counts.
 *
 * @param headings The headings by column; empty texts where a table has none.
 * @param rows The cells of rows below them; none where only the headings are to be judged.
 * @returns The mapping with its score; what a table of its shape needs at least and does not have is listed as missing.
 * @example
 * ```ts
 * import { proposeMapping } from "ohmward/import-export";
 * const proposed = proposeMapping(["Leitung", "Von", "Nach", "Farbe", "Querschnitt [mm²]", "Preis"]);
 * expect(proposed.columns.map((each) => each.field)).toEqual(["wire", "from", "to", "colour", "crossSection"]);
 * expect(proposed.unmapped).toEqual([5]);
 * ```
 */
export function proposeMapping(
  headings: readonly string[],
  rows: readonly (readonly string[])[] = [],
): ProposedMapping {
  const width = Math.max(headings.length, ...rows.slice(0, 200).map((cells) => cells.length));
  const texts = Array.from({ length: width }, (_, column) => headings[column] ?? "");
  const looks = texts.map((_, column) => columnLooks(rows.slice(0, 200).map((cells) => cells[column] ?? "")));
  const columns: Columns = { headings: texts, looks };
  const readings = judgedReadings(columns);
  const candidates = withEnds(readings, columns);
  const shape = shapeOf(candidates);
  const chosen = chooseColumns(candidates, shape);
  const mapped = chosen.map(({ column, field, reading }): MappedColumn => {
    const hasUnit = field === "length" || field === "crossSection" || field === "terminalSize";
    return hasUnit && reading.unit !== undefined ? { column, field, unit: reading.unit } : { column, field };
  });
  const used = new Set(mapped.map((each) => each.column));
  const missing = missingFrom(shape, new Set(mapped.map((each) => each.field)));
  const mean = chosen.reduce((sum, each) => sum + each.score, 0) / Math.max(1, chosen.length);
  return {
    shape,
    columns: mapped,
    score: missing.length > 0 ? 0 : mean,
    missing,
    columnScores: new Map(chosen.map((each) => [each.column, each.score])),
    unmapped: texts.flatMap((heading, column) => (heading.trim() === "" || used.has(column) ? [] : [column])),
  };
}

type Readings = (HeadingReading | undefined)[];

/** What the headings say, corrected and completed by what the cells look like. */
function judgedReadings({ headings, looks }: Columns): Readings {
  const readings: Readings = headings.map((heading) => readHeading(heading));
  const has = (topic: HeadingReading["topic"]): boolean => readings.some((each) => each?.topic === topic);
  looks.forEach((look, column) => {
    const known = readings[column];
    const take = (topic: HeadingReading["topic"], score: number): void => {
      readings[column] = { ...known, topic, score: Math.min(known?.score ?? 1, score) };
    };
    if (look.filled === 0) return;
    const topic = known?.topic;
    if (topic === "ends" && look.arrow < 0.5) readings[column] = { topic: "end", end: "to", score: 0.8 };
    else if (look.arrow >= 0.8 && look.filled > 1 && topic !== "note" && topic !== "function") take("ends", 0.8);
    else if (look.cable >= 0.7 && (topic === undefined || ["wire", "crossSection", "colour"].includes(topic)))
      take("cable", 0.8);
    else if (topic === "wire" && look.colour >= 0.7 && !has("colour")) take("colour", 0.8);
    else if (topic === "colour" && look.size >= 0.8 && !has("crossSection")) take("crossSection", 0.7);
    else if (topic === "component" && look.end >= 0.9 && look.words > 0.5 && !has("pin") && !has("point"))
      take("point", 0.7);
    else if (topic === "pin" && isWholeEnd(look) && look.pin < 0.3 && !has("connector") && !has("component"))
      take(known?.end ? "end" : "point", 0.8);
  });
  return withUnheaded(withPinOwners(readings, headings), looks);
}

/**
 * Columns such as `ECU pin, Sensor, Sensor pin` or `ECU pin, Dash pin`: two columns of pins, each of a connector that another column or its
 * own heading names. The pins of a connector with a column are those of the far end where the other has none; else the second ones.
 */
function withPinOwners(readings: Readings, headings: readonly string[]): Readings {
  const same = (one: string, other: string): boolean => one.trim().toLowerCase() === other.trim().toLowerCase();
  const owned = headings.flatMap((heading, column) => {
    const owner = pinOwner(heading);
    return owner === undefined ? [] : [{ column, names: headings.findIndex((each) => same(each, owner)) }];
  });
  const [first, second, ...more] = owned;
  const isEnded = owned.some(({ column }) => readings[column]?.end !== undefined);
  if (!first || !second || more.length > 0 || isEnded || (first.names >= 0 && second.names >= 0)) return readings;
  const [own, other] = first.names < 0 ? [first, second] : [second, first];
  const made = [...readings];
  made[own.column] = { topic: "pin", score: 0.9 };
  if (other.names >= 0) made[other.names] = { topic: "connector", end: "to", score: 0.9 };
  made[other.column] = { topic: "pin", end: "to", score: 0.9 };
  return made;
}

/** Whether cells hold connector and pin together; where a colon or slash joins them, bare names such as grounds may stand between. */
function isWholeEnd({ end, isSureEnd }: ColumnLooks): boolean {
  return end >= 0.8 || (isSureEnd && end >= 0.5);
}

/** Says what columns hold of which the heading says nothing, where their cells leave no doubt. */
function withUnheaded(readings: Readings, looks: readonly ColumnLooks[]): Readings {
  const open = (column: number): boolean => readings[column] === undefined && (looks[column]?.filled ?? 0) > 0;
  const find = (test: (look: ColumnLooks) => boolean): readonly number[] =>
    looks.flatMap((look, column) => (open(column) && test(look) ? [column] : []));
  const has = (...topics: readonly string[]): boolean => readings.some((each) => each && topics.includes(each.topic));
  const give = (column: number | undefined, topic: HeadingReading["topic"], end?: "from" | "to"): void => {
    if (column !== undefined) readings[column] = { topic, score: 0.6, ...(end === undefined ? {} : { end }) };
  };
  if (!has("colour", "cable")) give(find((look) => look.colour >= 0.8 && look.words === 1)[0], "colour");
  if (!has("crossSection", "cable")) give(find((look) => look.size >= 0.8)[0], "crossSection");
  if (!has("length")) give(find((look) => look.length >= 0.8)[0], "length");
  const isFar = (look: ColumnLooks): boolean => look.end >= 0.8 && look.words === 1 && look.isSureEnd;
  if (has("pin") && !has("end", "ends", "point") && !readings.some((each) => each?.end !== undefined))
    for (const column of find(isFar).slice(0, 2)) give(column, "end", "to");
  if (has("pin", "point", "end", "ends", "connector")) return readings;
  const ends = find((look) => look.end >= 0.6 && look.words === 1);
  if (ends.length === 2) {
    give(ends[0], "end", "from");
    give(ends[1], "end", "to");
    give(find((look) => look.unique === 1)[0], "wire");
    return readings;
  }
  return withPins(readings, { looks, ends, find, give });
}

interface Unheaded {
  readonly looks: readonly ColumnLooks[];
  readonly ends: readonly number[];
  readonly find: (test: (look: ColumnLooks) => boolean) => readonly number[];
  readonly give: (column: number | undefined, topic: HeadingReading["topic"], end?: "from" | "to") => void;
}

/** Columns without any heading of points: one that lists pins, or two that do, each with a name before it. */
function withPins(readings: Readings, { looks, ends, find, give }: Unheaded): Readings {
  const pins = find((look) => look.pin >= 0.8 && look.filled > 2);
  const names = find((look) => look.words === 1 && look.pin < 0.5 && look.end < 0.5);
  const before = (pin: number | undefined): number | undefined =>
    names.includes((pin ?? 0) - 1) ? (pin ?? 0) - 1 : undefined;
  const [first, second, third] = pins.filter((pin) => before(pin) !== undefined);
  if (first !== undefined && second !== undefined && third === undefined) {
    give(before(first), "connector", "from");
    give(first, "pin", "from");
    give(before(second), "connector", "to");
    give(second, "pin", "to");
  } else if (ends.length === 1) {
    give(ends[0], "point");
  } else {
    const pin = pins.find((column) => looks[column]?.unique === 1) ?? pins[0];
    // Numbers before two columns of words may be those of wires as well.
    if (names.length > 1 && !names.some((name) => (looks[name]?.unique ?? 1) < 0.7)) return readings;
    // Names that repeat from row to row before the pin are connectors.
    const connector = before(pin);
    if (connector !== undefined && (looks[connector]?.unique ?? 1) < 0.7) give(connector, "connector");
    give(pin, "pin");
    if (pin !== undefined) give(find((look) => look.words > 0.5 && look.colour < 0.8)[0], "function");
  }
  return readings;
}

/** Topics that each end of a wire has its own of. */
const END_TOPICS: ReadonlySet<string> = new Set(["component", "connector", "half", "pin", "point"]);

/** Tells which end of a wire the columns without a word on it speak of, by their order. */
function withEnds(readings: Readings, { headings, looks }: Columns): readonly Candidate[] {
  const bare = (wanted: string): readonly number[] =>
    readings.flatMap((reading, column) => (reading?.topic === wanted && reading.end === undefined ? [column] : []));
  const hasEnd = (end: "from" | "to"): boolean => readings.some((each) => each?.end === end);
  const isEnded = hasEnd("from") && hasEnd("to");
  const isSame = ([first, second, ...more]: readonly number[]): boolean =>
    first !== undefined && second !== undefined && more.length === 0 && sameHeading(headings, [first, second]);
  const isSplit =
    isSame(bare("pin")) ||
    (bare("pin").length === 0 && ["connector", "component", "point"].some((topic) => isSame(bare(topic))));
  const isSeen = looks.some((look) => look.filled > 0);
  const seen = new Set<string>();
  return readings.flatMap((reading, column): readonly Candidate[] => {
    if (!reading) return [];
    const { topic, score } = reading;
    let end = reading.end;
    if (end === undefined && END_TOPICS.has(topic) && bare(topic).length <= 2 && (isSplit || isEnded)) {
      const isPair = bare(topic).length === 2;
      if (isPair) end = seen.has(topic) ? "to" : "from";
      else if (isEnded && !isOfBoth(readings, topic)) end = nearestEnd(readings, column);
      seen.add(topic);
    }
    const field = fieldOf(topic, end);
    if (field === undefined || (isSeen && looks[column]?.filled === 0 && score < 0.9)) return [];
    return [{ column, field, score, reading }];
  });
}

function sameHeading(headings: readonly string[], [first, second]: readonly [number, number]): boolean {
  return headings[first]?.trim().toLowerCase() === headings[second]?.trim().toLowerCase();
}

/** Whether both ends have a column of a topic already. */
function isOfBoth(readings: Readings, topic: string): boolean {
  return (["from", "to"] as const).every((end) => readings.some((each) => each?.topic === topic && each.end === end));
}

/** The end that the nearest column before speaks of, else the nearest after. */
function nearestEnd(readings: Readings, column: number): "from" | "to" | undefined {
  const before = readings.slice(0, column).findLast((each) => each?.end !== undefined)?.end;
  return before ?? readings.slice(column).find((each) => each?.end !== undefined)?.end;
}

const END_SUFFIXES: ReadonlyMap<string, "Type" | "Component" | "Connector" | "Half" | "Pin"> = new Map([
  ["type", "Type"],
  ["component", "Component"],
  ["connector", "Connector"],
  ["splice", "Connector"],
  ["half", "Half"],
  ["pin", "Pin"],
]);

/** The field of a table that a topic stands for, once the end is known. */
function fieldOf(topic: HeadingReading["topic"], end: "from" | "to" | undefined): ColumnField | undefined {
  if (topic === "end" || (topic === "point" && end !== undefined)) return end;
  if (end === undefined) return topic;
  const suffix = END_SUFFIXES.get(topic);
  // The signal or colour at one end is that of the wire; a second one stays in the note.
  return suffix ? `${end}${suffix}` : topic;
}

/** One column for each field, the surest first; the second far end of a terminal has a field of its own. */
function chooseColumns(candidates: readonly Candidate[], shape: TableShape): readonly Candidate[] {
  const allowed = new Set<string>(
    PIN_TABLE_COLUMNS.flatMap((each) => (each.shapes.includes(shape) ? [each.field] : [])),
  );
  const taken = new Map<ColumnField, Candidate>();
  for (const each of candidates.toSorted((one, two) => two.score - one.score || one.column - two.column)) {
    const field = each.field === "from" && shape === "pin" ? "to" : each.field;
    if (!allowed.has(field)) continue;
    if (!taken.has(field)) taken.set(field, { ...each, field });
    else if (field === "to" && shape === "pin" && !taken.has("toOther"))
      taken.set("toOther", { ...each, field: "toOther" });
  }
  // A single cell for an end beside a column for its pin holds the connector.
  for (const end of ["from", "to"] as const) {
    const whole = taken.get(end);
    if (!whole || !taken.has(`${end}Pin`) || taken.has(`${end}Connector`)) continue;
    if (!allowed.has(`${end}Connector`)) continue;
    taken.delete(end);
    taken.set(`${end}Connector`, { ...whole, field: `${end}Connector` });
  }
  return [...taken.values()].sort((one, two) => one.column - two.column);
}

function shapeOf(candidates: readonly Candidate[]): TableShape {
  const fields = new Set<string>(candidates.map((candidate) => candidate.field));
  const has = (...names: readonly string[]): boolean => names.some((name) => fields.has(name));
  if (has("ends")) return "wire";
  const isOwn = has("pin", "point") && !has("fromPin", "toPin");
  const isWire =
    has("from", "fromConnector", "fromComponent", "fromPin") && has("to", "toConnector", "toComponent", "toPin");
  return isWire && !isOwn ? "wire" : "pin";
}

/** What a table of a shape cannot do without and a set of fields does not have, in words. */
export function missingFrom(shape: TableShape, fields: ReadonlySet<string>): readonly string[] {
  const missing: string[] = [];
  const need = (what: string, ...names: readonly string[]): void => {
    if (!names.some((name) => fields.has(name))) missing.push(what);
  };
  if (shape === "wire") {
    need("the first end of the wire", "from", "fromConnector", "fromComponent", "ends");
    need("the other end of the wire", "to", "toConnector", "toComponent", "ends");
  } else need("the pin", "pin", "point");
  return missing;
}

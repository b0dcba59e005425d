import { readQuantity, type DecimalSign } from "../../base/index.ts";
import { parseOptionExpression } from "../../model/index.ts";
import { cleanId } from "../draft/clean-id.ts";
import { importProblem, type ImportProblem } from "../import-problem.ts";
import type { ColumnField } from "./columns.ts";
import { readColourText, type ColourScheme } from "./read-colour-text.ts";
import { readGauge } from "./read-gauge.ts";
import type { FieldColumn, RowRecord } from "./row-records.ts";
import { toMillimetres, type UnitSort } from "./units.ts";

/** What a row says about a wire apart from its ends; lengths in mm, sizes in mm². */
export interface WireFacts {
  readonly colour?: string;
  readonly crossSectionMm2?: number;
  readonly lengthMm?: number;
  readonly net?: string;
  readonly harness?: string;
  readonly group?: string;
  readonly when?: string;
  readonly note?: string;
}

/** What the cells of a table are read with. */
export interface FactContext {
  readonly columns: ReadonlyMap<ColumnField, FieldColumn>;
  readonly decimal: DecimalSign | undefined;
  readonly colours: ColourScheme;
  readonly report: (problem: ImportProblem) => void;
  /** Values that were left out because their column has no unit, by field. */
  readonly withoutUnit: Map<ColumnField, number>;
  /** Options that were named by more than an id can hold, by id. */
  readonly optionLabels: Map<string, string>;
}

/** Reads what a row says about its wire. What cannot be read is reported and left out; what was turned into other words is kept in the note. */
export function readWireFacts(record: RowRecord, context: FactContext): WireFacts {
  const asWritten: string[] = [];
  const colour = readColour(record, context, asWritten);
  const crossSectionMm2 = readMeasure(record, { field: "crossSection", sort: "crossSection", context, asWritten });
  const lengthMm = readMeasure(record, { field: "length", sort: "length", context, asWritten });
  const when = readOption(record, context);
  const notes = [record.text("note"), asWritten.length > 0 ? `As written: ${asWritten.join(", ")}` : ""];
  const note = notes.filter((text) => text !== "").join(". ");
  return {
    ...(colour === undefined ? {} : { colour }),
    ...(crossSectionMm2 === undefined ? {} : { crossSectionMm2 }),
    ...(lengthMm === undefined ? {} : { lengthMm }),
    ...textFact(record, "net"),
    ...textFact(record, "harness"),
    ...textFact(record, "group"),
    ...(when === undefined ? {} : { when }),
    ...(note === "" ? {} : { note }),
  };
}

function textFact<Name extends "net" | "harness" | "group">(record: RowRecord, name: Name): { [Key in Name]?: string } {
  const text = record.text(name);
  const fact: { [Key in Name]?: string } = {};
  if (text !== "") fact[name] = text;
  return fact;
}

function readColour(record: RowRecord, context: FactContext, asWritten: string[]): string | undefined {
  const [base, tracer] = [record.text("colour"), record.text("tracer")];
  const text = tracer === "" ? base : `${base}/${tracer}`;
  if (text === "") return undefined;
  const reading = readColourText(text, context.colours);
  if (reading.kind === "unknown") {
    const facts = { text: text.slice(0, 80), part: reading.part.slice(0, 80) };
    context.report(importProblem("colour-unknown", record.at("colour"), facts));
    asWritten.push(`colour ${text}`);
    return undefined;
  }
  if (reading.colour !== text) asWritten.push(`colour ${text}`);
  return reading.colour;
}

interface MeasureQuestion {
  readonly field: ColumnField;
  readonly sort: UnitSort;
  readonly context: FactContext;
  readonly asWritten: string[];
}

/** Reads a length or size; undefined where the cell is empty or cannot be read. */
export function readMeasure(record: RowRecord, question: MeasureQuestion): number | undefined {
  const { field, sort, context, asWritten } = question;
  const text = record.text(field);
  if (text === "") return undefined;
  const unit = context.columns.get(field)?.unit;
  const gauge = sort === "crossSection" && (unit === "AWG" || /awg|ga|#/iu.test(text)) ? readGauge(text) : undefined;
  if (gauge !== undefined) {
    asWritten.push(`size ${/[a-z#]/iu.test(text) ? text : `${text} AWG`}`);
    return toMillimetres(gauge, "AWG");
  }
  const decimal = record.isNumber(field) ? "point" : context.decimal;
  const reading = readQuantity(text, { units: [sort === "length" ? "mm" : "mm²"], ...(decimal && { decimal }) });
  const what = sort === "length" ? "length" : "size";
  if (reading.kind === "question") {
    context.report(importProblem("number-ambiguous", record.at(field), { text: text.slice(0, 80) }));
  } else if (reading.kind !== "value" || unit === "AWG") {
    context.report(importProblem("number-unreadable", record.at(field), { text: text.slice(0, 80), what }));
  } else if (reading.isUnitWritten) {
    if (reading.symbol !== "mm" && reading.symbol !== "mm²") asWritten.push(`${what} ${text}`);
    return reading.value;
  } else if (unit !== undefined) {
    if (unit !== "mm" && unit !== "mm2") asWritten.push(`${what} ${text} ${unit}`);
    return toMillimetres(reading.value, unit);
  } else {
    context.withoutUnit.set(field, (context.withoutUnit.get(field) ?? 0) + 1);
  }
  asWritten.push(`${what} ${text}`);
  return undefined;
}

/** An expression is taken as it is; anything that is plainly one name becomes an option; all else is a problem, as a wire without its option would be fitted always. */
function readOption(record: RowRecord, context: FactContext): string | undefined {
  const text = record.text("option");
  if (text === "") return undefined;
  if (parseOptionExpression(text).ok) return text;
  const id = cleanId(text);
  if (id === undefined || /[&|!(),;/]/u.test(text)) {
    context.report(importProblem("option-unclear", record.at("option"), { text: text.slice(0, 80) }));
    return undefined;
  }
  context.optionLabels.set(id, text);
  return id;
}

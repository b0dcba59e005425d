import { defined, readQuantity, type DecimalSign } from "../../base/index.ts";
import { parseOptionExpression, COLOURS, readColour } from "../../harness-model/index.ts";
import { cleanId } from "../draft/draft-parts.ts";
import { importProblem, type ImportProblem } from "../import-problem.ts";
import { type ColumnField, toMillimetres } from "./columns.ts";
import type { ColourScheme } from "./table-options.ts";
import type { FieldColumn, RowRecord, WireFacts } from "./table-rows.ts";

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
  const colour = colourOfCells(record, context, asWritten);
  const crossSectionMm2 = readMeasure(record, "crossSection", context, asWritten);
  const lengthMm = readMeasure(record, "length", context, asWritten);
  const when = readOption(record, context);
  const notes = [record.text("note"), asWritten.length > 0 ? `As written: ${asWritten.join(", ")}` : ""];
  const [note, net, harness, group] = [
    notes.filter((text) => text !== "").join(". "),
    ...(["net", "harness", "group"] as const).map((field) => record.text(field)),
  ].map((text) => (text === "" ? undefined : text));
  return defined({ colour, crossSectionMm2, lengthMm, net, harness, group, when, note });
}

function colourOfCells(record: RowRecord, context: FactContext, asWritten: string[]): string | undefined {
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

/** Reads a length or size; undefined where the cell is empty or cannot be read. */
export function readMeasure(
  record: RowRecord,
  field: "crossSection" | "length" | "terminalSize",
  context: FactContext,
  asWritten: string[],
): number | undefined {
  const what = field === "crossSection" ? "size" : "length";
  const text = record.text(field);
  if (text === "") return undefined;
  const unit = context.columns.get(field)?.unit;
  const gauge = what === "size" && (unit === "AWG" || /awg|ga|#/iu.test(text)) ? readGauge(text) : undefined;
  if (gauge !== undefined) {
    asWritten.push(`size ${/[a-z#]/iu.test(text) ? text : `${text} AWG`}`);
    return toMillimetres(gauge, "AWG");
  }
  const decimal = record.isNumber(field) ? "point" : context.decimal;
  const reading = readQuantity(text, { units: [what === "length" ? "mm" : "mm²"], ...defined({ decimal }) });
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

/** A colour as read; `unknown` names the part that the scheme does not have. */
export type ColourReading =
  { readonly kind: "colour"; readonly colour: string } | { readonly kind: "unknown"; readonly part: string };

/**
 * Reads the colour of a wire by the scheme declared for the file. Base and tracer may be joined by a slash, hyphen, dot, plus or
 * blank, or run together where that can be read one way only. Nothing is guessed: a part the scheme does not have is unknown.
 *
 * @param text The colour as written.
 * @param scheme What the codes mean.
 * @example
 * ```ts
 * import { readColourText } from "ohmward/import-export";
 * expect(readColourText("wh-rd", { kind: "iec-60757" })).toEqual({ kind: "colour", colour: "WH/RD" });
 * expect(readColourText("B", { kind: "iec-60757" })).toEqual({ kind: "unknown", part: "B" });
 * expect(readColourText("B/W", { kind: "codes", codes: [["B", "BU"], ["W", "WH"]] })).toEqual({ kind: "colour", colour: "BU/WH" });
 * ```
 * Source: IEC 60757.
 */
export function readColourText(text: string, scheme: ColourScheme): ColourReading {
  const parts = text
    .trim()
    .split(/\s*[/\-.+]\s*|\s+/u)
    .filter((part) => part !== "");
  if (parts.length === 1 && parts[0]?.toUpperCase() === "GNYE") return { kind: "colour", colour: "GNYE" };
  const codes = partsToCodes(parts, scheme);
  if (typeof codes === "string") return { kind: "unknown", part: codes };
  const colour = codes.join("/");
  return readColour(colour) ? { kind: "colour", colour } : { kind: "unknown", part: text.trim() };
}

/** The codes of the parts, or the first part that has none. */
function partsToCodes(parts: readonly string[], scheme: ColourScheme): readonly string[] | string {
  const codes: string[] = [];
  for (const part of parts) {
    const code = codeOf(part, scheme);
    const joined = code === undefined && parts.length === 1 ? splitJoined(part, scheme) : undefined;
    if (joined) return joined;
    if (code === undefined) return part;
    codes.push(code);
  }
  return codes;
}

function codeOf(part: string, scheme: ColourScheme): string | undefined {
  if (scheme.kind === "codes") return givenCode(part, scheme.codes);
  const upper = part.toUpperCase();
  if (COLOURS.some((colour) => colour.code === upper)) return upper;
  const plain = part.toLowerCase().replaceAll("ß", "ss").normalize("NFD").replace(/\p{M}/gu, "");
  return COLOUR_WORDS.get(plain);
}

/** A code that a person has said; the same letter in capitals and small may be two colours, so the exact form comes first. */
export function givenCode(
  text: string,
  codes: readonly (readonly [written: string, code: string])[],
): string | undefined {
  const exact = codes.find(([written]) => written === text);
  return (exact ?? codes.find(([written]) => written.toLowerCase() === text.toLowerCase()))?.[1];
}

/** Two codes without anything between them; undefined unless there is exactly one way to take them apart. */
function splitJoined(text: string, scheme: ColourScheme): readonly [string, string] | undefined {
  const ways: [string, string][] = [];
  for (let at = 1; at < text.length && text.length <= 12; at++) {
    const [base, tracer] = [codeOf(text.slice(0, at), scheme), codeOf(text.slice(at), scheme)];
    if (base !== undefined && tracer !== undefined) ways.push([base, tracer]);
  }
  return ways.length === 1 ? ways[0] : undefined;
}

/** Codes by the words behind each, from lines such as `BK black schwarz`. */
export function codesByWord(lines: readonly string[]): ReadonlyMap<string, string> {
  return new Map(
    lines.flatMap((line) => {
      const [code = "", ...words] = line.split(" ");
      return words.map((word): [string, string] => [word, code]);
    }),
  );
}

/**
 * IEC 60757 codes by colour word, in small letters without accents: English, German, French, Spanish, Italian, Dutch, Swedish. Only whole
 * words are here: short forms differ from land to land and are never guessed.
 */
const COLOUR_WORDS = codesByWord([
  "BK black schwarz noir negro nero zwart svart",
  "BN brown braun brun marron marrone bruin",
  "RD red rot rouge rojo rosso rood rod",
  "OG orange naranja arancione arancio oranje",
  "YE yellow gelb jaune amarillo giallo geel gul",
  "GN green grun vert verde groen gron",
  "BU blue blau bleu azul blu blauw bla",
  "VT violet purple violett lila violeta morado viola paars",
  "GY grey gray grau gris grigio grijs gra",
  "WH white weiss blanc blanco bianco wit vit",
  "PK pink rosa rose roze",
  "TQ turquoise turkis turquesa turchese",
]);

/** `#18`, `18 AWG`, `AWG 18`, `2/0`: gauge numbers, where `2/0` is size 00. */
const GAUGE = /^(?:awg|ga\.?|#)?\s*(\d{1,2})(\/0)?\s*(?:awg|ga\.?|gauge)?$/iu;
const ZEROS = /^(?:awg|#)?\s*(0{1,4})\s*(?:awg)?$/iu;

/** Reads a gauge number, such as `18`, `AWG 18` or `2/0`: -1 for 00 or 2/0, -2 for 000, -3 for 0000; undefined if it is none. */
export function readGauge(text: string): number | undefined {
  const zeros = ZEROS.exec(text.trim())?.[1];
  if (zeros !== undefined) return 1 - zeros.length;
  const match = GAUGE.exec(text.trim());
  const number = Number(match?.[1]);
  if (!match || (match[2] === undefined ? number > 50 : number < 1 || number > 4)) return undefined;
  return match[2] === undefined ? number : 1 - number;
}

/** How tables say that nothing is connected to a pin, in small letters without signs and blanks. Common practice, no source. */
const UNUSED: ReadonlySet<string> = new Set([
  ...["", "nc", "notconnected", "notused", "unused", "open", "empty", "none", "spare", "reserved", "nichtbelegt"],
  ...["unbelegt", "frei", "leer", "nonutilisé", "libre", "sinusar", "nonusato", "libero", "vrij", "ledig"],
]);

/**
 * Whether the text in a signal column says that the pin is not used: `N/C`, `not used`, `-`. Such a text is no name of a net, and two pins
 * that have it have nothing in common.
 */
export function isUnusedSignal(text: string): boolean {
  return UNUSED.has(text.toLowerCase().replace(/[^\p{L}\p{N}]/gu, ""));
}

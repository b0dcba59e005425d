import { addTo, defined, readQuantity, type DecimalSign } from "../../base/index.ts";
import { BOUNDS, COLOURS, isWithin, parseOptionExpression, readColour } from "../../harness-model/index.ts";
import { cleanId } from "../draft/draft-parts.ts";
import { importProblem, type ImportProblem } from "../import-problem.ts";
import { type ColumnField, toMillimetres } from "./columns.ts";
import type { ColourScheme } from "./table-options.ts";
import type { FieldColumn, RowRecord, WireFacts } from "./row-record.ts";

/** What the cells of a table are read with. */
export interface FactContext {
  readonly columns: ReadonlyMap<ColumnField, FieldColumn>;
  readonly decimal: DecimalSign | undefined;
  readonly colours: ColourScheme;
  /** Unit that a person has confirmed for sizes without one. */
  readonly sizeUnit?: "mm2" | "AWG";
  readonly report: (problem: ImportProblem) => void;
  /** Values that were left out because nothing says their unit, by field. */
  readonly withoutUnit: Map<ColumnField, string[]>;
  /** Options that were named by more than an id can hold, by id. */
  readonly optionLabels: Map<string, string>;
}

/** Reads what a row says about its wire. What cannot be read is reported and left out; what was turned into other words is kept in the note. */
export function readWireFacts(record: RowRecord, context: FactContext): WireFacts {
  const asWritten: string[] = [];
  const cable = readCable(record.text("cable"));
  if (!cable && record.text("cable") !== "") asWritten.push(`${record.heading("cable")} ${record.text("cable")}`);
  const colour = colourOfCells(record, context, { asWritten, other: cable?.colour ?? "" });
  const crossSectionMm2 =
    readMeasure(record, "crossSection", context, asWritten) ??
    (cable && readMeasureText({ text: cable.size, record, field: "cable", context, asWritten }));
  const lengthMm = readMeasure(record, "length", context, asWritten);
  const when = readOption(record, context, asWritten);
  const more = record.rest();
  const notes = [record.text("note"), ...more, asWritten.length > 0 ? `As written: ${asWritten.join(", ")}` : ""];
  const [note, net, harness, group] = [
    notes.filter((text) => text !== "").join(". "),
    ...(["net", "harness", "group"] as const).map((field) => record.text(field)),
  ].map((text) => (text === "" ? undefined : text));
  return defined({ colour, crossSectionMm2, lengthMm, net, harness, group, when, note });
}

/** What is noted as it was written, and a colour that stood in another cell. */
interface ColourCells {
  readonly asWritten: string[];
  readonly other: string;
}

function colourOfCells(record: RowRecord, context: FactContext, { asWritten, other }: ColourCells): string | undefined {
  const [base, tracer] = [record.text("colour") || other, record.text("tracer")];
  const text = tracer === "" ? base : `${base}/${tracer}`;
  if (text === "" || /^[-–—]+$/u.test(text)) return undefined;
  const reading = readColourText(text, context.colours);
  if (reading.kind === "unknown") {
    const facts = { text: text.slice(0, 80), part: reading.part.slice(0, 80) };
    context.report(importProblem("colour-unknown", record.at("colour"), facts));
    asWritten.push(`colour ${text}`);
    return undefined;
  }
  const colour = reading.kind === "bare" ? undefined : reading.colour;
  if (colour !== text) asWritten.push(`colour ${text}`);
  return colour;
}

/** Reads a length or size; undefined where the cell is empty or cannot be read. */
export function readMeasure(
  record: RowRecord,
  field: "crossSection" | "length" | "terminalSize",
  context: FactContext,
  asWritten: string[],
): number | undefined {
  const text = record.text(field);
  if (text === "" || /^[-–—]+$/u.test(text)) return undefined;
  return readMeasureText({ text, record, field, context, asWritten });
}

interface MeasureCell {
  readonly text: string;
  readonly record: RowRecord;
  readonly field: "crossSection" | "length" | "terminalSize" | "cable";
  readonly context: FactContext;
  readonly asWritten: string[];
}

function readMeasureText(cell: MeasureCell): number | undefined {
  const { text, record, field, context, asWritten } = cell;
  const isSize = field === "crossSection" || field === "cable";
  const what = isSize ? "size" : "length";
  const found = valueOfMeasure(cell, isSize);
  const bounds = field === "terminalSize" ? BOUNDS.terminalMm : isSize ? BOUNDS.crossSectionMm2 : BOUNDS.lengthMm;
  if (found && !isWithin(bounds, found.value)) {
    const facts = { text: text.slice(0, 80), what: bounds.what, least: bounds.least, most: bounds.most };
    context.report(importProblem("number-impossible", record.at(field), facts));
    asWritten.push(`${what} ${text}`);
    return undefined;
  }
  const written = found ? found.written : text;
  if (written !== "") asWritten.push(`${what} ${written}`);
  return found?.value;
}

/** The value in mm or mm², with what was written where that is another number or unit; undefined where it cannot be read. */
function valueOfMeasure(
  { text, record, field, context }: MeasureCell,
  isSize: boolean,
): { readonly value: number; readonly written: string } | undefined {
  const own = context.columns.get(field)?.unit;
  const unit = own ?? (isSize ? context.sizeUnit : undefined);
  const gauge = isSize && (unit === "AWG" || /awg|ga|#/iu.test(text)) ? readGauge(text) : undefined;
  if (gauge !== undefined)
    return { value: toMillimetres(gauge, "AWG"), written: /[a-z#]/iu.test(text) ? text : `${text} AWG` };
  const decimal = record.isNumber(field) ? "point" : context.decimal;
  const reading = readQuantity(withoutFraction(text), {
    units: [isSize ? "mm²" : "mm"],
    // No conductor has thousands of mm², so `2.081` is no group of thousands.
    ...defined({ decimal, scale: isSize ? SIZE_SCALE : undefined }),
  });
  const isWritten = reading.kind === "value" && reading.isUnitWritten;
  if (reading.kind === "question") {
    context.report(importProblem("number-ambiguous", record.at(field), { text: text.slice(0, 80) }));
  } else if (reading.kind !== "value" || (unit === "AWG" && !isWritten)) {
    const what = isSize ? "size" : "length";
    context.report(importProblem("number-unreadable", record.at(field), { text: text.slice(0, 80), what }));
  } else if (isWritten) {
    const isPlain = reading.symbol === "mm" || reading.symbol === "mm²";
    return { value: reading.value, written: isPlain ? "" : text };
  } else if (unit !== undefined) {
    const isPlain = unit === "mm" || (unit === "mm2" && own !== undefined);
    return { value: toMillimetres(reading.value, unit), written: isPlain ? "" : `${text} ${unit}` };
  } else addTo(context.withoutUnit, field, text);
  return undefined;
}

const SIZE_SCALE = { low: 0, high: BOUNDS.crossSectionMm2.most, most: BOUNDS.crossSectionMm2.most };

/** `3 1/2 in` with its fraction as a decimal number; any other text as it is. */
function withoutFraction(text: string): string {
  const [, whole = "0", over = "", under = "", unit = ""] =
    /^(?:(\d+)[ -])?(\d{1,2})\/(\d{1,2})\s*(in\b.*|inch.*|"|″)$/u.exec(text) ?? [];
  return Number(under) > 0 ? `${Number(whole) + Number(over) / Number(under)} ${unit}` : text;
}

/** A size and what stands beside it in one cell. */
const CABLE =
  /^(.*?)\s*(\d+(?:[.,]\d+)?\s*(?:mm\s?[²2]|qmm|sq\.?\s?mm|awg|ga(?:uge)?)|awg\s*\d{1,2}|#\d{1,2})(?![\p{L}\d])\s*(.*)$/iu;

/** Takes `6mm2 red` or `red 14ga` apart; undefined unless one part is a size and the other a colour. */
export function readCable(text: string): { readonly size: string; readonly colour: string } | undefined {
  const [, before = "", size = "", after = ""] = CABLE.exec(text.trim()) ?? [];
  const colour = `${before} ${after}`.replace(/[,;]/gu, " ").trim();
  if (size === "" || colour === "") return undefined;
  return readColourText(colour, { kind: "iec-60757" }).kind === "unknown" ? undefined : { size, colour };
}

/** An expression is taken as it is; anything that is plainly one name becomes an option; all else is a problem, as a wire without its option would be fitted always. */
function readOption(record: RowRecord, context: FactContext, asWritten: string[]): string | undefined {
  const text = record.text("option");
  if (text === "") return undefined;
  if (parseOptionExpression(text).ok) return text;
  const id = cleanId(text);
  if (id === undefined || /[&|!(),;/]/u.test(text)) {
    context.report(importProblem("option-unclear", record.at("option"), { text: text.slice(0, 80) }));
    asWritten.push(`option ${text}`);
    return undefined;
  }
  context.optionLabels.set(id, text);
  return id;
}

/** A colour as read: `bare` has none, `unknown` names the part that the scheme does not have. */
export type ColourReading =
  | { readonly kind: "colour"; readonly colour: string }
  | { readonly kind: "bare" }
  | { readonly kind: "unknown"; readonly part: string };

const list = (text: string): ReadonlySet<string> => new Set(text.split(" "));
/** Words that say how light a colour is. They change nothing in a code of IEC 60757, and stay in the note. */
const SHADES = list(
  "light lt lite dark dk pale bright hell dunkel clair claire fonce foncee claro clara oscuro oscura chiaro chiara scuro scura licht donker ljus mork escuro escura jasny ciemny jasno ciemno",
);
/** Words between the colours of a base and a stripe. */
const STRIPE_WORDS = list(
  "with w and stripe stripes striped tracer trace band mit und streifen gestreift avec et rayure rayures strie lisere con y raya franja rayas e striscia riga met en streep med och rand com faixa listra z paskiem pasek",
);
/** Words after which the base colour comes: `red stripe on white`. */
const ON_WORDS = list("on auf sur sobre su op pa na");
/** Words for a conductor without a coloured insulation. */
const BARE = list(
  "bare uninsulated blank shield shielding screen drain braid tinned clear schirm abschirmung beilitze blindage nu tresse malla pantalla desnudo schermo calza nudo afscherming blank skarm ekran malha blindagem",
);

/**
 * Reads the colour of a wire by the scheme declared for the file. Base and tracer may be joined by a slash, hyphen, dot, plus, blank or
 * words such as "with ... stripe", or run together where that can be read one way only. "Light" and "dark" change nothing, and a bare
 * wire has no colour. Nothing is guessed: a part the scheme does not have is unknown.
 *
 * @param text The colour as written.
 * @param scheme What the codes mean.
 * @example
 * ```ts
 * import { readColourText } from "ohmward/import-export";
 * expect(readColourText("wh-rd", { kind: "iec-60757" })).toEqual({ kind: "colour", colour: "WH/RD" });
 * expect(readColourText("Yellow w/ black stripe", { kind: "iec-60757" })).toEqual({ kind: "colour", colour: "YE/BK" });
 * expect(readColourText("B", { kind: "iec-60757" })).toEqual({ kind: "unknown", part: "B" });
 * expect(readColourText("B/W", { kind: "codes", codes: [["B", "BU"], ["W", "WH"]] })).toEqual({ kind: "colour", colour: "BU/WH" });
 * ```
 * Source: IEC 60757.
 */
export function readColourText(text: string, scheme: ColourScheme): ColourReading {
  const parts = text
    .trim()
    .replace(/\bw\/(?=\s|\p{L}{3})/giu, "with ")
    .replace(/[()]/gu, " ")
    .split(/\s*[/\-.+,;|&]\s*|\s+/u)
    .filter((part) => part !== "");
  if (parts.length === 1 && parts[0]?.toUpperCase() === "GNYE") return { kind: "colour", colour: "GNYE" };
  const named = scheme.kind === "codes" ? parts : withoutShades(parts);
  const words = named.map(plainWord);
  if (scheme.kind !== "codes" && words.length > 0 && words.every((word) => BARE.has(word))) return { kind: "bare" };
  const on = scheme.kind === "codes" ? -1 : words.findIndex((word) => ON_WORDS.has(word));
  const ordered = on < 0 ? named : [...named.slice(on + 1), ...named.slice(0, on)];
  const isStripe = (part: string): boolean => STRIPE_WORDS.has(plainWord(part)) && codeOf(part, scheme) === undefined;
  const codes = partsToCodes(scheme.kind === "codes" ? ordered : ordered.filter((part) => !isStripe(part)), scheme);
  if (typeof codes === "string") return { kind: "unknown", part: codes };
  const colour = codes.join("/");
  return readColour(colour) ? { kind: "colour", colour } : { kind: "unknown", part: text.trim() };
}

function plainWord(part: string): string {
  return part.toLowerCase().replaceAll("ß", "ss").replaceAll("ł", "l").normalize("NFD").replace(/\p{M}/gu, "");
}

/** The parts without words for light and dark, also where those begin a word: `hellblau`. */
function withoutShades(parts: readonly string[]): readonly string[] {
  const kept = parts.filter((part) => !SHADES.has(plainWord(part)));
  if (kept.length === 0) return parts;
  return kept.map((part) => {
    const shade = [...SHADES].find((each) => each.length > 3 && plainWord(part).startsWith(each));
    const rest =
      shade === undefined
        ? ""
        : plainWord(part)
            .slice(shade.length)
            .replace(/^e(?=r|g)/u, "");
    return wordCode(rest) === undefined ? part : rest;
  });
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
  return wordCode(plainWord(part));
}

/** The code of a colour word, also of one with an ending: `rotem`, `blanches`. */
function wordCode(word: string): string | undefined {
  const ending = /^(.{3,}?)(?:e[mnrs]?|s)$/u.exec(word)?.[1] ?? "";
  return COLOUR_WORDS.get(word) ?? COLOUR_WORDS.get(ending);
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
 * IEC 60757 codes by colour word, in small letters without accents: English, German, French, Spanish, Italian, Dutch, Swedish, Portuguese,
 * Polish, and English short forms of three letters. Shorter forms differ from land to land and are never guessed.
 */
const COLOUR_WORDS = codesByWord([
  "BK black blk schwarz noir noire negro negra nero nera zwart svart preto preta czarny",
  "BN brown brn braun brun marron marrone bruin castanho brazowy brunatny",
  "RD red rot rouge rojo roja rosso rossa rood rod vermelho vermelha czerwony",
  "OG orange orn org ora naranja arancione arancio oranje laranja pomaranczowy",
  "YE yellow yel gelb jaune amarillo amarilla giallo gialla geel gul amarelo amarela zolty",
  "GN green grn grun vert verte verde groen gron zielony",
  "BU blue blu blau bleu azul blauw bla niebieski",
  "VT violet vio purple pur ppl violett violette lila violeta morado viola paars roxo fioletowy",
  "GY grey gray gry gra grau gris grigio grijs cinza cinzento szary",
  "WH white wht weiss blanc blanche blanco blanca bianco bianca wit vit branco branca bialy",
  "PK pink pnk rosa rose roze rozowy",
  "TQ turquoise turkis turquesa turchese turkusowy",
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
const UNCONNECTED: ReadonlySet<string> = new Set([
  ...[
    "",
    "nc",
    "notconnected",
    "noconnection",
    "noconnect",
    "notused",
    "unused",
    "empty",
    "none",
    "na",
    "nichtbelegt",
    "unbelegt",
  ],
  ...[
    "nonutilise",
    "sinusar",
    "nousado",
    "nonusato",
    "ejansluten",
    "naousado",
    "nieuzywany",
    "nieuzywane",
    "nb",
    "leer",
  ],
]);
const SPARE: ReadonlySet<string> = new Set([
  ...["spare", "reserved", "reserve", "frei", "libre", "libero", "vrij", "ledig", "livre", "wolny", "wolne", "reserva"],
]);

const bareWord = (text: string): string => plainWord(text).replace(/[^\p{L}\p{N}]/gu, "");

/** Whether a text says that nothing is connected: `N/C`, `not used`, `-`. */
export function isUnconnected(text: string): boolean {
  const word = bareWord(text);
  return word === "" ? /^[-–—./\s]*$/u.test(text) : UNCONNECTED.has(word);
}

/**
 * Whether the text in a signal column says that the pin is not used: `N/C`, `not used`, `spare`, `-`. Such a text is no name of a net, and
 * two pins that have it have nothing in common.
 */
export function isUnusedSignal(text: string): boolean {
  return isUnconnected(text) || SPARE.has(bareWord(text));
}

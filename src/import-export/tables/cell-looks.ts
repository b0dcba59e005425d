import { readQuantity } from "../../base/index.ts";
import { readCable, readColourText, readGauge } from "./wire-facts.ts";

/** Cavities are numbered or lettered: `5`, `A`, `B12`, `30a`, `PIN1`, `+`, `L+`, `Q0.0`, `AIN4`. */
const PIN =
  /^(?:pin[ _.-]?)?[A-Za-z]{0,3}\d{1,3}[A-Za-z]?$|^[A-Za-z]{1,2}$|^[+\-−]$|^[A-Z]{1,4}[+\-−]$|^[A-Z]{1,2}\d{1,2}\.\d{1,2}$/iu;
/** Contacts that have a short name: `IN`, `COM`, `AIN4`. */
const NAMED_PIN = /^[A-Z]{2,5}\d{0,3}[+-]?$/u;

/** Whether a text looks like the number, letter or short name of a pin. */
export function looksLikePin(text: string, mayBeNamed = false): boolean {
  return PIN.test(text.trim()) || (mayBeNamed && NAMED_PIN.test(text.trim()));
}

/** Words by which tables say that something is not known or not decided yet, in small letters without signs. Common practice, no source. */
const PLACEHOLDERS: ReadonlySet<string> = new Set([
  ...["", "todo", "tbd", "tba", "tbc", "unknown", "na", "none", "notknown", "notyet", "offen", "unbekannt", "inconnu"],
  ...["desconocido", "pendiente", "sconosciuto", "onbekend", "okand", "desconhecido", "nieznany", "adefinir", "later"],
]);

/** Whether a text stands where a name should and says that it is not known: `TODO`, `?`, `-`. */
export function isPlaceholder(text: string): boolean {
  return PLACEHOLDERS.has(text.toLowerCase().replace(/[^\p{L}\p{N}]/gu, ""));
}

/** A designator as the trade writes them: `X1`, `J12`, `C101A`, `XC1`. */
const DESIGNATOR = /^-?[A-Z]{1,3}\d{1,4}[A-Za-z]?$/u;

/** Whether a text is a designator, such as `X1`. */
export function isDesignator(text: string): boolean {
  return DESIGNATOR.test(text);
}

/** What stands between connector and pin. */
const SEPARATORS = [":", "/", ".", "-", " pin ", " "] as const;

/** A name and a pin that were written in one cell. */
export interface SplitEnd {
  readonly connector: string;
  readonly pin: string;
}

/** Takes `A1.X1:36` apart at the last separator; undefined where that leaves no name or no pin. `X1(3)` and `X1[3]` need no separator. */
export function splitAt(text: string, separator: string): SplitEnd | undefined {
  const bracketed = /^(.*?\S)\s*[([]\s*([^()[\]]+?)\s*[)\]]$/u.exec(text.trim());
  if (bracketed && separator !== ":" && looksLikePin(bracketed[2] ?? "", true))
    return { connector: bracketed[1] ?? "", pin: bracketed[2] ?? "" };
  const at = text.toLowerCase().lastIndexOf(separator, text.length - separator.length - 1);
  const [connector, pin] = [text.slice(0, at).trim(), text.slice(at + separator.length).trim()];
  // `Sensor 3 pin 1` may be taken apart at its last blank.
  const name = connector.replace(/[\s,]+(?:pin|kontakt|klemme|cavity|cav|terminal|term|broche|borne)\.?$/iu, "");
  return at > 0 && /[\p{L}\p{N}]/u.test(name) && pin !== "" ? { connector: name, pin } : undefined;
}

/** The share of cells that fall into a name and something like a pin by a separator. */
function shareSplit(texts: readonly string[], separator: string): number {
  const split = texts.filter((text) => {
    const parts = splitAt(text, separator);
    return parts !== undefined && /\p{L}/u.test(parts.connector) && looksLikePin(parts.pin, true);
  });
  return split.length / Math.max(1, texts.length);
}

/**
 * Finds what stands between connector and pin where both are in one cell: the sign by which most cells fall into a name and a pin. Cells
 * that say nothing do not count.
 *
 * @returns The sign with the share of cells that it splits; undefined if none splits half of them.
 */
export function findEndSeparator(texts: readonly string[]): { separator: string; share: number } | undefined {
  const wanting = texts.filter((text) => !isPlaceholder(text));
  let best: { separator: string; share: number } | undefined;
  for (const separator of SEPARATORS) {
    const share = shareSplit(wanting, separator);
    // A blank or a hyphen stands inside names as well.
    const least = separator === " " || separator === "-" ? 0.7 : 0.5;
    if (share >= least && share > (best?.share ?? 0)) best = { separator, share };
  }
  return best;
}

/** What stands between the two ends of a wire in one cell; a plain hyphen has blanks around it. */
const ARROW = /\s*(?:<?[-–—=]+>|→|⇒|➔|↔|<->)\s*|\s+(?:to|[-–—])\s+/iu;

/** Takes `X1:3 -> X2:1` apart; undefined unless there are two ends. */
export function splitArrow(text: string): readonly [string, string] | undefined {
  const [first = "", second = "", ...more] = text.split(ARROW).map((part) => part.trim());
  return more.length === 0 && first !== "" && second !== "" ? [first, second] : undefined;
}

/** The ends that one cell lists: `J1-1, J2-3; U1-4`. */
export function splitPoints(text: string): readonly string[] {
  return text
    .split(/\s*[,;\n]\s*/u)
    .map((part) => part.trim())
    .filter((part) => part !== "");
}

/** What the cells of a column look like: shares from 0 to 1 of those that hold something. */
export interface ColumnLooks {
  /** How many cells hold something. */
  readonly filled: number;
  readonly colour: number;
  readonly size: number;
  readonly length: number;
  readonly cable: number;
  readonly pin: number;
  readonly end: number;
  /** Whether a colon or slash stands between connector and pin: a hyphen stands in part numbers as well. */
  readonly isSureEnd: boolean;
  readonly arrow: number;
  /** Share of cells with text that no other cell of the column has. */
  readonly unique: number;
  /** Share of cells with a letter. */
  readonly words: number;
}

const IEC = { kind: "iec-60757" } as const;
const isColour = (text: string): boolean => readColourText(text, IEC).kind !== "unknown";
const isSize = (text: string): boolean =>
  (/awg|ga|#/iu.test(text) && readGauge(text) !== undefined) || hasUnit(text, "mm²");
const isLength = (text: string): boolean => hasUnit(text, "mm");

function hasUnit(text: string, unit: "mm" | "mm²"): boolean {
  if (!/\d/u.test(text) || !/[\p{L}"'′″]/u.test(text)) return false;
  const read = readQuantity(text, { units: [unit] });
  return read.kind === "value" && read.isUnitWritten;
}

/** Most cells of a column that are looked at. */
const MOST_SEEN = 120;

/** Looks at the cells of a column. */
export function columnLooks(cells: readonly string[]): ColumnLooks {
  const filled = cells.map((cell) => cell.trim()).filter((cell) => cell !== "");
  const seen = filled.slice(0, MOST_SEEN);
  const share = (test: (text: string) => boolean): number => seen.filter(test).length / Math.max(1, seen.length);
  const points = seen.flatMap(splitPoints);
  const ends = points.length === 0 ? undefined : findEndSeparator(points);
  return {
    filled: filled.length,
    colour: share(isColour),
    size: share(isSize),
    length: share(isLength),
    cable: share((text) => readCable(text) !== undefined),
    pin: share((text) => looksLikePin(text)),
    end: ends?.share ?? 0,
    isSureEnd: ends?.separator === ":" || ends?.separator === "/",
    arrow: share((text) => splitArrow(text) !== undefined),
    unique: new Set(seen).size / Math.max(1, seen.length),
    words: share((text) => /\p{L}/u.test(text)),
  };
}

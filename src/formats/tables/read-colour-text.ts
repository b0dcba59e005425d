import { COLOURS, readColour } from "../../model/index.ts";
import { COLOUR_WORDS } from "./colour-words.ts";

/** What the colour codes of a file mean. */
export type ColourScheme =
  /** Two-letter codes of IEC 60757, and colours written out. */
  | { readonly kind: "iec-60757" }
  /** Codes of the file's own, each with the IEC 60757 code it stands for; codes not listed are not read. */
  | { readonly kind: "codes"; readonly codes: readonly (readonly [written: string, code: string])[] };

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
 * import { readColourText } from "ohmward/formats";
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
  if (scheme.kind === "codes") {
    // The same letter in capitals and small may be two colours, so the exact form comes first.
    const exact = scheme.codes.find(([written]) => written === part);
    const loose = exact ?? scheme.codes.find(([written]) => written.toLowerCase() === part.toLowerCase());
    return loose?.[1];
  }
  const upper = part.toUpperCase();
  if (COLOURS.some((colour) => colour.code === upper)) return upper;
  const plain = part.toLowerCase().replaceAll("ß", "ss").normalize("NFD").replace(/\p{M}/gu, "");
  return COLOUR_WORDS.get(plain);
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

/** One colour of a wire as the file gives it. */
export interface RawColour {
  readonly role: "base" | "tracer" | "more";
  readonly text: string;
  /** The list of codes that the file names, if it does. */
  readonly system?: string;
}

/** A list of colour codes: the letter codes of IEC 60757, German codes and words, English words. */
export type ColourScheme = "iec-60757" | "german" | "english";

/**
 * German short codes and words by the letter codes of IEC 60757; an empty text is a conductor without colour.
 *
 * Common practice, no source.
 */
const GERMAN: ReadonlyMap<string, string> = new Map([
  ["sw", "BK"],
  ["schwarz", "BK"],
  ["br", "BN"],
  ["braun", "BN"],
  ["rt", "RD"],
  ["rot", "RD"],
  ["or", "OG"],
  ["orange", "OG"],
  ["ge", "YE"],
  ["gelb", "YE"],
  ["gn", "GN"],
  ["gruen", "GN"],
  ["grün", "GN"],
  ["bl", "BU"],
  ["blau", "BU"],
  ["vi", "VT"],
  ["violett", "VT"],
  ["li", "VT"],
  ["lila", "VT"],
  ["gr", "GY"],
  ["grau", "GY"],
  ["ws", "WH"],
  ["weiss", "WH"],
  ["weiß", "WH"],
  ["rs", "PK"],
  ["rosa", "PK"],
  ["go", "GD"],
  ["gold", "GD"],
  ["tk", "TQ"],
  ["tuerkis", "TQ"],
  ["türkis", "TQ"],
  ["sb", "SR"],
  ["silber", "SR"],
  ["blk", ""],
  ["blank", ""],
]);

/** English words by the letter codes of IEC 60757, as that standard names them. Source: IEC 60757 (see docs/sources.md). */
const ENGLISH: ReadonlyMap<string, string> = new Map([
  ["black", "BK"],
  ["brown", "BN"],
  ["red", "RD"],
  ["orange", "OG"],
  ["yellow", "YE"],
  ["green", "GN"],
  ["blue", "BU"],
  ["violet", "VT"],
  ["grey", "GY"],
  ["gray", "GY"],
  ["white", "WH"],
  ["pink", "PK"],
  ["gold", "GD"],
  ["turquoise", "TQ"],
  ["silver", "SR"],
]);

const LETTERS: ReadonlyMap<string, string> = new Map([...ENGLISH.values()].map((code) => [code.toLowerCase(), code]));

/** Schemes in the order in which they win when several explain a file equally well. */
const SCHEMES: readonly (readonly [ColourScheme, ReadonlyMap<string, string>])[] = [
  ["iec-60757", LETTERS],
  ["german", GERMAN],
  ["english", ENGLISH],
];

/**
 * Finds the scheme of a file: the one it names, otherwise the one that knows most of its codes.
 *
 * @param colours All colours of the file.
 * @returns The scheme, and whether the file names it itself.
 */
export function findColourScheme(colours: readonly RawColour[]): { scheme: ColourScheme; isNamed: boolean } {
  if (colours.some((colour) => colour.system !== undefined && /60757/u.test(colour.system)))
    return { scheme: "iec-60757", isNamed: true };
  const texts = new Set(colours.map((colour) => colour.text.toLowerCase()));
  let best: ColourScheme = "iec-60757";
  let most = 0;
  for (const [scheme, codes] of SCHEMES) {
    const known = [...texts].filter((text) => codes.has(text)).length;
    if (known > most) {
      best = scheme;
      most = known;
    }
  }
  return { scheme: best, isNamed: false };
}

/**
 * The letter code of one colour.
 *
 * @param text The colour as written in the file.
 * @param scheme The scheme of the file.
 * @returns The code, an empty text for a conductor without colour, or undefined for a colour the scheme does not know.
 */
export function mapColour(text: string, scheme: ColourScheme): string | undefined {
  return SCHEMES.find(([name]) => name === scheme)?.[1].get(text.toLowerCase());
}

/** A wire's colours put together. */
export interface MappedColour {
  /** In the form of the harness document; undefined for a bare conductor, or where one of its colours is not known. */
  readonly colour: string | undefined;
  /** The colours as written in the file. */
  readonly raw: string;
  /** Those that the scheme does not know. */
  readonly unknown: readonly string[];
}

/** Puts base and tracer of a wire together. A third colour has no place in the document and is kept in the raw text only. */
export function mapColours(colours: readonly RawColour[], scheme: ColourScheme): MappedColour {
  const order = { base: 0, tracer: 1, more: 2 };
  const sorted = [...colours].sort((first, second) => order[first.role] - order[second.role]);
  const codes = sorted.map((colour) => mapColour(colour.text, scheme));
  const unknown = sorted.filter((_, at) => codes[at] === undefined).map((colour) => colour.text);
  const known = codes.filter((code) => code !== undefined && code !== "").slice(0, 2);
  return {
    colour: unknown.length > 0 || known.length === 0 ? undefined : known.join("/"),
    raw: sorted.map((colour) => colour.text).join("/"),
    unknown,
  };
}

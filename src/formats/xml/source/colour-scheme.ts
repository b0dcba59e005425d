import type { ColourScheme } from "../../tables/read-colour-text.ts";

/** One colour of a wire as the file gives it. */
export interface RawColour {
  readonly role: "base" | "tracer" | "more";
  readonly text: string;
  /** The list of codes that the file names, if it does. */
  readonly system?: string;
}

/** A list of colour codes that files use: the letter codes of IEC 60757, German codes and words, English words. */
type CodeList = "iec-60757" | "german" | "english";

/** What the colour codes of one file mean. */
export interface ColourCodes {
  /** Name of the list, for people. */
  readonly name: string;
  /** Whether the file or the person who imports says so; otherwise it was worked out. */
  readonly isKnown: boolean;
  /** Letter code of a colour, an empty text for a conductor without colour, undefined for a colour the list does not have. */
  readonly codeOf: (text: string) => string | undefined;
}

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

/** Lists in the order in which they win when several explain a file equally well. */
type Listed = readonly [CodeList, ReadonlyMap<string, string>];
const LISTS: readonly [Listed, ...Listed[]] = [
  ["iec-60757", LETTERS],
  ["german", GERMAN],
  ["english", ENGLISH],
];

/**
 * Finds what the codes of a file mean: as the person who imports says, by the list that the file names, otherwise by the list that has
 * most of its codes.
 *
 * @param colours All colours of the file.
 * @param given What the person says.
 */
export function findColourCodes(colours: readonly RawColour[], given?: ColourScheme): ColourCodes {
  if (given?.kind === "codes")
    return { name: "the codes given", isKnown: true, codeOf: (text) => givenCode(text, given.codes) };
  const isNamed = given !== undefined || colours.some(({ system }) => system !== undefined && /60757/u.test(system));
  const texts = new Set(colours.map((colour) => colour.text.toLowerCase()));
  let best = LISTS[0];
  let most = 0;
  for (const list of isNamed ? [] : LISTS) {
    const known = [...texts].filter((text) => list[1].has(text)).length;
    if (known > most) {
      best = list;
      most = known;
    }
  }
  return { name: best[0], isKnown: isNamed, codeOf: (text) => best[1].get(text.toLowerCase()) };
}

/** The same letter in capitals and small may be two colours, so the exact form comes first. */
function givenCode(text: string, codes: readonly (readonly [written: string, code: string])[]): string | undefined {
  const exact = codes.find(([written]) => written === text);
  return (exact ?? codes.find(([written]) => written.toLowerCase() === text.toLowerCase()))?.[1];
}

/** A wire's colours put together. */
export interface MappedColour {
  /** In the form of the harness document; undefined for a bare conductor, or where one of its colours is not known. */
  readonly colour: string | undefined;
  /** The colours as written in the file. */
  readonly raw: string;
  /** Those that the list does not have. */
  readonly unknown: readonly string[];
}

/** Puts base and tracer of a wire together. A third colour has no place in the document and is kept in the raw text only. */
export function mapColours(colours: readonly RawColour[], list: ColourCodes): MappedColour {
  const order = { base: 0, tracer: 1, more: 2 };
  const sorted = [...colours].sort((first, second) => order[first.role] - order[second.role]);
  const codes = sorted.map((colour) => list.codeOf(colour.text));
  const unknown = sorted.filter((_, at) => codes[at] === undefined).map((colour) => colour.text);
  const known = codes.filter((code) => code !== undefined && code !== "").slice(0, 2);
  return {
    colour: unknown.length > 0 || known.length === 0 ? undefined : known.join("/"),
    raw: sorted.map((colour) => colour.text).join("/"),
    unknown,
  };
}

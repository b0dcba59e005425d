/** A unit that a quantity is given in, in its plain form without prefix. */
export type QuantityUnit = "V" | "A" | "Ω" | "W" | "Hz" | "%" | "°C" | "bar" | "kPa" | "mm" | "mm²" | "min";

/** A unit as it was written. */
export interface WrittenUnit {
  /** Absent where a prefix stands alone, as in `2.2 k`. */
  readonly unit?: QuantityUnit;
  /** The power of ten of the prefix. */
  readonly power: number;
  /** How many of `unit` it is apart from the prefix: 25.4 for an inch. */
  readonly factor: number;
  /** Its symbol: `mV`, `kΩ`, `in`. */
  readonly symbol: string;
  /** Whether the capital M may have been meant as m: nobody measures megavolts here, and a text all in capitals does not tell. */
  readonly isCaseDoubtful: boolean;
}

interface UnitRow {
  readonly unit: QuantityUnit;
  readonly symbol: string;
  readonly factor?: number;
  readonly takesPrefix?: boolean;
  /** In small letters. */
  readonly words: readonly string[];
}

/**
 * Source of symbols and prefixes: BIPM, The International System of Units (SI Brochure), 9th edition, sections 2 and 3; R for ohm: IEC 60062,
 * from memory. The inch is 25.4 mm and the foot 304.8 mm by international agreement of 1959. Words of other languages: common practice, no
 * source.
 */
const UNITS: readonly UnitRow[] = [
  {
    unit: "V",
    symbol: "V",
    takesPrefix: true,
    words: ["v", "volt", "volts", "voltio", "voltios", "wolt", "wolty", "woltów", "voltti", "volttia", "в", "вольт"],
  },
  {
    unit: "A",
    symbol: "A",
    takesPrefix: true,
    words: [
      ...["a", "amp", "amps", "ampere", "amperes", "ampère", "ampères", "amperio", "amperios", "amper", "ampery"],
      ...["amperów", "ampeeri", "ampeeria", "ампер", "а"],
    ],
  },
  {
    unit: "Ω",
    symbol: "Ω",
    takesPrefix: true,
    words: ["ω", "r", "ohm", "ohms", "ohmio", "ohmios", "ohmia", "ohmi", "om", "omy", "omów", "ом"],
  },
  { unit: "W", symbol: "W", takesPrefix: true, words: ["w", "watt", "watts", "vatio", "vatios"] },
  { unit: "Hz", symbol: "Hz", takesPrefix: true, words: ["hz", "hertz"] },
  { unit: "%", symbol: "%", words: ["%", "percent", "per cent", "prozent"] },
  { unit: "°C", symbol: "°C", words: ["°c", "℃", "c", "celsius", "deg c", "grad celsius"] },
  { unit: "bar", symbol: "bar", takesPrefix: true, words: ["bar"] },
  { unit: "kPa", symbol: "kPa", words: ["kpa"] },
  { unit: "mm", symbol: "mm", words: ["mm", "millimetre", "millimeter", "millimetres", "millimeters"] },
  { unit: "mm", symbol: "cm", factor: 10, words: ["cm", "centimetre", "centimeter", "centimetres", "centimeters"] },
  { unit: "mm", symbol: "m", factor: 1000, words: ["m", "metre", "meter", "metres", "meters", "metro", "metros"] },
  { unit: "mm", symbol: "in", factor: 25.4, words: ["in", "inch", "inches", '"', "zoll"] },
  { unit: "mm", symbol: "ft", factor: 304.8, words: ["ft", "feet", "foot"] },
  {
    unit: "mm²",
    symbol: "mm²",
    words: ["mm²", "mm2", "mm^2", "sqmm", "sq mm", "sq.mm", "qmm"],
  },
  { unit: "min", symbol: "min", words: ["min", "mins", "minute", "minutes", "minuten", "minutos"] },
  { unit: "min", symbol: "h", factor: 60, words: ["h", "hour", "hours", "stunde", "stunden", "hora", "horas"] },
];

/** Upper and lower case tell prefixes apart; K for kilo is a habit that no other prefix stands against. */
const PREFIX_SIGNS: ReadonlyMap<string, number> = new Map(
  Object.entries({
    p: -12,
    n: -9,
    u: -6,
    "\u03bc": -6,
    m: -3,
    k: 3,
    K: 3,
    M: 6,
    G: 9,
    мк: -6,
    м: -3,
    к: 3,
    К: 3,
    М: 6,
  }),
);
const PREFIX_WORDS: ReadonlyMap<string, number> = new Map(
  Object.entries({
    ...{ nano: -9, micro: -6, mikro: -6, milli: -3, mili: -3, kilo: 3, kil: 3, кило: 3 },
    ...{ meg: 6, mega: 6, giga: 9 },
  }),
);
const PREFIX_OF_POWER: ReadonlyMap<number, string> = new Map([
  [-12, "p"],
  [-9, "n"],
  [-6, "µ"],
  [-3, "m"],
  [0, ""],
  [3, "k"],
  [6, "M"],
  [9, "G"],
]);
const MEGA = 6;

/** The power of ten of a prefix, as a sign or a word; undefined if it is none. */
export function prefixPower(text: string): number | undefined {
  return PREFIX_SIGNS.get(text) ?? PREFIX_WORDS.get(text.toLowerCase());
}

/** A unit with the prefix of a power of ten: `symbolOf("V", -3)` is `mV`. */
export function symbolOf(unit: QuantityUnit | undefined, power: number): string {
  return `${PREFIX_OF_POWER.get(power) ?? ""}${unit ?? ""}`;
}

/**
 * The unit that a text names, with its prefix.
 *
 * @param text such as `mV`, `kilo ohm`, `Volt`, `mm²`; signs as `plainSigns` writes them
 * @param wanted the units that are looked for; all where absent
 * @returns the unit; undefined if the text names none of them
 */
export function readUnit(text: string, wanted?: readonly QuantityUnit[]): WrittenUnit | undefined {
  const written = text.trim().replace(/\.$/u, "");
  const lower = written.toLowerCase();
  const rows = UNITS.filter(({ unit }) => wanted === undefined || wanted.includes(unit));
  const whole = rows.find(({ words }) => words.includes(lower));
  if (whole) return made(whole, 0, false);
  for (const row of rows.filter(({ takesPrefix }) => takesPrefix)) {
    for (const word of row.words.filter((each) => lower.endsWith(each))) {
      const power = prefixPower(written.slice(0, -word.length).trim());
      if (power === undefined) continue;
      const isMegaSign = power === MEGA && /^[MМ]/u.test(written) && !/^meg/iu.test(written);
      const isAllCapitals = word.length > 1 && written === written.toUpperCase();
      return made(row, power, isMegaSign && (row.unit === "V" || row.unit === "A" || isAllCapitals));
    }
  }
  const power = rows.some(({ takesPrefix }) => takesPrefix) ? prefixPower(written) : undefined;
  if (power === undefined) return undefined;
  const isDoubtful = written === "M" && rows.every(({ unit }) => unit !== "Ω");
  return { power, factor: 1, symbol: symbolOf(undefined, power), isCaseDoubtful: isDoubtful };
}

function made({ unit, symbol, factor = 1 }: UnitRow, power: number, isCaseDoubtful: boolean): WrittenUnit {
  return { unit, power, factor, symbol: (PREFIX_OF_POWER.get(power) ?? "") + symbol, isCaseDoubtful };
}

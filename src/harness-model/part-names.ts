/** Sorts of parts that a name can tell, by their names in the trade. */
export type NamedPart =
  | "relay"
  | "fuse"
  | "switch"
  | "battery"
  | "alternator"
  | "temperature-sensor"
  | "valve"
  | "injector"
  | "heater"
  | "motor"
  | "led-lamp"
  | "lamp"
  | "horn"
  | "terminator"
  | "diode";

/** Words that tell a part, in English, German, French, Spanish, Italian and others, the most certain first. Common practice, no source. */
const PART_WORDS: readonly (readonly [NamedPart, RegExp])[] = [
  ["relay", /relay|relais|rel[èée]\b|relé/iu],
  ["fuse", /\bfuse|sicherung|fusible|fusibile|säkring/iu],
  ["switch", /switch|schalter|interrupt|commutateur|interruttore|taster/iu],
  ["battery", /batter[yi]|accu\b|bater[íi]a|akku/iu],
  ["alternator", /alternator|generator|lichtmaschine|alternateur|alternador|alternatore/iu],
  ["temperature-sensor", /temp/iu],
  ["valve", /valve|solenoid|ventil\b|magnet|électrovanne|v[áa]lvula|elettrovalvola/iu],
  ["injector", /inje[ck]tor|injecteur|inyector|iniettore|einspritz/iu],
  ["heater", /heat|heiz|glow|glüh|chauff|calent|riscald/iu],
  ["motor", /motor|pump|\bfan\b|blower|wiper|moteur|pompe|ventil(?:ator|ateur|ador)|lüfter|gebläse|bomba|pompa/iu],
  ["led-lamp", /\bled\b/iu],
  [
    "lamp",
    /lamp|\blights?\b|headlight|leuchte|licht\b|\bfeux?\b|phare|l[áa]mpara|\bluz\b|\bfaro\b|\bluce\b|lampada|lykta|lygte|żarówka/iu,
  ],
  ["horn", /\bhorn\b|buzzer|hupe|klaxon|bocina|summer/iu],
  ["terminator", /terminat(?:or|ion)|abschlu(?:ss|ß)widerstand/iu],
  ["diode", /diod/iu],
];

/**
 * The sort of part that a name tells, such as `Bow light` or `Kraftstoffpumpe`; for a person to confirm.
 *
 * @param name The name, in any of several languages.
 * @returns The part; undefined where the name tells none.
 */
export function partOfName(name: string): NamedPart | undefined {
  const plain = name.replaceAll(/[_.-]/gu, " ");
  return PART_WORDS.find(([, words]) => words.test(plain))?.[0];
}

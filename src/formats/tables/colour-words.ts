/** Colours written out, in small letters without accents: English, German, French, Spanish, Italian, Dutch, Swedish. */
const WORDS: readonly (readonly [code: string, words: string])[] = [
  ["BK", "black schwarz noir negro nero zwart svart"],
  ["BN", "brown braun brun marron marrone bruin"],
  ["RD", "red rot rouge rojo rosso rood rod"],
  ["OG", "orange naranja arancione arancio oranje"],
  ["YE", "yellow gelb jaune amarillo giallo geel gul"],
  ["GN", "green grun vert verde groen gron"],
  ["BU", "blue blau bleu azul blu blauw bla"],
  ["VT", "violet purple violett lila violeta morado viola paars"],
  ["GY", "grey gray grau gris grigio grijs gra"],
  ["WH", "white weiss blanc blanco bianco wit vit"],
  ["PK", "pink rosa rose roze"],
  ["TQ", "turquoise turkis turquesa turchese"],
];

/** IEC 60757 codes by colour word. Only whole words are here: short forms differ from land to land and are never guessed. */
export const COLOUR_WORDS: ReadonlyMap<string, string> = new Map(
  WORDS.flatMap(([code, words]) => words.split(" ").map((word): [string, string] => [word, code])),
);

import type { SeededRandom } from "ohmward/base";
import type { HarnessDocument } from "ohmward/harness-model";

/** Sorts of thing that a job can be about. */
export const THING_KINDS = ["component", "connector", "wire", "splice", "stud", "net", "code", "element"] as const;

/** Everything of a document that a question can name, by sort, as a person types it. */
export interface Names {
  readonly items: ReadonlyMap<(typeof THING_KINDS)[number], readonly string[]>;
  /** Points: contacts of halves, cavities, splices, studs. */
  readonly points: readonly string[];
  /** All of these, segments, zones, and texts that name nothing. */
  readonly all: readonly string[];
  readonly wires: readonly string[];
  readonly states: readonly (string | undefined)[];
}

const STRANGERS = [
  "",
  " ",
  "no such thing",
  "__proto__",
  "constructor",
  ":",
  "#",
  "A1:",
  "%00",
  "🔧",
  "x".repeat(5000),
];

/** Lists what questions can name. */
export function namesOf(document: HarnessDocument): Names {
  const ids = (list: readonly { readonly id: string }[]): readonly string[] => list.map(({ id }) => id);
  const elements = document.components.flatMap(({ id, elements: inside }) => inside.map((each) => `${id}.${each.id}`));
  const points = [
    ...document.connectors.flatMap(({ id, cavities, sides }) =>
      cavities.flatMap((cavity) => [
        `${id}:${cavity.id}`,
        ...sides.map((side) => `${side.name ?? `${id}.${side.id}`}:${cavity.id}`),
      ]),
    ),
    ...ids(document.splices),
    ...ids(document.terminalStuds),
  ];
  const items = new Map([
    ["component", ids(document.components)],
    ["connector", ids(document.connectors)],
    ["wire", ids(document.wires)],
    ["splice", ids(document.splices)],
    ["stud", ids(document.terminalStuds)],
    ["net", ids(document.nets)],
    ["code", ids(document.codes)],
    ["element", elements],
  ] as const);
  return {
    items,
    points,
    all: [...[...items.values()].flat(), ...points, ...ids(document.segments), ...ids(document.zones), ...STRANGERS],
    wires: ids(document.wires),
    states: [undefined, ...ids(document.states)],
  };
}

/** At most so many items of a list, drawn; all of them in order where there are no more. */
export function some<Item>(list: readonly Item[], most: number, random: SeededRandom): readonly Item[] {
  return list.length <= most ? list : random.shuffle(list).slice(0, most);
}

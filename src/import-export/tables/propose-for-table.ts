import { isPlaceholder } from "./cell-looks.ts";
import { connectorName, knownEnds, type PointNamer, type TableEntries } from "./table-rows.ts";
import type { ColourScheme, TableOptions } from "./table-options.ts";
import type { ProposalKind, TableProposal } from "./table-proposal.ts";
import { codesByWord, readColourText, readGauge } from "./wire-facts.ts";

/** Sizes in mm² that are made. Source: IEC 60228, table of nominal cross-sections; ISO 6722-1 for the sizes below 0.5 mm²; from memory. */
const MADE_MM2: ReadonlySet<number> = new Set([
  ...[
    0.13, 0.14, 0.22, 0.25, 0.34, 0.35, 0.5, 0.75, 0.85, 1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 30,
    35, 40, 50,
  ],
  ...[60, 70, 95, 120],
]);

/**
 * The unit that sizes without one are proposed to have: gauge numbers are whole, and most of those in use are even numbers from 8 to 24;
 * sizes in mm² have decimals or are of those that are made.
 *
 * @returns The unit; undefined where neither fits all of them.
 */
export function unitOfSizes(texts: readonly string[]): "mm2" | "AWG" | undefined {
  const plain = texts
    .map((text) => text.trim().replace(",", "."))
    .filter((text) => text !== "" && !/[^\d./]/u.test(text));
  if (plain.length === 0) return undefined;
  const numbers = plain.map(Number);
  const isGauge = plain.every((text) => readGauge(text) !== undefined);
  const isMade = numbers.every((number) => MADE_MM2.has(number));
  const isUsualGauge = numbers.some((number) => [14, 18, 22, 24, 26, 28].includes(number) || Number.isNaN(number));
  if (isGauge && (isUsualGauge || !isMade)) return "AWG";
  return isMade ? "mm2" : undefined;
}

/** Short colour codes as makers and standards use them; common practice, no source. None is used before a person confirms it. */
const SCHEMES: readonly (readonly [name: string, lines: readonly string[]])[] = [
  [
    "German short codes",
    ["BK sw", "BN br", "RD rt", "OG or", "YE ge", "GN gn", "BU bl", "VT vi", "GY gr", "WH ws", "PK rs", "TQ tk"],
  ],
  ["British letters", ["BK b", "BN n", "RD r", "OG o", "YE y", "GN g", "BU u", "VT p", "GY s", "WH w", "PK k"]],
  [
    "letters with L for blue",
    ["BK b", "BN br", "RD r", "OG o", "YE y", "GN g", "BU l", "VT v", "GY gr", "WH w", "PK p"],
  ],
];

/**
 * Finds the one scheme of short codes by which all colours of a table can be read that the letters of IEC 60757 leave unread.
 *
 * @param texts All colours of a table as written.
 * @returns Its name and codes; undefined where none or several would do.
 */
export function schemeOfColours(
  texts: readonly string[],
): { readonly name: string; readonly scheme: ColourScheme } | undefined {
  const written = texts.filter((text) => !isPlaceholder(text));
  const unread = written.filter((text) => readColourText(text, { kind: "iec-60757" }).kind === "unknown");
  if (unread.length === 0) return undefined;
  const short = written.filter((text) => text.split(/[^\p{L}]+/u).every((part) => part.length < 3));
  if (short.length < written.length) return undefined;
  const fitting = SCHEMES.flatMap(([name, lines]) => {
    const codes = [...codesByWord(lines)].map(([written, code]) => [written, code] as const);
    const scheme: ColourScheme = { kind: "codes", codes };
    return written.every((text) => readColourText(text, scheme).kind === "colour") ? [{ name, scheme }] : [];
  });
  return fitting.length === 1 ? fitting[0] : undefined;
}

/** Names of parts whose points are joined inside: side A and B of a number, or all of them. */
const STRIP = /strip|terminal|klemm|bornier|borne|regleta|morsett|rail|\btb\d*\b|_tb|listwa/iu;
const BUSBAR = /bus ?bar|busbar|sammelschiene|barre|barra|szyna|_bus\b/iu;

/** Points of one connector that are proposed to be joined inside. */
export interface JoinedInside {
  readonly connector: string;
  readonly groups: readonly (readonly string[])[];
}

/**
 * Finds terminal strips whose sides A and B of one number may be joined inside, and busbars. What speaks for it is the name, or signals that
 * agree on both sides; signals that differ speak against it.
 */
export function findJoinedInside(entries: TableEntries): readonly JoinedInside[] {
  const pins = new Map<string, Map<string, Set<string>>>();
  const note = (connector: string, pin: string, net: string | undefined): void => {
    const own = pins.get(connector) ?? new Map<string, Set<string>>();
    pins.set(connector, own);
    const nets = own.get(pin) ?? new Set<string>();
    own.set(pin, net === undefined ? nets : nets.add(net));
  };
  for (const { ends, facts } of entries.wires)
    for (const end of knownEnds(ends)) if (end.kind === "contact") note(connectorName(end), end.pin, facts.net);
  for (const { point } of entries.pins) note(connectorName(point), point.pin, undefined);
  return [...pins].flatMap(([connector, own]): readonly JoinedInside[] => {
    const groups = BUSBAR.test(connector) ? [[...own.keys()]] : pairsOf(own);
    const isNamed = STRIP.test(connector) || BUSBAR.test(connector);
    const netsOf = (group: readonly string[]): number =>
      new Set(group.flatMap((pin) => [...(own.get(pin) ?? [])])).size;
    const joined = groups.filter(
      (group) => group.length > 1 && (netsOf(group) === 1 || (isNamed && netsOf(group) < 2)),
    );
    const isStrip = isNamed || (joined.length > 1 && joined.length === groups.length);
    return isStrip && joined.length > 0 ? [{ connector, groups: joined }] : [];
  });
}

/** Pins of one number with sides A and B; none unless most pins of the connector have a side. */
function pairsOf(pins: ReadonlyMap<string, unknown>): readonly (readonly string[])[] {
  const byNumber = new Map<string, string[]>();
  for (const pin of pins.keys()) {
    const number = /^(.*\d)[._-]?(?:[ab]|[io]|[lr]|in|out)$/iu.exec(pin)?.[1];
    if (number !== undefined) byNumber.set(number, [...(byNumber.get(number) ?? []), pin]);
  }
  const sided = [...byNumber.values()].reduce((sum, group) => sum + group.length, 0);
  return sided * 3 >= pins.size * 2 ? [...byNumber.values()].filter((group) => group.length === 2) : [];
}

/** What was found out before the rows were read. */
export interface TableFindings {
  readonly entries: TableEntries;
  readonly namer: PointNamer;
  readonly sizes: { readonly unit: "mm2" | "AWG" | undefined; readonly texts: readonly string[] };
  readonly scheme: { readonly name: string; readonly scheme: ColourScheme } | undefined;
}

/** Everything that a person may be asked about a table: at most one question of a kind. */
export function proposalsOf(
  { entries, namer, sizes, scheme }: TableFindings,
  options: TableOptions,
): readonly TableProposal[] {
  const made: TableProposal[] = [];
  const add = (kind: ProposalKind, text: string, evidence: readonly string[], otherwise: string): void => {
    made.push({ kind, text, evidence, otherwise, isAccepted: options.accept?.has(kind) === true });
  };
  if (sizes.unit !== undefined && sizes.texts.length > 0) {
    const unit = sizes.unit === "mm2" ? "mm²" : "AWG";
    const some = [...new Set(sizes.texts)].slice(0, 8).join(", ");
    add(
      "size-unit",
      `Are sizes without a unit ${unit}?`,
      [`sizes: ${some}`],
      "The sizes are left out and stay in the notes",
    );
  }
  if (scheme && options.colours === undefined) {
    const codes = scheme.scheme.kind === "codes" ? scheme.scheme.codes.map((pair) => pair.join("=")).join(", ") : "";
    add(
      "colour-codes",
      `Are the colours ${scheme.name}?`,
      [codes],
      "Codes that IEC 60757 does not have are left out and stay in the notes",
    );
  }
  const grounds = namer.possibleGrounds();
  if (grounds.length > 0)
    add(
      "ground-studs",
      `Are these ground studs: ${grounds.join(", ")}?`,
      ["the name"],
      "Kept as terminal studs, kind not known",
    );
  const points = namer.possiblePoints();
  if (points.length > 0)
    add(
      "one-point",
      `Is each of these one point where its wires meet: ${points.join(", ")}?`,
      ["no pin is given"],
      "Each wire has a contact of its own there, pin not known",
    );
  const inside = findJoinedInside(entries);
  if (inside.length > 0) {
    const text = inside.map(
      ({ connector, groups }) => `${connector} (${groups.map((group) => group.join("-")).join(", ")})`,
    );
    add(
      "joined-inside",
      `Are these points joined inside: ${text.join("; ")}?`,
      ["sides of one number, or a busbar"],
      "They are left apart",
    );
  }
  return made;
}

import { err, keptFor, keptIn, ok, readQuantity, type Result } from "../../base/index.ts";
import type { Component, Connector, Element, HarnessDocument } from "../../harness-model/index.ts";
import { PART_LIBRARY, type LibraryPart, type PartUnit } from "./part-library.ts";

/** The inside of a component as a person has named it. */
export interface Inside {
  readonly kind: Component["kind"];
  readonly elements: readonly Element[];
  /** Ids of elements with the state they have by themselves. */
  readonly follows: readonly { readonly of: string; readonly part: NonNullable<LibraryPart["follows"]> }[];
  /** Terminals of the first battery among them; a feed is none, as what it feeds hangs on one terminal each. */
  readonly supply?: { readonly positive: string; readonly negative: string };
  /** Values that nobody gave, in words, such as `lamp 21 W`; empty where all were given. */
  readonly typical: readonly string[];
}

/** What the answer looks like, for hints. */
const FORM = '"lamp 21 W 1 4; lamp 5 W 2 4": part, value, terminals; several parts with semicolons between';

/** Voltages of machines that the typical values are for, in V. */
const TWENTY_FOUR_FROM = 18;

/**
 * Reads what is inside a component in trade words: the name of a part of the library, its value with unit, and the terminals it lies between.
 * A value that is left out is the typical one, where there is one. A terminal may be a stud, or `?` where the data has none. Terminals may be left out where the component has just as many as the part.
 *
 * @param document The document.
 * @param id Id of the component.
 * @param text Such as `lamp 21 W 1 4; lamp 5 W 2 4`, `fuse 10 A`, `relay 85 86 30 87`.
 * @returns The inside, or what is wrong with every part that was not understood.
 */
export function readInside(
  document: HarnessDocument,
  id: string,
  text: string,
): Result<Inside, { readonly message: string; readonly hint: string }> {
  const terminals = terminalsOf(document, id);
  const studs = new Set<string>(document.terminalStuds.map(({ id: stud }) => stud));
  const problems: string[] = [];
  const read = text
    .split(";")
    .map((part) => part.trim())
    .filter((part) => part !== "")
    .flatMap((part, at) => {
      const one = readPart(document, { part, number: at + 1, component: id, terminals, studs });
      if (one.ok) return [one.value];
      problems.push(one.error);
      return [];
    });
  if (read.length === 0 && problems.length === 0) problems.push("No part is named.");
  if (problems.length > 0) {
    const names = PART_LIBRARY.map(({ name }) => name).join(", ");
    return err({ message: problems.join(" "), hint: `Write ${FORM}. Parts: ${names}.` });
  }
  const supply = read.flatMap((each) => each.supply ?? [])[0];
  return ok({
    kind: read[0]?.kind ?? "other",
    elements: read.flatMap(({ elements }) => elements),
    follows: read.flatMap(({ follows }) => follows),
    ...(supply === undefined ? {} : { supply }),
    typical: read.flatMap(({ typical }) => typical),
  });
}

/**
 * The terminals of a component that can be named in an answer, by their short names: the number of the cavity where it has one connector,
 * else connector and cavity; the id of a stud.
 *
 * @returns Addresses by name, in the order of the document.
 */
export function terminalsOf(document: HarnessDocument, id: string): ReadonlyMap<string, string> {
  const { connectors = [], studs = [] } = ownTerminals(document).get(id) ?? {};
  const named = connectors.flatMap((connector) =>
    connector.cavities.map((cavity): [string, string] => {
      const address = `${connector.id}:${cavity.id}`;
      return [connectors.length === 1 ? cavity.id : address, address];
    }),
  );
  return new Map([...named, ...studs.map((stud): [string, string] => [stud, stud])]);
}

/** Connectors and studs of each component. */
const ownTerminals = keptFor((document: HarnessDocument) => {
  const found = new Map<string, { readonly connectors: Connector[]; readonly studs: string[] }>();
  const of = (component: string): { readonly connectors: Connector[]; readonly studs: string[] } =>
    keptIn(found, component, () => ({ connectors: [], studs: [] }));
  for (const each of document.connectors) if (each.component !== undefined) of(each.component).connectors.push(each);
  for (const each of document.terminalStuds) if (each.component !== undefined) of(each.component).studs.push(each.id);
  return found;
});

interface AskedPart {
  readonly part: string;
  readonly number: number;
  readonly component: string;
  readonly terminals: ReadonlyMap<string, string>;
  /** Ids of all studs: a part may stand on the frame itself. */
  readonly studs: ReadonlySet<string>;
}

function readPart(document: HarnessDocument, asked: AskedPart): Result<Inside, string> {
  const [name = "", ...words] = asked.part.split(/\s+/u);
  const part = PART_LIBRARY.find((each) => each.name === name.toLowerCase());
  if (!part) return err(`"${name}" is no part of the library.`);
  const at = readTerminals(part, words, asked);
  if (!at.ok) return at;
  const { addresses, rest } = at.value;
  const value = readValue(part, rest.join(" "), document.system.nominalVolt);
  if (!value.ok) return err(`${asked.part}: ${value.error}`);
  const { number, component } = asked;
  const elements = part.elements({
    at: addresses,
    ...value.value,
    volt: document.system.nominalVolt,
    number,
    component,
  });
  const [positive = "", negative = ""] = addresses;
  const { follows } = part;
  return ok({
    kind: part.kind,
    elements,
    follows:
      follows === undefined ? [] : elements.map((element) => ({ of: `${component}.${element.id}`, part: follows })),
    ...(part.name === "battery" && !addresses.some((each) => each.startsWith("#"))
      ? { supply: { positive, negative } }
      : {}),
    typical: value.value.isTypical ? [`${part.name} ${value.value.value} ${value.value.unit ?? ""}`] : [],
  });
}

/** Stands for a terminal that the data does not have. */
const NOT_IN_DATA = "?";

/** The last words are the terminals; where none of them is one, all of the component if it has just as many. */
function readTerminals(
  part: LibraryPart,
  words: readonly string[],
  { part: text, terminals, number, studs }: AskedPart,
): Result<{ readonly addresses: readonly string[]; readonly rest: readonly string[] }, string> {
  const count = part.terminals.length;
  const last = words.slice(-count);
  const isNamed = (word: string): boolean => [...terminals.values()].includes(word) || studs.has(word);
  const addresses = last.flatMap((word, at) => {
    if (word === NOT_IN_DATA) return [`#not-known-${number}-${at + 1}`];
    return terminals.get(word) ?? (isNamed(word) ? [word] : []);
  });
  if (last.length === count && addresses.length === count) {
    return new Set(addresses).size === count
      ? ok({ addresses, rest: words.slice(0, -count) })
      : err(`${text}: its terminals have to differ.`);
  }
  if (addresses.length === 0 && terminals.size === count)
    return ok({ addresses: [...terminals.values()], rest: words });
  return err(
    `${text}: ${part.name} has ${count} terminals (${part.terminals.join(", ")}); name them at its end. The component has ${[...terminals.keys()].join(", ")}; a ground stud goes by its id, ${NOT_IN_DATA} stands for one that is not in the data.`,
  );
}

/**
 * The usual value of a part, in its first unit.
 *
 * @param part The part.
 * @param volt Nominal voltage of the machine, in V.
 * @returns The value; undefined where there is no usual one.
 */
export function typicalValue({ typical }: LibraryPart, volt: number): number | undefined {
  return typical?.[volt < TWENTY_FOUR_FROM ? 0 : 1];
}

function readValue(
  part: LibraryPart,
  text: string,
  volt: number,
): Result<{ readonly value: number; readonly unit: PartUnit | undefined; readonly isTypical: boolean }, string> {
  const { units } = part;
  if (units === undefined)
    return text === "" ? ok({ value: 0, unit: undefined, isTypical: false }) : err(`"${text}" is not needed here.`);
  if (text === "") {
    const usual = typicalValue(part, volt);
    return usual === undefined
      ? err(`there is no usual value; give it in ${units.join(" or ")}.`)
      : ok({ value: usual, unit: units[0], isTypical: true });
  }
  const read = readQuantity(text, { units });
  if (read.kind === "question")
    return err(`"${text}" can be taken in two ways; write ${read.ways.map(({ write }) => write).join(" or ")}.`);
  const unit = read.kind === "value" ? units.find((each) => each === (read.unit ?? units[0])) : undefined;
  return read.kind === "value" && unit !== undefined && read.value > 0
    ? ok({ value: read.value, unit, isTypical: false })
    : err(`"${text}" is no value in ${units.join(" or ")}.`);
}

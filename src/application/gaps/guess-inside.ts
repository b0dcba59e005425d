import type { Component, HarnessDocument, NamedPart } from "../../harness-model/index.ts";
import { endAddresses, partOfName } from "../../harness-model/index.ts";
import { PART_LIBRARY } from "./part-library.ts";
import { readInside, terminalsOf } from "./read-inside.ts";

/** Names of a ground line; common practice, no source, but 31 which is of DIN 72552. */
const GROUND =
  /^(?:gnd|ground|earth|chassis|masse|massa|masa|tierra|terra|0 ?v|31)(?![\p{L}\d])|(?:^|[^\p{L}])(?:gnd|ground|earth|masse)$/iu;

/** What the letter of a designator tells of a part with two terminals. Source: IEC 81346-2, classes M and S, from memory. */
const LETTERS: Readonly<Record<string, NamedPart>> = { M: "motor", S: "switch" };

/**
 * The ends of wires that lie on ground, by the kind or name of their net or by a ground stud.
 *
 * @param document The document.
 * @returns Addresses.
 */
export function groundedEnds({ wires, nets, terminalStuds }: HarnessDocument): ReadonlySet<string> {
  const kinds = new Map(nets.map(({ id, kind }) => [id, kind]));
  const studs = new Set<string>(terminalStuds.flatMap(({ id, role }) => (role === "ground" ? [id] : [])));
  const grounded = wires.filter((wire) => {
    const kind = wire.net === undefined ? undefined : kinds.get(wire.net);
    const isGround = kind === "ground" || (kind === undefined && GROUND.test(wire.net?.trim() ?? ""));
    return isGround || endAddresses(wire).some((end) => studs.has(end));
  });
  return new Set(grounded.flatMap(endAddresses));
}

/**
 * Guesses from its name and its ground what is inside a component, for a person to confirm: two terminals are one part; where one of several
 * lies on ground, each other one is a part to it; a relay is told by its terminal numbers (ISO 7588, DIN 72552).
 *
 * @param document The document.
 * @param component The component.
 * @param grounded What {@link groundedEnds} found.
 * @returns Answers that may be right, best first; none where the name says nothing.
 */
export function guessInside(
  document: HarnessDocument,
  { id, label }: Component,
  grounded: ReadonlySet<string>,
): readonly string[] {
  const terminals = [...terminalsOf(document, id)];
  const names = new Set(terminals.map(([name]) => name));
  const has = (...wanted: readonly string[]): boolean => wanted.every((name) => names.has(name));
  const relay = ["86", "85", "30", "87", ...(has("87a") ? ["87a"] : [])];
  if (relay.filter((name) => has(name)).length > 2) {
    const at = relay.map((name) => (has(name) ? name : "?")).join(" ");
    return [`${relay.length > 4 ? "changeover-relay" : "relay"} ${at}`];
  }
  const own = document.connectors.filter(({ component }) => component === id).map((connector) => connector.label);
  const said = [label, ...own].join(" ");
  const told = partOfName(said) ?? LETTERS[/^[-=+]?([A-Z])\d+/u.exec(label)?.[1] ?? ""];
  const part = PART_LIBRARY.find(({ name }) => name === told);
  if (!part || part.terminals.length !== 2) return [];
  const rating = /(\d+(?:[.,]\d+)?)\s?([WA])\b/u.exec(said);
  const value = rating && part.units?.some((unit) => unit === rating[2]) ? ` ${rating[1]} ${rating[2]}` : "";
  const ground = terminals.filter(([, address]) => grounded.has(address)).map(([name]) => name);
  const other = terminals.filter(([, address]) => !grounded.has(address)).map(([name]) => name);
  const [only] = ground;
  const frames = document.terminalStuds.filter(({ role }) => role === "ground");
  const [pole, ...poles] = terminals;
  // The list of many machines leaves out that the battery stands on the frame.
  const isOnFrame = part.name === "battery" && pole?.[0] === "positive" && poles.length === 0 && frames.length === 1;
  const text = isOnFrame
    ? `battery positive ${frames[0]?.id ?? ""}`
    : only !== undefined && ground.length === 1
      ? other.map((name) => `${part.name}${value} ${name} ${only}`).join("; ")
      : `${part.name}${value}`;
  return readInside(document, id, text).ok ? [text] : [];
}

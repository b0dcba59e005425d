import { defined } from "../../base/index.ts";
import { NetKind } from "../../harness-model/index.ts";
import type { HarnessDraft } from "../draft/harness-draft.ts";
import { importProblem, type ImportPlace, type ImportProblem } from "../import-problem.ts";
import {
  type EndPoint,
  connectorName,
  knownEnds,
  type ContactPoint,
  type NetEntry,
  type TableEntries,
  type WireEntry,
} from "./table-rows.ts";
import { findJoinedInside } from "./propose-for-table.ts";
import { ROWS_A_STEP } from "./read-rows.ts";
import type { TableOptions, InlinePair } from "./table-options.ts";
import { cleanId, cut } from "../draft/draft-parts.ts";

/**
 * Puts what a table says into a draft: components and connectors first, then pins, then wires with the splices and studs they end at. In steps that
 * tell the share done.
 */
export function* fillDraft(
  draft: HarnessDraft,
  entries: TableEntries,
  given: { readonly options: TableOptions; readonly optionLabels: ReadonlyMap<string, string> },
): Generator<number, void, void> {
  const filler = new Filler(draft, entries, given.options);
  for (const [id, label] of given.optionLabels) draft.addOption({ id, label });
  filler.addConnectors();
  for (const pin of entries.pins) {
    const { connector } = filler.address(pin.point);
    const { terminalMm } = pin;
    const written = cleanId(pin.point.pin) === pin.point.pin ? "" : `As written: ${pin.point.pin}`;
    const note = [pin.note, written].filter((text) => text !== "").join(". ");
    draft.addCavity(connector, { id: pin.point.pin, ...defined({ note: note || undefined, terminalMm }) }, pin.at);
  }
  const sideOptions = new SideOptions();
  for (const [number, wire] of entries.wires.entries()) {
    if (number % ROWS_A_STEP === ROWS_A_STEP - 1) yield number / entries.wires.length;
    filler.addWire(wire, sideOptions);
  }
  for (const net of entries.nets) filler.addNet(net);
  if (given.options.accept?.has("joined-inside") === true) filler.joinInside();
  sideOptions.apply(draft);
}

/** Longest name of a connector, in characters. */
const MOST_LABEL = 200;

class Filler {
  readonly #draft: HarnessDraft;
  readonly #entries: TableEntries;
  readonly #groups: ConnectorGroups;
  readonly #owners: ReadonlyMap<string, ReadonlySet<string>>;
  readonly #connectors = new Map<string, string>();
  readonly #components = new Map<string, string>();
  readonly #points = new Map<string, string>();

  constructor(draft: HarnessDraft, entries: TableEntries, options: TableOptions) {
    this.#draft = draft;
    this.#entries = entries;
    this.#owners = ownersOf(entries);
    this.#groups = this.#groupConnectors(options.inlinePairs ?? []);
    if (options.inlinePairs === undefined) this.#reportPairs();
  }

  /**
   * Finds which connectors are halves of inline connectors: those that share an id and have a half of their own, those said to mate, and
   * the pairs a person has confirmed.
   */
  #groupConnectors(pairs: readonly InlinePair[]): ConnectorGroups {
    const groups = new Map<string, NamedSide>();
    for (const { point } of this.#contacts()) {
      const name = this.#name(point);
      const key = nameOfSide(name, point.side);
      if (!groups.has(key)) groups.set(key, point.side === "" ? { connector: name } : ownSide(name, point.side));
    }
    const mates = this.#entries.pins.map(({ point, mate, at }) => ({ name: this.#name(point), mate, at }));
    const report = this.#draft.report.bind(this.#draft);
    for (const members of mateGroups(mates, pairs, report)) joinSides(groups, members, pairs);
    return groups;
  }

  addConnectors(): void {
    for (const { point, at } of this.#contacts()) {
      const name = this.#name(point);
      const key = nameOfSide(name, point.side);
      const { connector, side } = this.#groups.get(key) ?? { connector: name };
      let id = this.#connectors.get(connector);
      if (id === undefined) {
        const isOfDevice = side === undefined || side.id === "harness" || side.id === "device";
        // A half that is named, of a connector without a component, is all there is of it.
        const isInline = side !== undefined && (!isOfDevice || point.component === "");
        const isPart = point.connector === "" || point.component === "" || isInline;
        const component = isPart ? undefined : this.#component(point.component, at);
        const kind = isInline ? ("inline" as const) : undefined;
        const label = cut(connector, MOST_LABEL);
        id = this.#draft.addConnector({ id: connector, label, ...defined({ component, kind }) }, at);
        this.#connectors.set(connector, id);
      }
      if (side) this.#draft.addSide(id, side, at);
    }
    // Halves that only a mate column names have no row of their own.
    for (const { connector, side } of this.#groups.values()) {
      const id = this.#connectors.get(connector);
      if (id !== undefined && side) this.#draft.addSide(id, side);
    }
  }

  /** The connector and half of the document that a point of the table lies in. */
  address(point: ContactPoint): { readonly connector: string; readonly side: string | undefined } {
    const { connector, side } = this.#groups.get(nameOfSide(this.#name(point), point.side)) ?? { connector: "" };
    return { connector: this.#connectors.get(connector) ?? connector, side: side?.id };
  }

  addWire(wire: WireEntry, sideOptions: SideOptions): void {
    const [first, second] = wire.ends;
    const ends: [string, string?] = [this.#end(first, wire.at)];
    if (second) ends.push(this.#end(second, wire.at));
    for (const end of knownEnds(wire.ends))
      if (end.kind === "contact") sideOptions.note(this.address(end), wire.facts.when);
    this.#draft.addWire({ id: wire.id, ends, ...wire.facts }, wire.at);
    const { net } = wire.facts;
    if (wire.netKind === "" || net === undefined) return;
    const kind = NetKind.safeParse(wire.netKind);
    if (kind.success) this.#draft.addNet({ id: net, kind: kind.data }, wire.at);
    else this.#draft.report(importProblem("net-kind-unknown", wire.at, { text: wire.netKind.slice(0, 80) }));
  }

  /** Joins the points of a net: two by a wire, more in a splice, as the order of the points is not known. */
  addNet({ name, points, at }: NetEntry): void {
    const ends = points.map((point) => this.#end(point, at));
    const [first = "", second = ""] = ends;
    if (ends.length === 2) {
      this.#draft.addWire({ id: "", ends: [first, second], net: name }, at);
      return;
    }
    const splice = this.#draft.addSplice(
      { id: "", label: `${cut(name, MOST_LABEL)}, order of its points not known` },
      at,
    );
    for (const end of ends) this.#draft.addWire({ id: "", ends: [end, splice], net: name }, at);
  }

  /** Joins the points of terminal strips and busbars inside, as a person has confirmed. */
  joinInside(): void {
    for (const { connector, groups } of findJoinedInside(this.#entries)) {
      const { connector: name } = this.#groups.get(connector) ?? { connector };
      const id = this.#connectors.get(name);
      if (id !== undefined) this.#draft.joinInside(id, groups);
    }
  }

  #end(end: EndPoint, at: ImportPlace): string {
    if (end.kind === "contact") {
      const { connector, side } = this.address(end);
      return this.#draft.contact(connector, end.pin, side);
    }
    const known = this.#points.get(end.id);
    if (known !== undefined) return known;
    const addTerminalStud = ({ id, role, component: owner }: Extract<EndPoint, { kind: "stud" }>): string => {
      const component = owner === "" ? undefined : this.#component(owner, at);
      return this.#draft.addTerminalStud({ id, role, ...defined({ component }) }, at);
    };
    const id = end.kind === "splice" ? this.#draft.addSplice({ id: end.id }, at) : addTerminalStud(end);
    this.#points.set(end.id, id);
    return id;
  }

  #contacts(): readonly { readonly point: ContactPoint; readonly at: ImportPlace }[] {
    const ofWires = this.#entries.wires.flatMap(({ ends, at }) =>
      knownEnds(ends).flatMap((point) => (point.kind === "contact" ? [{ point, at }] : [])),
    );
    const ofNets = this.#entries.nets.flatMap(({ points, at }) =>
      points.flatMap((point) => (point.kind === "contact" ? [{ point, at }] : [])),
    );
    return [...this.#entries.pins, ...ofWires, ...ofNets];
  }

  #component(own: string, at: ImportPlace): string {
    const known = this.#components.get(own);
    if (known !== undefined) return known;
    const id = this.#draft.addComponent({ id: own, label: own }, at);
    this.#components.set(own, id);
    return id;
  }

  /** A connector is called as in the table; with its component where several components have one of that name. */
  #name(point: ContactPoint): string {
    const isShared = (this.#owners.get(point.connector)?.size ?? 0) > 1;
    const isOwn = isShared && point.component !== "" && !point.connector.startsWith(`${point.component}.`);
    return isOwn ? `${point.component}.${point.connector}` : connectorName(point);
  }

  #reportPairs(): void {
    const pins = new Map<string, Set<string>>();
    for (const { point } of this.#contacts()) {
      if (this.#groups.get(nameOfSide(this.#name(point), point.side))?.side) continue;
      const name = this.#name(point);
      pins.set(name, (pins.get(name) ?? new Set()).add(point.pin));
    }
    for (const { sides } of findPossiblePairs(pins))
      this.#draft.report(importProblem("inline-possible", {}, { first: sides[0], second: sides[1] }));
  }
}

/** The components that each connector name is used with. */
function ownersOf(entries: TableEntries): ReadonlyMap<string, ReadonlySet<string>> {
  const owners = new Map<string, Set<string>>();
  const take = (point: EndPoint): void => {
    if (point.kind !== "contact" || point.connector === "" || point.component === "") return;
    owners.set(point.connector, (owners.get(point.connector) ?? new Set()).add(point.component));
  };
  for (const pin of entries.pins) take(pin.point);
  for (const wire of entries.wires) knownEnds(wire.ends).forEach(take);
  for (const net of entries.nets) net.points.forEach(take);
  return owners;
}

/** Options of the wires of each half: where more than two halves replace one another, each takes the option of its wires. */
class SideOptions {
  readonly #options = new Map<string, Map<string, Set<string>>>();

  note(at: { readonly connector: string; readonly side: string | undefined }, when: string | undefined): void {
    if (at.side === undefined) return;
    const sides = this.#options.get(at.connector) ?? new Map<string, Set<string>>();
    this.#options.set(at.connector, sides);
    sides.set(at.side, (sides.get(at.side) ?? new Set()).add(when ?? ""));
  }

  apply(draft: HarnessDraft): void {
    for (const connector of draft.parts.connectors) {
      if (connector.sides.length < 3) continue;
      for (const side of connector.sides) {
        const [option, other] = this.#options.get(connector.id)?.get(side.id) ?? [];
        if (option === undefined || option === "" || other !== undefined) continue;
        side.when = option;
        const facts = { side: side.name ?? `${connector.id}.${side.id}`, option };
        draft.report(importProblem("half-option-assumed", draft.parts.found.get(connector) ?? {}, facts));
      }
    }
  }
}

/** What a table calls a connector, and the connector and half of the document that this name stands for. */
interface NamedSide {
  /** Id of the connector, as wished; the draft may have to change it. */
  readonly connector: string;
  /** Absent for a device connector. */
  readonly side?: { readonly id: string; readonly name?: string };
}

/** Every connector and half that a table names, by `nameOfSide`, in order of appearance. */
type ConnectorGroups = ReadonlyMap<string, NamedSide>;

/** One text for connector and half as a table names them. */
function nameOfSide(connector: string, side: string): string {
  return side === "" ? connector : `${connector}\0${side}`;
}

function ownSide(connector: string, side: string): NamedSide {
  const id = side.toLowerCase() === "harness" || side.toLowerCase() === "device" ? side.toLowerCase() : side;
  // `XC1` with half `m` is also written `XC1m`.
  return { connector, side: /^[A-Za-z]{1,2}$/u.test(id) ? { id, name: `${connector}${id}` } : { id } };
}

/** Names of connectors that belong together, each group once: pairs, and connectors said to mate. */
function mateGroups(
  mates: readonly { readonly name: string; readonly mate: string; readonly at: ImportPlace }[],
  pairs: readonly InlinePair[],
  report: (problem: ImportProblem) => void,
): readonly ReadonlySet<string>[] {
  const groupOf = new Map<string, Set<string>>();
  const join = (first: string, second: string): void => {
    const joined = new Set([...(groupOf.get(first) ?? [first]), ...(groupOf.get(second) ?? [second])]);
    for (const name of joined) groupOf.set(name, joined);
  };
  for (const { sides } of pairs) join(...sides);
  const mateOf = new Map<string, string>();
  for (const { name, mate, at } of mates) {
    const before = mateOf.get(name);
    if (mate === "" || mate === name || mate === before) continue;
    if (before !== undefined) {
      report(importProblem("mate-differs", at, { connector: name, first: before, second: mate }));
      continue;
    }
    mateOf.set(name, mate);
    join(name, mate);
  }
  return [...new Set(groupOf.values())];
}

function joinSides(groups: Map<string, NamedSide>, members: ReadonlySet<string>, pairs: readonly InlinePair[]): void {
  const names = [...members];
  const stated = pairs.find((pair) => pair.sides.some((side) => members.has(side)))?.id;
  const stem = commonStem(names);
  const connector = stated ?? stem ?? names.join("+");
  for (const name of names) {
    const rest = stem === undefined ? name : name.slice(stem.length).replace(/^[-_. ]+/u, "");
    groups.set(name, { connector, side: { id: cleanId(rest) ?? name, name } });
  }
}

/** What the names begin with, if each goes on with a few letters only: `XC1` for `XC1m` and `XC1c`. */
function commonStem(names: readonly string[]): string | undefined {
  const [first = "", ...others] = names;
  let length = first.length;
  for (const name of others) while (!name.startsWith(first.slice(0, length))) length -= 1;
  const stem = first.slice(0, length).replace(/[-_. ]+$/u, "");
  return stem !== "" && names.every((name) => /^[-_. ]?\p{L}{1,8}$/u.test(name.slice(stem.length))) ? stem : undefined;
}

/**
 * Finds pairs of connectors that may be the halves of one inline connector: names that differ in one last letter, and the same pins.
 * They are proposals only.
 */
export function findPossiblePairs(pinsByName: ReadonlyMap<string, ReadonlySet<string>>): readonly InlinePair[] {
  const byStem = new Map<string, string[]>();
  for (const name of pinsByName.keys()) {
    const stem = /^(.*\d)[-_. ]?\p{L}$/u.exec(name)?.[1];
    if (stem !== undefined) byStem.set(stem, [...(byStem.get(stem) ?? []), name]);
  }
  const pairs: InlinePair[] = [];
  for (const [id, [first, second, third]] of byStem) {
    if (first === undefined || second === undefined || third !== undefined) continue;
    const [ofFirst, ofSecond] = [pinsByName.get(first), pinsByName.get(second)];
    const isSame = ofFirst?.size === ofSecond?.size && [...(ofFirst ?? [])].every((pin) => ofSecond?.has(pin));
    if (isSame) pairs.push({ sides: [first, second], id });
  }
  return pairs;
}

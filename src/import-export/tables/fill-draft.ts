import { defined } from "../../base/index.ts";
import { NetKind } from "../../harness-model/index.ts";
import type { HarnessDraft } from "../draft/harness-draft.ts";
import { importProblem, type ImportPlace, type ImportProblem } from "../import-problem.ts";
import { type EndPoint, knownEnds, type ContactPoint, type TableEntries, type WireEntry } from "./table-rows.ts";
import { ROWS_A_STEP } from "./understand-table.ts";
import type { TableOptions, InlinePair } from "./table-options.ts";
import { cleanId } from "../draft/draft-parts.ts";

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
    const { note, terminalMm } = pin;
    draft.addCavity(connector, { id: pin.point.pin, ...defined({ note: note || undefined, terminalMm }) }, pin.at);
  }
  const halfOptions = new HalfOptions();
  for (const [number, wire] of entries.wires.entries()) {
    if (number % ROWS_A_STEP === ROWS_A_STEP - 1) yield number / entries.wires.length;
    filler.addWire(wire, halfOptions);
  }
  halfOptions.apply(draft);
}

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
    this.#reportUnclear();
  }

  /**
   * Finds which connectors are halves of inline connectors: those that share an id and have a half of their own, those said to mate, and
   * the pairs a person has confirmed.
   */
  #groupConnectors(pairs: readonly InlinePair[]): ConnectorGroups {
    const groups = new Map<string, NamedHalf>();
    for (const { point } of this.#contacts()) {
      const name = this.#name(point);
      const key = nameOfHalf(name, point.half);
      if (!groups.has(key)) groups.set(key, point.half === "" ? { connector: name } : ownHalf(name, point.half));
    }
    const mates = this.#entries.pins.map(({ point, mate, at }) => ({ name: this.#name(point), mate, at }));
    const report = this.#draft.report.bind(this.#draft);
    for (const members of mateGroups(mates, pairs, report)) joinHalves(groups, members, pairs);
    return groups;
  }

  addConnectors(): void {
    for (const { point, at } of this.#contacts()) {
      const name = this.#name(point);
      const key = nameOfHalf(name, point.half);
      const { connector, half } = this.#groups.get(key) ?? { connector: name };
      let id = this.#connectors.get(connector);
      if (id === undefined) {
        const isOfDevice = half === undefined || half.id === "harness" || half.id === "device";
        // A half that is named, of a connector without a component, is all there is of it.
        const isInline = half !== undefined && (!isOfDevice || point.component === "");
        const component = isInline || point.component === "" ? undefined : this.#component(point.component, at);
        const kind = isInline ? ("inline" as const) : undefined;
        id = this.#draft.addConnector({ id: connector, ...defined({ component, kind }) }, at);
        this.#connectors.set(connector, id);
      }
      if (half) this.#draft.addHalf(id, half, at);
    }
    // Halves that only a mate column names have no row of their own.
    for (const { connector, half } of this.#groups.values()) {
      const id = this.#connectors.get(connector);
      if (id !== undefined && half) this.#draft.addHalf(id, half);
    }
  }

  /** The connector and half of the document that a point of the table lies in. */
  address(point: ContactPoint): { readonly connector: string; readonly half: string | undefined } {
    const { connector, half } = this.#groups.get(nameOfHalf(this.#name(point), point.half)) ?? { connector: "" };
    return { connector: this.#connectors.get(connector) ?? connector, half: half?.id };
  }

  addWire(wire: WireEntry, halfOptions: HalfOptions): void {
    const [first, second] = wire.ends;
    const ends: [string, string?] = [this.#end(first, wire)];
    if (second) ends.push(this.#end(second, wire));
    for (const end of knownEnds(wire.ends))
      if (end.kind === "contact") halfOptions.note(this.address(end), wire.facts.when);
    this.#draft.addWire({ id: wire.id, ends, ...wire.facts }, wire.at);
    const { net } = wire.facts;
    if (wire.netKind === "" || net === undefined) return;
    const kind = NetKind.safeParse(wire.netKind);
    if (kind.success) this.#draft.addNet({ id: net, kind: kind.data }, wire.at);
    else this.#draft.report(importProblem("net-kind-unknown", wire.at, { text: wire.netKind.slice(0, 80) }));
  }

  #end(end: EndPoint, wire: WireEntry): string {
    if (end.kind === "contact") {
      const { connector, half } = this.address(end);
      return this.#draft.contact(connector, end.pin, half);
    }
    const known = this.#points.get(end.id);
    if (known !== undefined) return known;
    const addStud = ({ id, role, component: owner }: Extract<EndPoint, { kind: "stud" }>): string => {
      const component = owner === "" ? undefined : this.#component(owner, wire.at);
      return this.#draft.addStud({ id, role, ...defined({ component }) }, wire.at);
    };
    const id = end.kind === "splice" ? this.#draft.addSplice({ id: end.id }, wire.at) : addStud(end);
    this.#points.set(end.id, id);
    return id;
  }

  #contacts(): readonly { readonly point: ContactPoint; readonly at: ImportPlace }[] {
    const ofWires = this.#entries.wires.flatMap(({ ends, at }) =>
      knownEnds(ends).flatMap((point) => (point.kind === "contact" ? [{ point, at }] : [])),
    );
    return [...this.#entries.pins, ...ofWires];
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
    if (point.connector === "") return `${point.component}.X`;
    const isShared = (this.#owners.get(point.connector)?.size ?? 0) > 1;
    return isShared && point.component !== "" ? `${point.component}.${point.connector}` : point.connector;
  }

  /** A connector name that several components have needs its component wherever it is named. */
  #reportUnclear(): void {
    for (const { point, at } of this.#contacts()) {
      if (point.component !== "" || (this.#owners.get(point.connector)?.size ?? 0) < 2) continue;
      const owners = [...(this.#owners.get(point.connector) ?? [])].slice(0, 5).join(", ");
      this.#draft.report(importProblem("component-missing", at, { connector: point.connector, owners }));
    }
  }

  #reportPairs(): void {
    const pins = new Map<string, Set<string>>();
    for (const { point } of this.#contacts()) {
      if (this.#groups.get(nameOfHalf(this.#name(point), point.half))?.half) continue;
      const name = this.#name(point);
      pins.set(name, (pins.get(name) ?? new Set()).add(point.pin));
    }
    for (const { halves } of findPossiblePairs(pins))
      this.#draft.report(importProblem("inline-possible", {}, { first: halves[0], second: halves[1] }));
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
  return owners;
}

/** Options of the wires of each half: where more than two halves replace one another, each takes the option of its wires. */
class HalfOptions {
  readonly #options = new Map<string, Map<string, Set<string>>>();

  note(at: { readonly connector: string; readonly half: string | undefined }, when: string | undefined): void {
    if (at.half === undefined) return;
    const halves = this.#options.get(at.connector) ?? new Map<string, Set<string>>();
    this.#options.set(at.connector, halves);
    halves.set(at.half, (halves.get(at.half) ?? new Set()).add(when ?? ""));
  }

  apply(draft: HarnessDraft): void {
    for (const connector of draft.parts.connectors) {
      if (connector.halves.length < 3) continue;
      for (const half of connector.halves) {
        const [option, other] = this.#options.get(connector.id)?.get(half.id) ?? [];
        if (option === undefined || option === "" || other !== undefined) continue;
        half.when = option;
        const facts = { half: half.name ?? `${connector.id}.${half.id}`, option };
        draft.report(importProblem("half-option-assumed", draft.parts.found.get(connector) ?? {}, facts));
      }
    }
  }
}

/** What a table calls a connector, and the connector and half of the document that this name stands for. */
interface NamedHalf {
  /** Id of the connector, as wished; the draft may have to change it. */
  readonly connector: string;
  /** Absent for a device connector. */
  readonly half?: { readonly id: string; readonly name?: string };
}

/** Every connector and half that a table names, by `nameOfHalf`, in order of appearance. */
type ConnectorGroups = ReadonlyMap<string, NamedHalf>;

/** One text for connector and half as a table names them. */
function nameOfHalf(connector: string, half: string): string {
  return half === "" ? connector : `${connector}\0${half}`;
}

function ownHalf(connector: string, half: string): NamedHalf {
  const id = half.toLowerCase() === "harness" || half.toLowerCase() === "device" ? half.toLowerCase() : half;
  // `XC1` with half `m` is also written `XC1m`.
  return { connector, half: /^[A-Za-z]{1,2}$/u.test(id) ? { id, name: `${connector}${id}` } : { id } };
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
  for (const { halves } of pairs) join(...halves);
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

function joinHalves(groups: Map<string, NamedHalf>, members: ReadonlySet<string>, pairs: readonly InlinePair[]): void {
  const names = [...members];
  const stated = pairs.find((pair) => pair.halves.some((half) => members.has(half)))?.id;
  const stem = commonStem(names);
  const connector = stated ?? stem ?? names.join("+");
  for (const name of names) {
    const rest = stem === undefined ? name : name.slice(stem.length).replace(/^[-_. ]+/u, "");
    groups.set(name, { connector, half: { id: cleanId(rest) ?? name, name } });
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
    if (isSame) pairs.push({ halves: [first, second], id });
  }
  return pairs;
}

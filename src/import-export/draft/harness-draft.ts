import { importProblem, type ImportPlace, type ImportProblem } from "../import-problem.ts";
import type { ReadResult } from "../format-reader.ts";
import {
  cleanId,
  cut,
  freeName,
  DraftParts,
  type DraftStart,
  type ComponentInput,
  type SideInput,
  type IdKind,
  type PartialConnector,
  type LooseCavity,
  type Input,
} from "./draft-parts.ts";
import { finishDraft } from "./finish-draft.ts";

/** A thing with an id of the file, everything else as far as it is known. */
export type Loose<Thing extends { id: string }> = { readonly id: string } & Partial<Omit<Thing, "id">>;

/** A connector that cavities may be added to, with them by what the file calls them, and the ids they were given. */
interface OpenConnector {
  readonly item: PartialConnector;
  readonly cavities: Map<string, LooseCavity>;
  readonly taken: Set<string>;
}

/**
 * The one builder that all readers fill. A reader adds what its file says, under the ids of the file, and gets back the ids of the
 * document; what the file leaves out is completed by `finish()` and reported. A draft is used once.
 *
 * Every `add...` returns the id of the new thing; an id that is taken or not legal is changed, with a warning. References given to
 * `add...` are ids of the document, as returned; `idOf` finds them by what the file calls the thing.
 *
 * @example
 * ```ts
 * import { HarnessDraft } from "ohmward/import-export";
 * const draft = new HarnessDraft({ file: "pins.csv" });
 * const plug = draft.addConnector({ id: "B3.X", label: "Rail pressure sensor" });
 * draft.addSplice({ id: "SP1" });
 * draft.addTerminalStud({ id: "GND1", role: "ground" });
 * draft.addWire({ id: "W1", ends: [draft.contact(plug, "1"), "SP1"] });
 * draft.addWire({ id: "W2", ends: ["SP1", "GND1"] });
 * const made = draft.finish();
 * expect(made.ok && made.value.document.components.map((part) => part.id)).toEqual(["B3"]);
 * ```
 */
export class HarnessDraft {
  readonly start: DraftStart;
  readonly parts = new DraftParts();
  #file: string;
  readonly #nets = new Set<string>();
  readonly #connectors = new Map<string, OpenConnector>();

  constructor(start: DraftStart) {
    this.start = start;
    this.#file = start.file;
    this.parts.ids.beginFile(start.prefix ?? "");
  }

  /** Goes on with another file: its ids are told apart from those before and get the prefix. */
  beginFile(file: string, prefix = ""): void {
    this.#file = file;
    this.parts.ids.beginFile(prefix);
  }

  /** The id in the document of a thing of the present file, by what the file calls it; undefined if it was not added. */
  idOf(kind: IdKind, own: string): string | undefined {
    return this.parts.ids.idOf(kind, own);
  }

  /** Takes a problem into the list that `finish()` returns. */
  report(problem: ImportProblem): void {
    this.parts.problems.push({ ...problem, at: this.#at(problem.at) });
  }

  /** Adds a component. Without `elements` nothing is known of its inside. */
  addComponent(component: Loose<ComponentInput>, at: ImportPlace = {}): string {
    const id = this.#give("component", component.id, at);
    return this.#keep(this.parts.components, { kind: "other", elements: [], label: id, ...component, id }, at);
  }

  /**
   * Adds a connector, with no cavities yet. Without halves it is a device connector with halves `harness` and `device`; without a
   * component one is made, or the one found whose id its own begins with (`A1` for `A1.X1`).
   */
  addConnector(connector: Omit<Loose<PartialConnector>, "cavities">, at: ImportPlace = {}): string {
    const id = this.#give("connector", connector.id, at);
    const item: PartialConnector = { label: id, ...connector, id, sides: [], cavities: [] };
    this.#connectors.set(id, { item, cavities: new Map(), taken: new Set() });
    this.#keep(this.parts.connectors, item, at);
    for (const side of connector.sides ?? []) this.addSide(id, side, at);
    return id;
  }

  /** Adds a half to a connector; one that is there already stays as it is. Returns the id of the half. */
  addSide(connector: string, side: SideInput, at: ImportPlace = {}): string {
    const { item } = this.#connector(connector);
    const id = cleanId(side.id) ?? `half-${item.sides.length + 1}`;
    if (item.sides.some((each) => each.id === id)) return id;
    const { name, ...rest } = side;
    const short = name === undefined ? undefined : cleanId(name);
    const isFree = short !== undefined && this.parts.ids.claim(short);
    if (short !== undefined && !isFree) {
      const facts = { from: short, to: `${connector}.${id}`, reason: "the name is taken" };
      this.report(importProblem("id-changed", at, facts));
    }
    this.parts.ids.claim(`${connector}.${id}`);
    item.sides.push({ ...rest, id, ...(isFree ? { name: short } : {}) });
    return id;
  }

  /** Adds a cavity to a connector, or what is newly known of one it has. Returns the id of the cavity. */
  addCavity(connector: string, cavity: LooseCavity, at: ImportPlace = {}): string {
    const { item, cavities, taken } = this.#connector(connector);
    const known = cavities.get(cavity.id);
    if (known) {
      for (const [name, value] of Object.entries(cavity)) if (!(name in known)) Object.assign(known, { [name]: value });
      return known.id;
    }
    const id = freeName(cleanId(cavity.id) ?? `${cavities.size + 1}`, taken);
    if (id !== cavity.id) {
      const [from, to] = [`${connector}:${cavity.id}`, `${connector}:${id}`] as const;
      this.report(importProblem("id-changed", at, { from, to, reason: "a cavity needs a legal id of its own" }));
    }
    const made = { ...cavity, id };
    taken.add(id);
    cavities.set(cavity.id, made);
    item.cavities.push(made);
    if (!this.parts.found.has(made)) this.parts.found.set(made, this.#at(at));
    return id;
  }

  /**
   * The address of a cavity, for the end of a wire or an element; the cavity is added if it is new.
   *
   * @param connector Id of the connector in the document.
   * @param cavity What the file calls the cavity.
   * @param side Id of the half; absent where the connector has the usual halves of a device connector.
   */
  contact(connector: string, cavity: string, side?: string): string {
    const id = this.addCavity(connector, { id: cavity });
    const named = this.#connector(connector).item.sides.find((each) => each.id === side);
    return `${named?.name ?? (side === undefined ? connector : `${connector}.${side}`)}:${id}`;
  }

  /**
   * Joins cavities of a component connector inside the component, each group by bars from one to the next. The component is made when the
   * draft is completed, so what it joins is kept until then.
   *
   * @param connector Id of the connector in the document.
   * @param groups Cavities that are joined, by what the file calls them.
   */
  joinInside(connector: string, groups: readonly (readonly string[])[]): void {
    const { item } = this.#connector(connector);
    this.parts.joinedInside.set(
      item,
      groups.map((group) => group.map((cavity) => this.contact(item.id, cavity))),
    );
  }

  /** Keeps a text of the file that became nothing else, with the document. */
  note(text: string): void {
    this.parts.notes.push(text);
  }

  /** Adds a wire. Its ends are addresses of the document: from `contact()`, or the id of a splice or stud. */
  addWire(wire: Loose<Input<"wires">> & Pick<Input<"wires">, "ends">, at: ImportPlace = {}): string {
    const id = this.#give("wire", wire.id, at);
    const source = this.start.tellsOrigin === false ? undefined : describePlace(this.#at(at));
    const origin = source === undefined || wire.origin !== undefined ? {} : { origin: { source } };
    return this.#keep(this.parts.wires, { ...wire, ...origin, id }, at);
  }

  /** Adds a splice. */
  addSplice(splice: Loose<Input<"splices">>, at: ImportPlace = {}): string {
    return this.#add("splice", this.parts.splices, splice, at);
  }

  /** Adds a stud, post, ring or ground point. */
  addTerminalStud(
    stud: Loose<Input<"terminalStuds">> & Pick<Input<"terminalStuds">, "role">,
    at: ImportPlace = {},
  ): string {
    const id = this.#give("stud", stud.id, at);
    return this.#keep(this.parts.terminalStuds, { label: id, ...stud, id }, at);
  }

  /** Adds a place where segments meet or end. */
  addPlace(place: Input<"topologyNodes">, at: ImportPlace = {}): string {
    return this.#add("place", this.parts.topologyNodes, place, at);
  }

  /** Adds a segment between two places. */
  addSegment(segment: Input<"segments">, at: ImportPlace = {}): string {
    return this.#add("segment", this.parts.segments, segment, at);
  }

  /** Adds a zone. */
  addZone(zone: Loose<Input<"zones">>, at: ImportPlace = {}): string {
    return this.#add("zone", this.parts.zones, { label: zone.id, ...zone }, at);
  }

  /** Adds an option. */
  addOption(option: Loose<Input<"options">>, at: ImportPlace = {}): string {
    return this.#add("option", this.parts.options, { label: option.id, ...option }, at);
  }

  /** Adds a build: a named set of option ids. */
  addBuild(build: Loose<Input<"builds">> & Pick<Input<"builds">, "options">, at: ImportPlace = {}): string {
    return this.#add("build", this.parts.builds, { label: build.id, ...build }, at);
  }

  /** Adds a net with what it is for; a label is listed once, the first kind stands. */
  addNet(net: Input<"nets">, at: ImportPlace = {}): void {
    if (this.#nets.has(net.id)) return;
    this.#nets.add(net.id);
    this.#keep(this.parts.nets, { ...net }, at);
  }

  /** Adds a state of the machine. */
  addState(state: Input<"states">, at: ImportPlace = {}): void {
    this.#keep(this.parts.states, { ...state }, at);
  }

  /** Completes what the file left out, checks the document, and returns it with all problems, or all problems if one is an error. */
  finish(): ReadResult {
    return finishDraft(this.start, this.parts);
  }

  #give(kind: IdKind, own: string, at: ImportPlace): string {
    const { id, reason } = this.parts.ids.give(kind, own);
    if (reason !== undefined) this.report(importProblem("id-changed", at, { from: cut(own, 80), to: id, reason }));
    return id;
  }

  #add<Thing extends { id: string }>(kind: IdKind, list: Thing[], item: Thing, at: ImportPlace): string {
    return this.#keep(list, { ...item, id: this.#give(kind, item.id, at) }, at);
  }

  #keep<Thing extends { id: string }>(list: Thing[], item: Thing, at: ImportPlace): string {
    list.push(item);
    this.parts.found.set(item, this.#at(at));
    return item.id;
  }

  #at(at: ImportPlace): ImportPlace {
    return at.file === undefined ? { file: this.#file, ...at } : at;
  }

  #connector(id: string): OpenConnector {
    const known = this.#connectors.get(id);
    if (!known) throw new RangeError(`The draft has no connector "${id}"`);
    return known;
  }
}

function describePlace(at: ImportPlace): string | undefined {
  const parts = [at.file, at.sheet, at.row === undefined ? undefined : `row ${at.row}`, at.path];
  const text = parts.filter((part) => part !== undefined).join(", ");
  return text === "" ? undefined : cut(text, 600);
}

import {
  buildAddressBook,
  lookUpPoint,
  makeFitting,
  type AddressUse,
  type Build,
  type Component,
  type Connector,
  type Element,
  type FittedItems,
  type HarnessDocument,
} from "../harness-model/index.ts";
import { ItemList, NAMES, type FieldValue, type ItemKind } from "./item-list.ts";
import type { Numbering } from "./numbering.ts";

/** A document, and what of it is fitted where one build is meant: a harness, or a machine with all its builds. */
export interface ComparedMachine {
  readonly document: HarnessDocument;
  readonly build?: Build;
  readonly fitted?: FittedItems;
}

/** Elements whose first terminal is not as the second: a diode has a direction, a fuse has none. */
const DIRECTED: ReadonlySet<Element["kind"]> = new Set(["coil", "source", "bias", "driver", "divider", "diode"]);
const OPTION_NAME = /[\p{L}\p{N}][\p{L}\p{N}._+-]*/gu;

type Raw = object & { readonly id: string; readonly when?: string | undefined };

/**
 * Reads the items of a document, each with its values and with what it names, so that two documents can be compared whatever their ids.
 *
 * @param machine The document; where a build is fitted only what it has.
 * @param numbering Numbers for texts, the same for both documents.
 */
export function readItems(machine: ComparedMachine, numbering: Numbering): ItemList {
  const list = new ItemList(numbering);
  new ItemReader(machine, list).read();
  return list;
}

class ItemReader {
  readonly #list: ItemList;
  readonly #machine: ComparedMachine;
  readonly #book;
  readonly #isFitted;

  constructor(machine: ComparedMachine, list: ItemList) {
    this.#list = list;
    this.#machine = machine;
    this.#book = buildAddressBook(machine.document);
    this.#isFitted = machine.build === undefined ? () => true : makeFitting(machine.build);
  }

  read(): void {
    const { document } = this.#machine;
    const { components, connectors, splices, terminalStuds, wires } = this.#fitted();
    const all = (kind: ItemKind, list: readonly Raw[]): void => {
      for (const raw of list) this.#add(kind, raw);
    };
    this.#add("machine", { id: "machine", ...document.system });
    // Options and builds are a matter of the whole document.
    const isWhole = this.#machine.build === undefined;
    all("option", isWhole ? document.options : []);
    all("build", isWhole ? document.builds : []);
    all("zone", document.zones);
    all("branch-point", document.topologyNodes);
    all("segment", document.segments);
    all("net", document.nets);
    for (const component of components) this.#addPart(component);
    for (const connector of connectors) this.#addConnector(connector);
    all("splice", splices);
    all("stud", terminalStuds);
    all("wire", wires);
    all("state", document.states);
    all("adapter", document.adapters);
    all(
      "code",
      document.codes.filter(({ when }) => this.#isFitted(when)),
    );
    all("caution", document.cautions);
    this.#nameOthers();
  }

  #fitted(): Pick<HarnessDocument, "components" | "connectors" | "splices" | "terminalStuds" | "wires"> {
    const { document, fitted } = this.#machine;
    if (!fitted) return document;
    return {
      components: [...fitted.components.values()],
      connectors: [...fitted.connectors.values()],
      splices: [...fitted.splices.values()],
      terminalStuds: [...fitted.terminalStuds.values()],
      wires: [...fitted.wires.values()],
    };
  }

  #add(kind: ItemKind, raw: Raw, owner = -1, id = raw.id): number {
    const number = this.#list.add({ kind, id, local: raw.id, owner, raw, told: undefined });
    if (raw.when !== undefined && this.#machine.build === undefined) this.#when(number, raw.when);
    return number;
  }

  #addPart(component: Component): void {
    const part = this.#add("part", component);
    const inner = new Set<string>();
    for (const element of component.elements) {
      if (!this.#isFitted(element.when)) continue;
      for (const address of pointsOf(element)) if (address.startsWith("#")) inner.add(address.slice(1));
      this.#add("element", element, part, `${component.id}.${element.id}`);
    }
    for (const name of inner) this.#add("internal-node", { id: name }, part, `${component.id}#${name}`);
  }

  #addConnector(connector: Connector): void {
    const number = this.#add("connector", connector);
    const sides = this.#machine.fitted?.sides.get(connector.id) ?? connector.sides;
    for (const side of sides) this.#add("side", side, number, `${connector.id}.${side.id}`);
    for (const cavity of connector.cavities) this.#add("cavity", cavity, number, `${connector.id}:${cavity.id}`);
  }

  #nameOthers(): void {
    this.#list.items.forEach(({ kind, raw }, number) => {
      for (const [field, of] of Object.entries(NAMES[kind])) {
        const named = strings(field.split(".").reduce(fieldOf, raw));
        // All states or points, whatever there are.
        if (named[0] === "any" || named[0] === "all") this.#tell(number, field, named[0]);
        else if (of === "point") this.#ends(number, field, named);
        else this.#names(number, kind === "segment" && of === "branch-point" ? "ends" : field, [of, named]);
      }
    });
    const { document } = this.#machine;
    const of = <Of extends Raw>(kind: ItemKind, list: readonly Of[], tell: (number: number, raw: Of) => void): void => {
      for (const raw of list) {
        const number = this.#list.find(kind, raw.id);
        if (number !== undefined) tell(number, raw);
      }
    };
    of("zone", document.zones, (number, { hazards }) => this.#hazards(number, hazards));
    of("segment", document.segments, (number, { hazards }) => this.#hazards(number, hazards));
    of("part", document.components, (number, component) => this.#partNames(number, component));
    of("connector", document.connectors, (number, connector) => this.#connectorNames(number, connector));
    of("state", document.states, (number, { settings = [], quantities = [] }) => {
      for (const { of: element, is } of settings)
        this.#names(number, "settings", ["element", [element]], typeof is === "string" ? is : `${is.dutyPercent} %`);
      for (const { name, value, unit } of quantities) this.#tell(number, `quantity ${name}`, `${value} ${unit}`);
    });
    of("adapter", document.adapters, (number, { fits }) => {
      for (const kind of ["connector", "side", "element"] as const) this.#names(number, "fits", [kind, fits]);
    });
  }

  #partNames(number: number, component: Component): void {
    const use: AddressUse = { by: "element", component };
    const { needs, elements, id } = component;
    if (needs) {
      const { positive, negative, wake, wakeOutputs = [] } = needs;
      for (const [field, address] of Object.entries({ positive, negative, wake }))
        this.#ends(number, `needs.${field}`, [address], { use });
      this.#names(number, "needs.wakeOutputs", ["element", wakeOutputs.map((output) => `${id}.${output}`)]);
    }
    for (const element of elements) {
      const at = this.#list.find("element", `${id}.${element.id}`);
      if (at === undefined) continue;
      const isDirected = DIRECTED.has(element.kind);
      element.between.forEach((address, end) =>
        this.#ends(at, "between", [address], { use, note: isDirected ? String(end) : "" }),
      );
      if (element.kind === "divider") this.#ends(at, "tap", [element.tap], { use });
      if (element.kind === "contact") this.#names(at, "of", ["element", [`${id}.${element.of}`]]);
      if (element.kind === "load")
        for (const { state, resistanceOhm } of element.resistanceByState ?? [])
          this.#names(at, "resistanceByState", ["state", [state]], `${resistanceOhm} ohm`);
    }
  }

  #connectorNames(number: number, { id, face, sides }: Connector): void {
    this.#names(number, "face.ofSide", ["side", [`${id}.${face.ofSide}`]]);
    for (const { id: side, cavities, fitted = [] } of sides) {
      const at = this.#list.find("side", `${id}.${side}`);
      if (at === undefined) continue;
      this.#names(at, "cavities", ["cavity", cavities?.map((cavity) => `${id}:${cavity}`)]);
      for (const { cavity, ...parts } of fitted) {
        const text = Object.entries(parts).flatMap(([sort, part]) => (part ? [`${sort} ${part.number}`] : []));
        this.#names(at, "fitted", ["cavity", [`${id}:${cavity}`]], text.join(", "));
      }
    }
  }

  #names(
    from: number,
    field: string,
    [kind, ids = []]: readonly [kind: ItemKind, ids?: readonly (string | undefined)[] | undefined],
    note = "",
  ): void {
    for (const id of ids) {
      const target = id === undefined ? undefined : this.#list.find(kind, id);
      if (target !== undefined) this.#list.name(from, field, target, { note });
    }
  }

  #ends(
    from: number,
    field: string,
    addresses: readonly (string | undefined)[] = [],
    { use = { by: "wire" }, note = "" }: { readonly use?: AddressUse; readonly note?: string } = {},
  ): void {
    for (const address of addresses) {
      const point = address === undefined ? undefined : lookUpPoint(this.#book, address, use);
      const target = point && this.#numberOf(point);
      if (target === undefined) continue;
      const side = point?.kind === "contact" ? this.#list.find("side", `${point.connector.id}.${point.side.id}`) : -1;
      this.#list.name(from, field, target, { note, side: side ?? -1 });
    }
  }

  #numberOf(point: ReturnType<typeof lookUpPoint>): number | undefined {
    switch (point.kind) {
      case "contact":
        return this.#list.find("cavity", `${point.connector.id}:${point.cavity.id}`);
      case "splice":
        return this.#list.find("splice", point.splice.id);
      case "stud":
        return this.#list.find("stud", point.stud.id);
      case "inner":
        return this.#list.find("internal-node", `${point.component.id}#${point.name}`);
      case "open-end":
      case "none":
        return undefined;
    }
  }

  #hazards(
    from: number,
    hazards: readonly {
      readonly kind: string;
      readonly text: string;
      readonly states?: readonly string[] | undefined;
    }[] = [],
  ): void {
    if (hazards.length === 0) return;
    this.#tell(from, "hazards", hazards.map(({ kind, text }) => `${kind}: ${text}`).join("; "));
    for (const { text, states } of hazards) this.#names(from, "hazards", ["state", states], text);
  }

  /** The shape of the expression is a value, its options are named. */
  #when(from: number, when: string): void {
    this.#tell(from, "when", when.replaceAll(OPTION_NAME, "#").replaceAll(/\s/gu, ""));
    [...when.matchAll(OPTION_NAME)].forEach(([option], at) =>
      this.#names(from, "when", ["option", [option]], String(at)),
    );
  }

  #tell(at: number, field: string, value: FieldValue): void {
    const item = this.#list.items[at];
    if (item) (item.told ??= new Map()).set(field, value);
  }
}

function fieldOf(value: unknown, field: string): unknown {
  return typeof value === "object" && value !== null ? (value as Readonly<Record<string, unknown>>)[field] : undefined;
}

function strings(value: unknown): readonly string[] {
  return (Array.isArray(value) ? (value as readonly unknown[]) : [value]).filter((each) => typeof each === "string");
}

function pointsOf(element: Element): readonly string[] {
  return element.kind === "divider" ? [...element.between, element.tap] : element.between;
}

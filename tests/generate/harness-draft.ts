import type { SeededRandom } from "ohmward/base";
import type { HarnessDocument, NetKind } from "ohmward/harness-model";
import type { z } from "zod";
import { PlaceTree, type Spot } from "./place-tree.ts";

/** A harness document as plain data, before any check. */
export type DocumentInput = z.input<typeof HarnessDocument>;
type ConnectorInput = DocumentInput["connectors"][number];
type ElementInput = DocumentInput["components"][number]["elements"][number];

/** An end of a wire: what it is called and where it lies. */
export interface WireEnd {
  readonly address: string;
  readonly spot: Spot;
}

/** What a wire is like. */
export interface WireKind {
  readonly net: string;
  readonly kind: NetKind;
  readonly colour: string;
  readonly crossSectionMm2: number;
  readonly when?: string | undefined;
}

/** A harness document while it is being made. */
export class HarnessDraft {
  readonly random: SeededRandom;
  readonly tree = new PlaceTree();
  readonly components: DocumentInput["components"] = [];
  readonly connectors: DocumentInput["connectors"] = [];
  readonly splices: DocumentInput["splices"] = [];
  readonly terminalStuds: DocumentInput["terminalStuds"] = [];
  readonly wires: DocumentInput["wires"] = [];
  readonly codes: DocumentInput["codes"] = [];
  readonly nets = new Map<string, NetKind>();
  readonly #counts = new Map<string, number>();

  constructor(random: SeededRandom) {
    this.random = random;
  }

  /** The next id of a family: `B1`, `B2` and so on. */
  nextId(family: string): string {
    const count = (this.#counts.get(family) ?? 0) + 1;
    this.#counts.set(family, count);
    return `${family}${count}`;
  }

  /** Adds a wire between two ends, routed through the tree. */
  wire(from: WireEnd, to: WireEnd, { kind, when, ...rest }: WireKind): void {
    const way = this.tree.way(from.spot, to.spot);
    this.nets.set(rest.net, kind);
    this.wires.push({
      id: this.nextId("W"),
      ends: [from.address, to.address],
      ...rest,
      // 30 mm at each end for the terminal and the way into the connector.
      lengthMm: way.lengthMm + 60,
      route: [...way.segments],
      ...(when === undefined ? {} : { when }),
    });
  }

  /** Adds a splice inside the segment above a place. */
  splice(below: number, when?: string): WireEnd {
    const { segment, parent, lengthMm, zone } = this.tree.record(below);
    const id = this.nextId("SP");
    const offsetMm = this.random.integer(20, lengthMm - 20);
    const at = { segment, from: this.tree.record(parent).id, offsetMm };
    this.splices.push({ id, at, zone, ...(when === undefined ? {} : { when }) });
    return { address: id, spot: { kind: "segment", below, offsetMm } };
  }

  /** Adds a stud at a place. */
  stud(
    id: string,
    at: number,
    what: { role: "supply" | "ground" | "terminal"; label: string; component?: string },
  ): WireEnd {
    const { id: place, zone } = this.tree.record(at);
    this.terminalStuds.push({
      id,
      ...what,
      place,
      zone,
      access: { minutes: this.random.integer(1, 10), states: "any" },
    });
    return { address: id, spot: { kind: "place", place: at } };
  }

  /** Adds a connector with its cavities in rows, as seen from the wire side. */
  connector(
    id: string,
    at: number,
    what: Pick<ConnectorInput, "kind" | "sides" | "label"> & Partial<ConnectorInput> & { size: number },
  ): void {
    const { size, ...given } = what;
    const { id: place, zone } = this.tree.record(at);
    const columns = size <= 6 ? Math.max(1, Math.ceil(size / 2)) : Math.ceil(size / 4);
    this.connectors.push({
      id,
      face: { view: "wire-side", ofSide: what.sides[0]?.id ?? "", shape: "rectangular", latch: "top", key: "left" },
      cavities: Array.from({ length: size }, (_, index) => {
        return {
          id: String(index + 1),
          x: index % columns,
          y: Math.floor(index / columns),
          terminalMm: size > 20 ? 0.64 : 1.5,
        };
      }),
      sealed: this.random.next() < 0.8,
      zone,
      place,
      access: { minutes: this.random.integer(1, 20), states: "any" },
      permits: ["unplug", "front-probe", "adapter"],
      ...given,
    });
  }
}

/** Deals out the cavities of a part with many pins over connectors of up to `largest` cavities, and gathers its inside. */
export class PinBank {
  readonly id: string;
  readonly place: number;
  readonly elements: ElementInput[] = [];
  readonly #largest: number;
  #used = 0;

  constructor(id: string, place: number, largest: number) {
    this.id = id;
    this.place = place;
    this.#largest = largest;
  }

  /** The next free cavity. */
  pin(): WireEnd {
    const connector = Math.floor(this.#used / this.#largest) + 1;
    const cavity = (this.#used % this.#largest) + 1;
    this.#used++;
    return { address: `${this.id}.X${connector}:${cavity}`, spot: { kind: "place", place: this.place } };
  }

  /** An id for the next element of the inside. */
  elementId(family: string): string {
    return `${family}${this.elements.length + 1}`;
  }

  /** Puts the part and its connectors into the draft. */
  finish(draft: HarnessDraft, kind: "module" | "distribution", label: string): void {
    const { zone } = draft.tree.record(this.place);
    draft.components.push({ id: this.id, label, kind, zone, elements: this.elements });
    for (let left = this.#used, number = 1; left > 0; left -= this.#largest, number++) {
      const size = Math.min(this.#largest, Math.ceil(Math.min(left, this.#largest) / 8) * 8);
      const sides = [
        { id: "harness", contacts: "sockets" as const },
        { id: "device", contacts: "pins" as const },
      ];
      draft.connector(`${this.id}.X${number}`, this.place, {
        kind: "component",
        component: this.id,
        label: `${label}, connector ${number}`,
        sides,
        size,
      });
    }
  }
}

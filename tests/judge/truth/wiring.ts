import type { Resistor } from "./circuit.ts";
import { wireOhm } from "./copper.ts";
import type { Fault } from "./fault.ts";
import { isThere, type ConnectorRow, type HarnessFile } from "./harness-file.ts";

// Wires, contacts, rings and splice legs of one build, with what is wrong with them.

/** The name of a half as points carry it. */
const halfName = (connector: ConnectorRow, half: { readonly id: string; readonly name?: string }): string =>
  half.name ?? `${connector.id}.${half.id}`;

/** The two halves of a connector that mate in this build; one alone where nothing is put in. */
function matingHalves(connector: ConnectorRow, options: readonly string[]): readonly string[] {
  return connector.sides.filter(({ when }) => isThere(when, options)).map((half) => halfName(connector, half));
}

/** Finds points by their names, as wires, elements and people write them. */
export class Points {
  readonly #halves = new Map<string, readonly string[]>();
  readonly #connectorOf = new Map<string, string>();

  constructor(machine: HarnessFile, options: readonly string[]) {
    for (const connector of machine.connectors.filter(({ when }) => isThere(when, options))) {
      const halves = matingHalves(connector, options);
      this.#halves.set(connector.id, halves);
      this.#connectorOf.set(connector.id, connector.id);
      for (const half of halves) this.#connectorOf.set(half, connector.id);
    }
  }

  /** The connector that a connector or a half belongs to; undefined for anything else. */
  connector(name: string): string | undefined {
    return this.#connectorOf.get(name);
  }

  /** The halves of a connector. */
  halves(connector: string): readonly string[] {
    return this.#halves.get(connector) ?? [];
  }

  /** A point as wires and people name it: of a connector without a half its wire side is meant. */
  onWire(name: string): string {
    return this.#at(name, 0);
  }

  /** A point as an element names it: the device side of a connector, an inner point of its component, a stud. */
  onDevice(name: string, component: string): string {
    return name.startsWith("#") ? `${component}${name}` : this.#at(name, 1);
  }

  #at(name: string, half: 0 | 1): string {
    const cut = name.lastIndexOf(":");
    if (cut < 0) return name;
    const halves = this.#halves.get(name.slice(0, cut));
    return halves === undefined ? name : `${halves[half] ?? halves[0] ?? ""}${name.slice(cut)}`;
  }
}

/** How a machine differs from its document without being at fault: factors on resistances by key of the thing. */
export type World = (key: string) => number;

/** What the faults say about one thing. */
export class FaultBook {
  readonly #faults: readonly Fault[];
  readonly #world: World;

  constructor(faults: readonly Fault[], world: World = () => 1) {
    this.#faults = faults;
    this.#world = world;
  }

  /** Whether a thing lets no current through. */
  isOpen(key: string): boolean {
    return this.#faults.some((fault) => (fault.kind === "open" || fault.kind === "blown") && fault.of === key);
  }

  /** A switch or contact that stays as it is. */
  stuck(key: string): "open" | "closed" | undefined {
    for (const fault of this.#faults) if (fault.kind === "stuck" && fault.of === key) return fault.is;
    return undefined;
  }

  /** The resistance of a thing with what is wrong with it, in ohm. */
  ohm(key: string, normalOhm: number): number {
    let ohm = normalOhm * this.#world(key);
    for (const fault of this.#faults) {
      if (!("of" in fault) || fault.of !== key) continue;
      if (fault.kind === "value") ohm = fault.ohm;
      if (fault.kind === "resistance") ohm += fault.ohm;
      if (fault.kind === "drift") ohm *= fault.factor ?? 1;
    }
    return ohm;
  }

  /** All faults of one kind. */
  ofKind<Kind extends Fault["kind"]>(kind: Kind): readonly Extract<Fault, { kind: Kind }>[] {
    return this.#faults.filter((fault): fault is Extract<Fault, { kind: Kind }> => fault.kind === kind);
  }
}

/** One machine in one build with its faults. */
export interface Made {
  readonly machine: HarnessFile;
  /** Options of the build. */
  readonly options: readonly string[];
  readonly points: Points;
  readonly book: FaultBook;
}

/** Everything between the parts, as resistances. Connectors named in `unplugged` hold nothing. */
export function wiringOf({ machine, options, points, book }: Made, unplugged: readonly string[]): readonly Resistor[] {
  const list: Resistor[] = [];
  const add = (key: string, a: string, b: string, normalOhm: number): void => {
    if (!book.isOpen(key)) list.push({ key, a, b, ohm: book.ohm(key, normalOhm) });
  };
  const apart = new Set(
    [...unplugged, ...book.ofKind("unplugged").map(({ of }) => of)].map((name) => points.connector(name)),
  );
  const splices = new Map(machine.splices.map(({ id, resistanceOhm }) => [id, resistanceOhm]));
  const studs = new Map(machine.terminalStuds.map(({ id, ringOhm }) => [id, ringOhm]));

  for (const connector of machine.connectors.filter(({ when }) => isThere(when, options))) {
    const [first, second] = points.halves(connector.id);
    if (first === undefined || second === undefined || apart.has(connector.id)) continue;
    for (const cavity of connector.cavities) {
      const ohm = cavity.resistanceOhm ?? connector.contactOhm;
      if (ohm === undefined) throw new Error(`No contact resistance for ${connector.id}:${cavity.id}`);
      add(`${connector.id}:${cavity.id}`, `${first}:${cavity.id}`, `${second}:${cavity.id}`, ohm);
    }
  }

  const swaps = new Map(
    book.ofKind("swapped").flatMap(({ of: [a, b] }) => {
      const [one, other] = [points.onWire(a), points.onWire(b)];
      return [[one, other] as const, [other, one] as const];
    }),
  );
  const landing = (wire: string, end: string): string => {
    const joint = splices.get(end) ?? studs.get(end);
    if (joint !== undefined) {
      add(`${wire}@${end}`, `${wire}@${end}`, end, joint);
      return `${wire}@${end}`;
    }
    const point = points.onWire(end);
    return swaps.get(point) ?? point;
  };
  for (const wire of machine.wires.filter(({ when }) => isThere(when, options))) {
    const [from, to] = [landing(wire.id, wire.ends[0]), landing(wire.id, wire.ends[1])];
    const ohm = wireOhm(wire.crossSectionMm2, wire.lengthMm);
    const hit = book.ofKind("short").filter(({ of }) => of === wire.id);
    let [last, done] = [from, 0];
    hit.forEach((short, at) => {
      const share = short.at ?? 0.5;
      const hole = `${wire.id}~${String(at)}`;
      add(wire.id, last, hole, ohm * (share - done));
      [last, done] = [hole, share];
      list.push({ key: `${hole} short`, a: hole, b: points.onWire(short.to), ohm: short.ohm });
    });
    add(wire.id, last, to, ohm * (1 - done));
  }
  const wires = new Set(machine.wires.map(({ id }) => id));
  for (const { of, to, ohm } of book.ofKind("short"))
    if (!wires.has(of)) list.push({ key: `${of} short`, a: points.onWire(of), b: points.onWire(to), ohm });
  for (const { of, ohm } of book.ofKind("bridge"))
    list.push({ key: `${of.join(" ")} bridge`, a: points.onWire(of[0]), b: points.onWire(of[1]), ohm });
  return list;
}

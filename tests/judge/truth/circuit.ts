// What a circuit is made of here, and how it is written for the simulator.

/** A resistance between two points; `key` names the thing it stands for. */
export interface Resistor {
  readonly key: string;
  readonly a: string;
  readonly b: string;
  readonly ohm: number;
}

/** A voltage behind a resistance. */
export interface Emf {
  readonly key: string;
  readonly plus: string;
  readonly minus: string;
  readonly volt: number;
  readonly ohm: number;
}

/** A sensor output: a share of the voltage between two points, behind a resistance. */
export interface Follower {
  readonly key: string;
  readonly tap: string;
  readonly plus: string;
  readonly minus: string;
  readonly share: number;
  readonly ohm: number;
}

/** A circuit without switches: everything stands as it is. */
export interface Circuit {
  readonly resistors: readonly Resistor[];
  readonly emfs: readonly Emf[];
  readonly followers: readonly Follower[];
}

/** Groups of points that hang together. */
export class Islands {
  readonly #parent = new Map<string, string>();

  /** The point that stands for the group of this point. */
  of(point: string): string {
    const parent = this.#parent.get(point);
    if (parent === undefined) {
      this.#parent.set(point, point);
      return point;
    }
    if (parent === point) return point;
    const top = this.of(parent);
    this.#parent.set(point, top);
    return top;
  }

  /** Puts two groups together. */
  join(a: string, b: string): void {
    this.#parent.set(this.of(a), this.of(b));
  }

  /** All points that were ever named. */
  points(): readonly string[] {
    return [...this.#parent.keys()];
  }
}

/** The groups of points of a circuit. */
export function islandsOf(circuit: Circuit): Islands {
  const islands = new Islands();
  for (const { a, b } of circuit.resistors) islands.join(a, b);
  for (const { plus, minus } of circuit.emfs) islands.join(plus, minus);
  for (const { tap, plus, minus } of circuit.followers) {
    islands.join(tap, minus);
    islands.join(plus, minus);
  }
  return islands;
}

/** What is left of a circuit without dead ends, and for each point of a dead end the point whose voltage it has. */
interface Pruned {
  readonly resistors: readonly Resistor[];
  readonly standsAs: ReadonlyMap<string, string>;
}

/** Takes away what carries no current: branches that end at one point, from their ends inwards. */
function withoutDeadEnds({ resistors, emfs, followers }: Circuit, reference: string): Pruned {
  const driven = new Set([
    reference,
    ...emfs.flatMap(({ plus, minus }) => [plus, minus]),
    ...followers.flatMap(({ tap, plus, minus }) => [tap, plus, minus]),
  ]);
  const at = new Map<string, Set<Resistor>>();
  for (const each of resistors.filter(({ a, b }) => a !== b))
    for (const point of [each.a, each.b]) at.set(point, (at.get(point) ?? new Set()).add(each));
  const standsAs = new Map<string, string>();
  const ends = [...at.keys()];
  for (let end = ends.pop(); end !== undefined; end = ends.pop()) {
    const [only, second] = at.get(end) ?? [];
    if (driven.has(end) || only === undefined || second !== undefined) continue;
    const other = only.a === end ? only.b : only.a;
    standsAs.set(end, other);
    at.get(end)?.delete(only);
    at.get(other)?.delete(only);
    ends.push(other);
  }
  return { resistors: [...new Set([...at.values()].flatMap((set) => [...set]))], standsAs };
}

/** A deck of ngspice, and the name that the deck has for a point; undefined for a point at which no current can arrive, which stands at 0. */
export interface Deck {
  readonly text: string;
  readonly nameOf: (point: string) => string | undefined;
}

/** A circuit as a deck. A part that hangs on nothing is tied to the reference at one point, so that no current flows there. */
export function writeDeck(circuit: Circuit, reference: string): Deck {
  const { resistors, standsAs } = withoutDeadEnds(circuit, reference);
  const islands = islandsOf({ ...circuit, resistors });
  const nodes = new Map([[reference, "0"]]);
  const node = (point: string): string => {
    const known = nodes.get(point);
    if (known !== undefined) return known;
    const name = `n${String(nodes.size)}`;
    nodes.set(point, name);
    return name;
  };
  const lines = ["judge"];
  const sources = [...circuit.emfs, ...circuit.followers].map(({ minus }) => islands.of(minus));
  const live = new Set([islands.of(reference), ...sources]);
  resistors.forEach(({ a, b, ohm }, at) => {
    if (live.has(islands.of(a))) lines.push(`R${String(at)} ${node(a)} ${node(b)} ${ohm.toExponential(12)}`);
  });
  circuit.emfs.forEach(({ plus, minus, volt, ohm }, at) => {
    const inner = `e${String(at)}`;
    lines.push(
      `V${String(at)} ${inner} ${node(minus)} ${String(volt)}`,
      `RV${String(at)} ${inner} ${node(plus)} ${String(ohm)}`,
    );
  });
  circuit.followers.forEach(({ tap, plus, minus, share, ohm }, at) => {
    const inner = `f${String(at)}`;
    lines.push(`E${String(at)} ${inner} ${node(minus)} ${node(plus)} ${node(minus)} ${String(share)}`);
    lines.push(`RE${String(at)} ${inner} ${node(tap)} ${String(ohm)}`);
  });
  live.delete(islands.of(reference));
  for (const top of live) lines.push(`RT${node(top)} ${node(top)} 0 1`);
  lines.push(".end", "");
  const nameOf = (point: string): string | undefined => {
    const other = standsAs.get(point);
    return other === undefined ? nodes.get(point) : nameOf(other);
  };
  return { text: lines.join("\n"), nameOf };
}

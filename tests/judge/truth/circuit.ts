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

/** A circuit as a deck of ngspice. A part that hangs on nothing is tied to the reference at one point, so that no current flows there. */
export function writeDeck(circuit: Circuit, reference: string): { readonly deck: string; readonly nodes: Nodes } {
  const islands = islandsOf(circuit);
  const nodes: Nodes = new Map([[reference, "0"]]);
  const node = (point: string): string => {
    const known = nodes.get(point);
    if (known !== undefined) return known;
    const name = `n${String(nodes.size)}`;
    nodes.set(point, name);
    return name;
  };
  const lines = ["judge"];
  circuit.resistors.forEach(({ a, b, ohm }, at) => {
    if (node(a) !== node(b)) lines.push(`R${String(at)} ${node(a)} ${node(b)} ${ohm.toExponential(12)}`);
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
  const tied = new Set([islands.of(reference)]);
  for (const point of islands.points()) {
    const top = islands.of(point);
    if (tied.has(top)) continue;
    tied.add(top);
    lines.push(`RT${String(tied.size)} ${node(point)} 0 1`);
  }
  lines.push(".end", "");
  return { deck: lines.join("\n"), nodes };
}

/** The name of the simulator for each point. */
export type Nodes = Map<string, string>;

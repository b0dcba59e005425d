import { isKeyOn, type Code, type Harness, type State } from "../../model/index.ts";
import { circuitsOf, mainTerminals, resolve, type Circuit } from "../../trace/index.ts";
import { statesToMeasure } from "./healthy-circuit.ts";

/** One reading that a code or a function is judged by. */
export interface ComplaintProbe {
  readonly state: string;
  readonly kind: "volts" | "ohms";
  readonly red: string;
  readonly black: string;
}

/** States of a machine by what they are good for. */
export interface UsefulStates {
  /** Supply isolated, for ohms. */
  readonly off: State | undefined;
  /** Key on and nothing else. */
  readonly on: State | undefined;
  /** All states with the key on. */
  readonly live: readonly State[];
}

/** Sorts the states of a machine. */
export function usefulStates({ document: { states } }: Harness): UsefulStates {
  const live = states.filter(isKeyOn);
  return {
    off: states.find(({ conditions }) => conditions.includes("isolated")),
    on: live.find(({ conditions }) => conditions.length === 1 && conditions[0] === "key-on"),
    live,
  };
}

/** The main negative terminal, as an address. */
export function groundOf(harness: Harness): string | undefined {
  return harness.nodes[mainTerminals(harness).negative ?? -1]?.key;
}

/** Points of a code as its module sees them: the device side of the contact where there is one. */
export function pointsOfCode(harness: Harness, code: Code): readonly string[] {
  return code.points.map((address) => {
    const colon = address.lastIndexOf(":");
    const inside = `${address.slice(0, colon)}.device${address.slice(colon)}`;
    return colon > 0 && harness.nodeNumbers.has(inside) ? inside : address;
  });
}

/** The circuits that a named thing serves or, where it serves none, belongs to. */
export function circuitsServed(harness: Harness, name: string): readonly Circuit[] {
  const resolution = resolve(harness, name);
  if (resolution.kind !== "one") return [];
  const circuits = circuitsOf(harness, resolution.item);
  const own = circuits.filter(
    ({ component, serves }) => component === resolution.item.id || serves.id === resolution.item.id,
  );
  return own.length > 0 ? own : circuits;
}

/**
 * Readings that show whether some circuits do their work: volts across the consumer in every live state worth measuring in, volts at the module pins they
 * end at, and ohms between those pins.
 *
 * @param harness The harness.
 * @param circuits The circuits.
 */
export function functionProbes(harness: Harness, circuits: readonly Circuit[]): readonly ComplaintProbe[] {
  const { off } = usefulStates(harness);
  const edges = new Set(circuits.flatMap((circuit) => [...circuit.edges]));
  const live = statesToMeasure(harness, edges).filter(({ conditions }) => !conditions.includes("isolated"));
  const ground = groundOf(harness);
  const probes = new Map<string, ComplaintProbe>();
  const add = (probe: ComplaintProbe): void => {
    probes.set(Object.values(probe).join(" "), probe);
  };
  const keyOf = (node: number | undefined): string => harness.nodes[node ?? -1]?.key ?? "";
  for (const circuit of circuits) {
    for (const { id } of live) {
      for (const edge of circuit.ownEdges) {
        const [red, black] = [keyOf(harness.index.from[edge]), keyOf(harness.index.to[edge])];
        add({ state: id, kind: "volts", red, black });
      }
      for (const pin of modulePins(circuit))
        if (ground !== undefined) add({ state: id, kind: "volts", red: keyOf(pin), black: ground });
    }
    // Between two pins lies the consumer itself; with more of them the inside of the module would be measured.
    const [first, second, ...more] = modulePins(circuit);
    if (off && first !== undefined && second !== undefined && more.length === 0) {
      add({ state: off.id, kind: "ohms", red: keyOf(first), black: keyOf(second) });
    }
  }
  return [...probes.values()].filter(({ red, black }) => red !== "" && black !== "" && red !== black);
}

function modulePins({ sides }: Circuit): readonly number[] {
  return [...new Set(sides.flatMap(({ role, ends }) => (role === "module" ? ends : [])))].slice(0, 8);
}

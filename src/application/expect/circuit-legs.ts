import {
  describeItem,
  findCircuit,
  findNet,
  resolveItem,
  type Item,
  type Resolved,
  type SideRole,
} from "../../connectivity/index.ts";
import type { Facts } from "../answer.ts";
import type { MachineContext } from "../machine-context.ts";

/** A stop on a way: a contact, splice or stud, with its nodes in the order of the way. */
export interface Stop {
  readonly item: Item;
  readonly nodes: readonly number[];
  /** Wires and parts since the stop before. */
  readonly through: readonly Facts[];
}

/** One way of a circuit. */
export interface Leg {
  readonly serves: Item;
  readonly role: SideRole;
  readonly stops: readonly Stop[];
}

/** Most ways that are listed. */
const MOST_LEGS = 60;

/**
 * The ways of all circuits of a thing: from supply or control-unit pin down to each consumer, and from there down to ground.
 *
 * @param context The machine in its build and state.
 * @param of The thing.
 * @returns The ways, those of the smallest circuits first, and how many are left out; for a thing without a circuit its net as one way.
 */
export function circuitLegs(
  context: MachineContext,
  of: Resolved,
): { readonly legs: readonly Leg[]; readonly leftOut: number } {
  const { harness } = context;
  const circuit = findCircuit(harness, of);
  if (circuit.kind === "no-circuit") {
    const stops = stopsOf(context, findNet(harness, of).items);
    return { legs: [{ serves: circuit.of, role: "nothing", stops }], leftOut: 0 };
  }
  const all = circuit.circuits.flatMap(({ serves, sides }) =>
    sides.flatMap((side) => {
      // A side that runs into its end directly has no way, only the things at the end.
      const ways = side.ways.length > 0 ? side.ways : [side.items];
      return ways.map((way) => ({ serves, role: side.role, way: side.role === "ground" ? way : way.toReversed() }));
    }),
  );
  const legs = all.slice(0, MOST_LEGS).map(({ serves, role, way }) => ({ serves, role, stops: stopsOf(context, way) }));
  return { legs: legs.filter(({ stops }) => stops.length > 0), leftOut: Math.max(0, all.length - MOST_LEGS) };
}

function stopsOf({ harness }: MachineContext, way: readonly Item[]): readonly Stop[] {
  const stops: Stop[] = [];
  let through: Facts[] = [];
  let before: readonly number[] = [];
  for (const item of way) {
    const nodes = resolveItem(harness, item)?.groups.flat() ?? [];
    if (item.type === "contact" || item.type === "splice" || item.type === "stud") {
      const [first = -1] = nodes;
      const isTurned = nodes.length === 2 && !before.includes(first) && before.includes(nodes[1] ?? -1);
      stops.push({ item, nodes: isTurned ? nodes.toReversed() : nodes, through });
      through = [];
    } else through.push(describeItem(harness, item));
    before = nodes;
  }
  return stops;
}

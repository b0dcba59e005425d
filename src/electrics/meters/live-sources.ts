import type { Harness } from "../../model/index.ts";
import { voltAcross } from "../network/find-flips.ts";
import type { Settled } from "../network/settle.ts";

/** Less than this between points, in volt, is none. */
const NO_VOLT = 1e-6;
/** A source whose voltage all stands at its terminals gives no current. */
const NO_SHARE = 1e-9;

/**
 * The sources that make an ohm reading between two points void: those that drive current anywhere in the part of the machine the points
 * belong to, and if a point has voltage any source there. An isolated battery whose negative is on the frame is none.
 *
 * @param settled The settled circuit.
 * @param red Node at the red lead.
 * @param black Node at the black lead.
 * @returns Numbers of the parts; empty where the points are dead.
 */
export function liveSources(settled: Settled, red: number, black: number): readonly number[] {
  const { list, solved, values } = settled;
  const islands = new Set([solved.islands[red], solved.islands[black]]);
  const hasVolt =
    Math.abs(voltAcross(solved, red, black)) > NO_VOLT ||
    [red, black].some((node) => Math.abs(voltAcross(solved, node, list.reference)) > NO_VOLT);
  return list.parts.flatMap((part, at) => {
    const from = list.shape.from[at] ?? 0;
    const volt = values.volt[at] ?? 0;
    if (volt === 0 || values.ohm[at] === Infinity || part.control?.kind === "diode") return [];
    if (!islands.has(solved.islands[from])) return [];
    const driving = volt - voltAcross(solved, list.shape.to[at] ?? 0, from);
    return hasVolt || Math.abs(driving) > NO_SHARE * Math.abs(volt) ? [at] : [];
  });
}

/**
 * What to take off so that sources are out of the way, in words: a control unit is unplugged, a battery isolated.
 *
 * @param harness The machine.
 * @param settled The settled circuit.
 * @param sources Numbers of the parts.
 */
export function whatToDisconnect(harness: Harness, settled: Settled, sources: readonly number[]): readonly string[] {
  const owners = new Map<string, string>();
  for (const at of sources) {
    const owner = settled.list.parts[at]?.owner ?? "";
    const id = owner.slice(0, owner.indexOf("."));
    const component = harness.fitted.components.get(id);
    if (!component) continue;
    const plugs = [...harness.fitted.connectors.values()]
      .filter((each) => each.component === id)
      .map((each) => each.id);
    const how =
      plugs.length > 0
        ? `unplug ${plugs.join(" and ")}`
        : component.kind === "battery"
          ? "open the isolator or take the negative cable off"
          : "switch it off";
    owners.set(id, `${id} (${component.label}): ${how}`);
  }
  return [...owners.values()];
}

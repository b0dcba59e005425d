import { addTo, formatCrossSectionMm2, formatQuantity } from "../../base/index.ts";
import { findContinuity, jointId, nodeItem, type ContinuityPair } from "../../connectivity/index.ts";
import type { Harness, HarnessNode } from "../../harness-model/index.ts";
import { isGuarded } from "../../measurement-safety/index.ts";
import { readMeter } from "../../simulation/index.ts";

/** Above so many pairs no limits are calculated: each is a calculation of its own. */
const MOST_LIMITS = 3000;

const HEADINGS = ["No.", "From", "Wires at", "To", "Wires there", "Must show", "Limit", "Found", "Pass or fail"];

/**
 * The continuity table of a harness whose components are disconnected: what must be joined, with the highest resistance of a sound path, and
 * neighbours that must not be joined. Nets that are or may be airbag or high voltage are named and left out.
 *
 * @param harness The harness.
 * @returns Rows of text, the headings first; two blank columns for what is found.
 */
export function continuityTable(harness: Harness): readonly (readonly string[])[] {
  const pairs = findContinuity(harness);
  const limitOf = limits(harness, pairs.length);
  const wires = wiresByPoint(harness);
  const rows = pairs.map((pair, at) => {
    const [from, to] = [harness.nodes[pair.from], harness.nodes[pair.to]];
    const names = [from, to].flatMap((node) =>
      node ? [pointName(node), (wires.get(node.key) ?? []).join(", ")] : ["", ""],
    );
    const isShut = [from, to].some((node) => node && isGuarded(harness, nodeItem(node)));
    const wanted = isShut
      ? ["Do not test: airbag or high voltage, maker's procedure", ""]
      : pair.isJoined
        ? ["Joined", limitOf(pair)]
        : ["OL: not joined", ""];
    return [String(at + 1), ...names, ...wanted, "", ""];
  });
  return [HEADINGS, ...rows];
}

function pointName(node: HarnessNode): string {
  return node.kind === "contact" ? jointId(node) : node.key;
}

/** Numbers, colours and sizes of the wires at each point, by its key. */
function wiresByPoint({ edges, nodes, index }: Harness): ReadonlyMap<string, readonly string[]> {
  const found = new Map<string, string[]>();
  edges.forEach((edge, number) => {
    if (edge.kind !== "wire") return;
    const { id, colour, crossSectionMm2: size } = edge.wire;
    const text = [id, colour, size === undefined ? undefined : formatCrossSectionMm2(size)].filter(
      (part) => part !== undefined,
    );
    for (const end of [index.from[number], index.to[number]]) addTo(found, nodes[end ?? -1]?.key ?? "", text.join(" "));
  });
  return found;
}

/** The highest resistance of a sound path between two points, in words; unknown where the data has no length or conductor size. */
function limits(harness: Harness, count: number): (pair: ContinuityPair) => string {
  const dead = harness.document.states.find(({ conditions }) => conditions.includes("battery-disconnected"));
  if (!dead) return () => "not known: no state with the battery disconnected";
  if (count > MOST_LIMITS) return () => `not calculated: more than ${MOST_LIMITS} pairs`;
  const unplugged = [...harness.fitted.connectors.values()].flatMap(({ id, component }) =>
    component === undefined ? [] : [String(id)],
  );
  const operatingConditions = { state: dead.id, unplugged };
  return ({ from, to, isDimensioned }) => {
    if (!isDimensioned) return "not known: a length or conductor size is missing";
    const [red = "", black = ""] = [from, to].map((number) => harness.nodes[number]?.key);
    const probe = { kind: "resistance", red, black } as const;
    const reading = readMeter(harness, { operatingConditions, probe, compareWith: [] });
    return reading.kind === "value" ? `up to ${formatQuantity(reading.high, "Ω")}` : "not known";
  };
}

import { naturalOrder } from "../../base/index.ts";
import {
  describeColour,
  type Harness,
  type HarnessEdge,
  type HarnessNode,
  type Wire,
} from "../../harness-model/index.ts";
import type { DrillMaker } from "./drill-maker.ts";

/** Which colour continues after this contact or splice? */
export const colourDrills: DrillMaker = {
  kind: "colour",
  starts: (harness) =>
    harness.nodes.flatMap((node, at) => (isJoint(node) && wiresAt(harness, at).length > 0 ? [node.key] : [])),
  draw: (harness, key, random) => {
    const node = harness.nodeNumbers.get(key);
    const wires = node === undefined ? [] : wiresAt(harness, node);
    return wires.length === 0 ? undefined : `${key} ${random.pick(wires).id}`;
  },
  make: (harness, subject) => {
    const [key = "", from = ""] = subject.split(" ");
    const number = harness.nodeNumbers.get(key);
    const node = harness.nodes[number ?? -1];
    const wire = harness.fitted.wires.get(from);
    if (number === undefined || !node || wire?.colour === undefined) return undefined;
    const isMet = wiresAt(harness, number).some((each) => each.id === from);
    const behind = behindJoint(harness, number, from);
    if (!isMet || behind.length === 0 || behind.some((each) => each.colour === undefined)) return undefined;
    const colours = [...new Set(behind.flatMap((each) => each.colour ?? []))];
    const joint = node.kind === "contact" ? `${node.connector.id}:${node.cavity.id}` : key;
    const isChanged = !colours.includes(wire.colour);
    return {
      question: `You follow wire ${from}, ${describeColour(wire.colour)} (${wire.colour}), to ${joint}. Which colour continues after it? Select every colour.`,
      about: [
        { type: "wire", id: from },
        { type: node.kind, id: key },
      ],
      context: {
        kind: "strip",
        path: [
          { type: "wire", id: from },
          { type: node.kind === "contact" ? "contact" : node.kind, id: joint },
        ],
      },
      what: "colour",
      isMany: true,
      accepted: [colours],
      pool: [...new Set([...harness.fitted.wires.values()].flatMap((each) => each.colour ?? []))],
      traps: isChanged
        ? [
            {
              answer: wire.colour,
              why: `The colour changes at ${joint}: a colour belongs to one wire. The cavity number identifies the contact.`,
            },
          ]
        : [],
      why: behind.map((each) => `${each.id} continues in ${describeColour(each.colour ?? "")} (${each.colour}).`),
      points: colours.length + (isChanged ? 3 : 0) + alike(harness, node, wire),
    };
  },
};

/** Which connector comes next along the wires? */
export const nextConnectorDrills: DrillMaker = {
  kind: "next-connector",
  starts: (harness) =>
    harness.nodes.flatMap((node, at) =>
      node.kind === "contact" && node.side.id !== "device" && wiresAt(harness, at).length > 0 ? [node.key] : [],
    ),
  make: (harness, key) => {
    const start = harness.nodeNumbers.get(key);
    const node = harness.nodes[start ?? -1];
    if (start === undefined || node?.kind !== "contact") return undefined;
    const met = metAlongWires(harness, start);
    const connectors = [...new Set(met.flatMap((each) => (each.kind === "contact" ? [each.connector.id] : [])))];
    // A loop back into the same connector has no next one to speak of.
    if (connectors.length === 0 || connectors.some((id) => id === node.connector.id)) return undefined;
    const splices = met.filter((each) => each.kind === "splice").length;
    return {
      question: `From ${key} you follow the wires away from ${node.connector.id}, through splices but not past terminal studs. Which connectors come next? Select every connector.`,
      about: [{ type: "contact", id: key }],
      context: { kind: "drawing", lit: [] },
      what: "connector",
      isMany: true,
      accepted: [connectors],
      pool: [...harness.fitted.connectors.keys()],
      traps: [],
      why: met
        .flatMap((each) => (each.kind === "contact" ? [`The wires lead to ${each.key}.`] : []))
        .sort(naturalOrder),
      points: connectors.length + 2 * splices + alikeAt(harness, start),
    };
  },
};

function isJoint(node: HarnessNode): boolean {
  return node.kind === "contact" ? node.side.id !== "device" : node.kind === "splice";
}

/** Edges of one sort at a node, with the node at their other end. */
function edgesAt(
  harness: Harness,
  node: number,
  kind: HarnessEdge["kind"],
): readonly { edge: HarnessEdge; to: number }[] {
  const { offsets, arcEdges, targets } = harness.index;
  const found: { edge: HarnessEdge; to: number }[] = [];
  for (let arc = offsets[node] ?? 0; arc < (offsets[node + 1] ?? 0); arc++) {
    const edge = harness.edges[arcEdges[arc] ?? -1];
    if (edge?.kind === kind) found.push({ edge, to: targets[arc] ?? -1 });
  }
  return found;
}

function wiresAt(harness: Harness, node: number): readonly Wire[] {
  const wires = edgesAt(harness, node, "wire").flatMap(({ edge }) => (edge.kind === "wire" ? [edge.wire] : []));
  return [...new Set(wires)];
}

/** The wires that continue after a contact or splice: of a contact those of the mated side, of a splice all others. */
function behindJoint(harness: Harness, number: number, from: string): readonly Wire[] {
  if (harness.nodes[number]?.kind === "splice") return wiresAt(harness, number).filter((wire) => wire.id !== from);
  return edgesAt(harness, number, "mating").flatMap(({ to }) => wiresAt(harness, to));
}

/** Other wires of the colour at hand in the same half, 3 at most. */
function alike(harness: Harness, node: HarnessNode, wire: Wire): number {
  if (node.kind !== "contact") return 1;
  const side = node.key.slice(0, node.key.lastIndexOf(":") + 1);
  const nodes = node.connector.cavities.flatMap((cavity) => harness.nodeNumbers.get(side + cavity.id) ?? []);
  const others = nodes.flatMap((number) => wiresAt(harness, number));
  return Math.min(3, others.filter((each) => each.id !== wire.id && each.colour === wire.colour).length);
}

function alikeAt(harness: Harness, number: number): number {
  const node = harness.nodes[number];
  const counts = wiresAt(harness, number).map((wire) => (node ? alike(harness, node, wire) : 0));
  return Math.max(0, ...counts);
}

/** What is met first along the wires: contacts, splices and studs, the start left out; contacts and studs end the walk. */
function metAlongWires(harness: Harness, start: number): readonly HarnessNode[] {
  const found: HarnessNode[] = [];
  const seen = new Set([start]);
  const ring = [start];
  for (const node of ring) {
    for (const { to } of edgesAt(harness, node, "wire")) {
      const met = harness.nodes[to];
      if (!met || seen.has(to)) continue;
      seen.add(to);
      found.push(met);
      if (met.kind === "splice") ring.push(to);
    }
  }
  return found;
}

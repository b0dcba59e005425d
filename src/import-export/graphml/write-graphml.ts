import { harnessGraph, type Harness, type HarnessEdge, type HarnessNode } from "../../harness-model/index.ts";

type Owner = "graph" | "node" | "edge";

interface Key {
  readonly id: string;
  readonly owner: Owner;
  readonly name: string;
  readonly type: "string" | "double";
}

const key = (owner: Owner, name: string, type: Key["type"] = "string"): Key => ({
  id: `${owner[0] ?? ""}_${name}`,
  owner,
  name,
  type,
});

/** What the file says of nodes and edges: name and type are declared at its start. */
const KEYS: readonly Key[] = [
  key("graph", "machine"),
  key("graph", "build"),
  ...[
    "kind",
    "label",
    "connector",
    "side",
    "cavity",
    "component",
    "zone",
    "role",
    "part",
    "terminal",
    "seal",
    "plug",
  ].map((name) => key("node", name)),
  ...["kind", "id", "label", "colour", "net", "harness", "group", "element", "number", "type", "part"].map((name) =>
    key("edge", name),
  ),
  key("edge", "crossSectionMm2", "double"),
  key("edge", "lengthMm", "double"),
];
const IDS: ReadonlyMap<string, string> = new Map(KEYS.map((each) => [`${each.owner} ${each.name}`, each.id]));

/**
 * Writes the graph of a harness in one build as GraphML, for programs that analyse networks: a node for each contact, splice, stud and
 * inner point, an undirected edge for each wire, mating and element.
 *
 * @param harness A machine in one build.
 * @returns The text, with a line end at its end; the same harness gives the same text.
 *
 * Source: The GraphML file format, version 1.0, graphdrawing.org.
 */
export function writeGraphml(harness: Harness): string {
  const { document, build } = harness;
  const graph = harnessGraph(harness);
  const keys = KEYS.map(
    ({ id, owner, name, type }) => `  <key id="${id}" for="${owner}" attr.name="${name}" attr.type="${type}"/>`,
  );
  const lines = [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<graphml xmlns="http://graphml.graphdrawing.org/xmlns" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance" xsi:schemaLocation="http://graphml.graphdrawing.org/xmlns http://graphml.graphdrawing.org/xmlns/1.0/graphml.xsd">',
    ...keys,
    '  <graph id="harness" edgedefault="undirected">',
    ...data("graph", { machine: document.about.machine, build: build.id }).map((line) => `    ${line}`),
    ...graph.mapNodes((_key, { number, node }) => element(`node id="n${number}"`, "node", nodeFacts(node))),
    ...Array.from(graph.edgeEntries(), ({ attributes: { number, edge }, sourceAttributes, targetAttributes }) => {
      const ends = `source="n${sourceAttributes.number}" target="n${targetAttributes.number}"`;
      return element(`edge id="e${number}" ${ends}`, "edge", edgeFacts(edge));
    }),
    "  </graph>",
    "</graphml>",
  ];
  return `${lines.join("\n")}\n`;
}

type Facts = Readonly<Record<string, string | number | undefined>>;

function element(start: string, owner: Owner, facts: Facts): string {
  return `    <${start}>${data(owner, facts).join("")}</${start.split(" ")[0] ?? ""}>`;
}

function data(owner: Owner, facts: Facts): readonly string[] {
  return Object.entries(facts).flatMap(([name, value]) => {
    if (value === undefined) return [];
    return [`<data key="${IDS.get(`${owner} ${name}`) ?? ""}">${escapeText(String(value))}</data>`];
  });
}

function nodeFacts(node: HarnessNode): Facts {
  // The address is the label, as that is how a person asks for a point.
  const common = { kind: node.kind, label: node.key };
  switch (node.kind) {
    case "contact": {
      const { connector, side, cavity } = node;
      const fitted = (side.fitted ?? []).filter((each) => each.cavity === cavity.id);
      const numbers = (what: "terminal" | "seal"): string | undefined =>
        fitted.flatMap((each) => each[what]?.number ?? []).join(", ") || undefined;
      return {
        ...common,
        connector: connector.id,
        side: side.id,
        cavity: cavity.id,
        component: connector.component,
        zone: connector.zone,
        part: side.part?.number,
        terminal: numbers("terminal"),
        seal: numbers("seal"),
      };
    }
    case "splice":
      return { ...common, zone: node.splice.zone, part: node.splice.part?.number };
    case "stud": {
      const { component, zone, role, part } = node.stud;
      return { ...common, component, zone, role, part: part?.number };
    }
    case "open-end":
      return common;
    case "inner":
      return { ...common, component: node.component.id, zone: node.component.zone };
  }
}

function edgeFacts(edge: HarnessEdge): Facts {
  switch (edge.kind) {
    case "wire": {
      const { id, colour, net, harness, group, crossSectionMm2, lengthMm, number, type, part } = edge.wire;
      const more = { number, type, part: part?.number };
      return { kind: edge.kind, id, label: edge.key, colour, net, harness, group, ...more, crossSectionMm2, lengthMm };
    }
    case "mating":
      return { kind: edge.kind, id: edge.key, label: edge.connector.label };
    case "element":
      return {
        kind: edge.kind,
        id: edge.key,
        label: edge.element.label,
        element: edge.element.kind,
        part: edge.element.part?.number,
      };
  }
}

/** Characters that XML cannot hold become the replacement character; a carriage return would be read back as a line feed. */
function escapeText(text: string): string {
  return text
    .replace(/\p{Cc}|\p{Cs}|[\ufffe\uffff]/gu, (character) =>
      /[\t\n\r\u0080-\u009f]/u.test(character) ? character : "\ufffd",
    )
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll("\r", "&#13;");
}

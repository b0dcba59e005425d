import { spawnSync } from "node:child_process";
import { describe, expect, test } from "vitest";
import { encodeUtf8, runReading, writeGraphml } from "ohmward/import-export";
import { fitBuild, type HarnessDocument } from "ohmward/harness-model";
import { readXml } from "../../../src/import-export/xml/read-xml.ts";
import type { XmlElement } from "../../../src/import-export/xml/xml-element.ts";
import { fitDemo, openDemo } from "../../demo-harness/open-demo.ts";

const demo = openDemo();
const NAMESPACE = "http://graphml.graphdrawing.org/xmlns";

function rootOf(text: string): XmlElement {
  const read = runReading(readXml(encodeUtf8(text)));
  if (!read?.ok) throw new Error(read?.error.message ?? "The reading was stopped");
  return read.value.root;
}

const named = (element: XmlElement, name: string): readonly XmlElement[] =>
  element.children.filter((child) => child.name === name);

/**
 * What the schema of GraphML 1.0 asks for, as far as it concerns this file.
 *
 * Source: graphml-structure.xsd and graphml-attributes.xsd, graphdrawing.org: in `graphml` the keys come before the graph; `key` has a
 * unique id, `for` and the typed name; `graph` has `edgedefault`; ids of nodes and edges are unique; ends of edges are nodes; every
 * `data` names a key for its owner.
 */
function faultsOf(root: XmlElement): readonly string[] {
  const faults: string[] = [];
  const order = root.children.map((child) => child.name).join(" ");
  if (root.name !== "graphml" || root.namespace !== NAMESPACE) faults.push("root");
  if (!/^(?:key )*graph$/u.test(order)) faults.push(`order ${order}`);
  const keys = new Map(named(root, "key").map((key) => [key.id, key]));
  if (keys.size !== named(root, "key").length) faults.push("a key is there twice");
  for (const key of keys.values()) {
    if (!["graph", "node", "edge"].includes(key.attributes.get("for") ?? "")) faults.push(`key for ${key.id ?? ""}`);
    if (!["string", "double"].includes(key.attributes.get("attr.type") ?? "")) faults.push(`type of ${key.id ?? ""}`);
  }
  const [graph] = named(root, "graph");
  if (graph?.attributes.get("edgedefault") !== "undirected") faults.push("edgedefault");
  const nodes = new Set(named(graph ?? root, "node").map((node) => node.id));
  const edges = named(graph ?? root, "edge");
  if (nodes.size !== named(graph ?? root, "node").length) faults.push("a node is there twice");
  if (new Set(edges.map((edge) => edge.id)).size !== edges.length) faults.push("an edge is there twice");
  for (const edge of edges) {
    for (const end of ["source", "target"])
      if (!nodes.has(edge.attributes.get(end))) faults.push(`${end} of ${edge.id ?? ""}`);
  }
  for (const owner of [graph, ...(graph?.children ?? [])]) {
    for (const data of owner ? named(owner, "data") : []) {
      const key = keys.get(data.attributes.get("key"));
      if (key?.attributes.get("for") !== owner?.name) faults.push(`data of ${owner?.id ?? ""}`);
      if (key?.attributes.get("attr.type") === "double" && !Number.isFinite(Number(data.text)))
        faults.push(`number ${data.text}`);
    }
  }
  return faults;
}

describe("writeGraphml()", () => {
  test.each(demo.builds.map((build) => build.id))("writes build %s as the schema wants it", (build) => {
    const harness = fitDemo(demo, build);
    const root = rootOf(writeGraphml(harness));
    expect(faultsOf(root)).toEqual([]);
    const [graph] = named(root, "graph");
    expect(graph && named(graph, "node").length).toBe(harness.nodes.length);
    expect(graph && named(graph, "edge").length).toBe(harness.edges.length);
  });

  test("faultsOf() finds planted faults", () => {
    const text = writeGraphml(fitDemo(demo, "base"));
    for (const [old, now] of [
      ['source="n0"', 'source="nowhere"'],
      ['for="edge" attr.name="colour"', 'for="node" attr.name="colour"'],
      ['edgedefault="undirected"', 'edgedefault="both"'],
      ['<node id="n1"', '<node id="n0"'],
    ] as const) {
      expect(text).toContain(old);
      expect(faultsOf(rootOf(text.replace(old, now)))).not.toEqual([]);
    }
  });

  test("gives the same text at every writing", () => {
    expect(writeGraphml(fitDemo(demo, "cold"))).toBe(writeGraphml(fitDemo(openDemo(), "cold")));
  });

  test("keeps signs of XML and line ends, and nothing XML cannot hold", () => {
    const label = 'a & b < c > "d" \u0001 \ud83d\ude00 \ud800 ]]>\r\nend';
    const changed: HarnessDocument = { ...demo, about: { ...demo.about, machine: label } };
    const harness = fitBuild(changed, "base");
    if (!harness) throw new Error("There is no build base");
    const [graph] = named(rootOf(writeGraphml(harness)), "graph");
    expect(graph && named(graph, "data")[0]?.text).toBe('a & b < c > "d" \ufffd \ud83d\ude00 \ufffd ]]>\r\nend');
  });

  test("is read by networkx with the same nodes, edges and pieces (needs networkx)", { timeout: 60_000 }, (ctx) => {
    const python = ["/usr/bin/python3", "python3"].find(
      (name) => spawnSync(name, ["-c", "import networkx"]).status === 0,
    );
    if (python === undefined) {
      ctx.skip("no python3 with networkx found; on Debian: apt-get install python3-networkx");
      return;
    }
    const harness = fitDemo(demo, "base");
    const script = [
      "import sys, json, io, networkx as nx",
      "g = nx.MultiGraph(nx.read_graphml(io.BytesIO(sys.stdin.buffer.read()), force_multigraph=True))",
      "wires = nx.MultiGraph((a, b) for a, b, d in g.edges(data=True) if d['kind'] != 'element')",
      "label = dict(g.nodes(data='label'))",
      "nets = sorted(' '.join(sorted(label[n] for n in net)) for net in nx.connected_components(wires))",
      "mm = sum(d.get('lengthMm', 0) for _, _, d in g.edges(data=True))",
      "print(json.dumps([g.number_of_nodes(), g.number_of_edges(), nets, mm]))",
    ].join("\n");
    const run = spawnSync(python, ["-c", script], { input: writeGraphml(harness), encoding: "utf8", maxBuffer: 1e8 });
    expect(run.stderr).toBe("");
    const [nodes, edges, nets, lengthMm] = JSON.parse(run.stdout) as [number, number, string[], number];
    expect([nodes, edges]).toEqual([harness.nodes.length, harness.edges.length]);
    expect(nets).toEqual(ownNets());
    const wiresMm = [...harness.fitted.wires.values()].reduce((sum, wire) => sum + (wire.lengthMm ?? 0), 0);
    expect(lengthMm).toBe(wiresMm);

    function ownNets(): readonly string[] {
      const { index, edges: all } = harness;
      const piece = harness.nodes.map((_, at) => at);
      const find = (at: number): number => (piece[at] === at ? at : find(piece[at] ?? at));
      const touched = new Set<number>();
      all.forEach((edge, number) => {
        if (edge.kind === "element") return;
        const ends = [index.from[number] ?? 0, index.to[number] ?? 0] as const;
        ends.forEach((end) => touched.add(end));
        piece[find(ends[0])] = find(ends[1]);
      });
      const members = new Map<number, string[]>();
      for (const at of touched) members.set(find(at), [...(members.get(find(at)) ?? []), harness.nodes[at]?.key ?? ""]);
      return [...members.values()].map((keys) => keys.sort().join(" ")).sort();
    }
  });
});

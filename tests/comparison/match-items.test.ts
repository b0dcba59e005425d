import { execFileSync, spawnSync } from "node:child_process";
import { compareHarnesses } from "ohmward/comparison";
import { seededRandom } from "ohmward/base";
import { HarnessDocument } from "ohmward/harness-model";
import { expect, test } from "vitest";
import { renameEverything } from "./support/rename-ids.ts";

/** Wires between studs, all alike but for two colours: the structure alone tells them apart. */
function studsAndWires(seed: number): HarnessDocument {
  const random = seededRandom(seed);
  const count = random.integer(5, 9);
  const label = "Stud";
  const wires = Array.from({ length: count + random.integer(0, 4) }, (_, at) => {
    const from = at < count - 1 ? at + 1 : random.integer(1, count - 1);
    const to = at < count - 1 ? random.integer(0, at) : random.integer(0, from - 1);
    return { id: `W${at}`, ends: [`G${from}`, `G${to}`], colour: random.integer(0, 1) === 0 ? "RD" : "BK" };
  });
  return HarnessDocument.parse({
    format: "ohmward-harness",
    version: 3,
    about: { title: "Studs", machine: "Studs" },
    system: { nominalVolt: 12, wireStandard: "iec-60228-class-5", temperatureC: 20 },
    options: [],
    builds: [{ id: "base", label: "Base", options: [] }],
    ...{ states: [], zones: [], topologyNodes: [], segments: [], components: [], connectors: [], splices: [] },
    ...{ nets: [], adapters: [], codes: [], cautions: [], wires },
    terminalStuds: Array.from({ length: count }, (_, at) => ({ id: `G${at}`, label, role: "terminal" })),
  });
}

// Says of each pair of coloured multigraphs whether some renaming of the nodes makes them the same (VF2).
const PEER = `
import json, sys
import networkx as nx
def graph(wires):
    g = nx.MultiGraph()
    for a, b, c in wires: g.add_edge(a, b, c=c)
    return g
match = nx.algorithms.isomorphism.categorical_multiedge_match("c", None)
print(json.dumps([nx.is_isomorphic(graph(a), graph(b), edge_match=match) for a, b in json.load(sys.stdin)]))
`;

test.skipIf(spawnSync("python3", ["-c", "import networkx"]).status !== 0)(
  "renamed wiring is the same where a graph matcher says so, and not where a wire ends elsewhere (needs networkx)",
  () => {
    const pairs = Array.from({ length: 120 }, (_, seed) => {
      const before = studsAndWires(seed);
      const { document } = renameEverything(structuredClone(before), seededRandom(seed + 1000));
      const after = HarnessDocument.parse(document);
      const wire = after.wires[0];
      const other = after.terminalStuds.find(({ id }) => wire && !wire.ends.includes(id));
      // In every second pair one wire ends elsewhere, which may or may not give the same wiring.
      if (seed % 2 === 1 && wire && other) wire.ends = [wire.ends[0], other.id];
      return [before, after] as const;
    });
    const edges = (document: HarnessDocument) => document.wires.map(({ ends, colour }) => [...ends, colour]);
    const input = JSON.stringify(pairs.map(([before, after]) => [edges(before), edges(after)]));
    const same: unknown = JSON.parse(execFileSync("python3", ["-c", PEER], { input, encoding: "utf8" }));
    const found = pairs.map(([before, after]) =>
      compareHarnesses({ document: before }, { document: after }).changes.every(({ what }) => what === "renamed"),
    );
    const unlike = found.flatMap((is, seed) => (is === (same as boolean[])[seed] ? [] : [seed]));
    expect(unlike).toEqual([]);
    expect(new Set(found).size).toBe(2);
  },
);

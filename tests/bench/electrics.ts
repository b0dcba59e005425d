// Times of the solver and of tables of readings; printed, not judged. Run with: npm run bench -- electrics
import { readFileSync } from "node:fs";
import {
  readMeter,
  readingTable,
  reduceList,
  settle,
  solveCircuit,
  type Fault,
  type TablePair,
} from "ohmward/simulation";
import { endAddresses, fitBuild, openHarness, type Harness } from "ohmward/harness-model";
import { ask, openMachine } from "ohmward/application";
import { generateHarness } from "../generate/generate-harness.ts";
import { findNgspice, runNgspice } from "../references/ngspice/run-ngspice.ts";
import { settledNetwork } from "../references/ngspice/settled-network.ts";
import { writeDeck } from "../references/ngspice/write-deck.ts";
import { lookFromTwoPoints, reduceNetwork, solveNetwork } from "../simulation/support/plain-network.ts";

function time<Value>(label: string, act: () => Value): Value {
  const start = performance.now();
  const value = act();
  console.log(`${label.padEnd(66)} ${(performance.now() - start).toFixed(1).padStart(9)} ms`);
  return value;
}

function fit(text: string, build: string): Harness {
  const opened = openHarness(text);
  if (!opened.ok) throw new Error(opened.error.map((problem) => problem.message).join("\n"));
  const harness = fitBuild(opened.value.document, build);
  if (!harness) throw new Error(`no build ${build}`);
  return harness;
}

function operatingPointIn(harness: Harness, state: string) {
  const answer = solveCircuit(harness, { state });
  if (answer.kind !== "settled") throw new Error(answer.kind);
  return answer;
}

const demo = fit(readFileSync("demo-harness/firnlark-45.ohm.json", "utf8"), "base");
console.log("Demo machine, base build");
operatingPointIn(demo, "KOEO");
const operatingPoint = time("build, settle and solve all, KOEO (warm code)", () => operatingPointIn(demo, "KOEO"));

const wires = [...demo.fitted.wires.keys()].filter((id) => /^W(?:7\d|8\d|9\d)$/u.test(id));
const faults: Fault[] = [
  ...wires.map((of): Fault => ({ kind: "open", of })),
  ...wires.map((of): Fault => ({ kind: "high-resistance", of, ohm: 100 })),
  ...wires.map((of): Fault => ({ kind: "short", of, to: "GND-E1", ohm: 0.1 })),
].slice(0, 89);
const points = [...demo.nodes.entries()].filter(
  ([, node]) => node.kind === "contact" && node.connector.id.startsWith("A1"),
);
const pairs = points.slice(0, 60).map(([, node]): TablePair => ({ kind: "dc-voltage", red: node.key, black: "G2-" }));
const question = {
  operatingConditions: {},
  states: ["OFF", "KOEO", "CRANK", "RUN"],
  faultSets: [[], ...faults.map((fault) => [fault])],
  pairs,
};
const cells = question.states.length * question.faultSets.length * pairs.length;
for (const run of ["cold", "warm", "warm"])
  time(`table of ${cells} readings (${run})`, () => readingTable(demo, question));
time("the same, everything outside the circuit reduced first", () =>
  readingTable(demo, { ...question, reduceAbove: 0 }),
);
const probe = { kind: "dc-voltage", red: "B5.X:1", black: "B5.X:2" } as const;
time("one reading with band and states", () => readMeter(demo, { operatingConditions: { state: "KOEO" }, probe }));

const ngspice = findNgspice();
const network = settledNetwork(operatingPoint);
const { reference } = operatingPoint.list;
const deck = writeDeck("demo machine", [{ name: "d", network, reference }]);
const own = time("solve its deck once, plan and all", () => solveNetwork(network, reference));
if (ngspice) {
  const volts = time(`the same deck in ${ngspice}, with its start`, () => runNgspice(deck));
  console.log(`  ${volts.size} voltages from it, ${own.kind} here`);
} else console.log("ngspice is not installed: no comparison");

const operatingConditions = { state: "RUN" };
for (const wireCount of [2000, 20_000]) {
  console.log(`\nGenerated harness of ${wireCount} wires`);
  const harness = fit(JSON.stringify(generateHarness({ seed: 45, wires: wireCount })), "full");
  const big = time("build, settle and solve all (cold)", () => operatingPointIn(harness, "RUN"));
  console.log(`  ${big.list.parts.length} parts, ${big.list.shape.nodeCount} nodes`);
  const whole = settledNetwork(big);
  time("plan, factor and solve once", () => solveNetwork(whole, big.list.reference));
  time("settle again, plan kept", () => settle(big.list));
  const start =
    [...harness.nodes.entries()].find(([, node]) => node.kind === "contact" && node.key.startsWith("B1."))?.[0] ?? 0;
  const circuit = new Set([start]);
  for (const node of circuit) {
    if (circuit.size >= 36) break;
    for (let arc = harness.index.offsets[node] ?? 0; arc < (harness.index.offsets[node + 1] ?? 0); arc++)
      circuit.add(harness.index.targets[arc] ?? 0);
  }
  const nodes = [...circuit].slice(0, 36);
  time("reduce everything outside 36 nodes", () => reduceNetwork(whole, nodes));
  const reduced = time("the same, with what belongs to the circuit", () => reduceList(big, nodes));
  console.log(`  ${reduced.parts.length} parts, ${reduced.shape.nodeCount} nodes`);
  time("settle the reduced circuit", () => settle(reduced));
  time("look from two points", () => lookFromTwoPoints(whole, start, big.list.reference));
  const near = nodes.flatMap((node) => harness.nodes[node]?.key ?? []);
  const wiresNear = [...harness.fitted.wires.values()].filter((wire) =>
    endAddresses(wire).some((end) => near.some((key) => key.startsWith(end.split(":")[0] ?? "?"))),
  );
  const sets = [[], ...wiresNear.slice(0, 89).map((wire): Fault[] => [{ kind: "open", of: wire.id }])];
  const bigPairs = near.map((red): TablePair => ({ kind: "dc-voltage", red, black: "G1-" }));
  time(`table of ${sets.length} fault sets, ${bigPairs.length} pairs, 1 state`, () =>
    readingTable(harness, { operatingConditions: {}, states: ["RUN"], faultSets: sets, pairs: bigPairs }),
  );
  time(`table of ${sets.length} fault sets, ${bigPairs.length} pairs, 4 states`, () =>
    readingTable(harness, {
      operatingConditions: {},
      states: ["ISOLATED", "OFF", "KEY-ON", "RUN"],
      faultSets: sets,
      pairs: bigPairs,
    }),
  );
  const document = generateHarness({ seed: 45, wires: wireCount });
  // Relays with diodes beside their coils: whether they conduct is asked with every reading.
  for (const { elements } of document.components)
    for (const element of elements) if (element.kind === "coil") element.suppressor = { kind: "diode" };
  const text = JSON.stringify(document);
  const withDiodes = fit(text, "full");
  const probe = { kind: "dc-voltage", red: near[0] ?? "", black: "G1-" } as const;
  time("with diodes: first reading, band, one state (cold)", () =>
    readMeter(withDiodes, { operatingConditions, probe, compareWith: [] }),
  );
  time("the same circuit again, another point", () =>
    readMeter(withDiodes, { operatingConditions, probe: { ...probe, red: near[1] ?? "" }, compareWith: [] }),
  );
  time("compared with all 4 states (cold for 3 of them)", () => readMeter(withDiodes, { operatingConditions, probe }));
  const opened = openMachine(text);
  if (!opened.ok) throw new Error("the harness does not open");
  const setting = { build: "full", state: "RUN" };
  ask(opened.value, setting, { kind: "test-points", item: "B1" });
  const table = time("table of a circuit, with leads (cold but for the trace and what may be touched)", () =>
    ask(opened.value, setting, { kind: "table", item: "B1" }),
  );
  if (table.kind === "table") console.log(`  ${table.legs.flatMap(({ rows }) => rows).length} rows`);
  time("the same again", () => ask(opened.value, setting, { kind: "table", item: "B1" }));
}

// npm run bench: loading and asking, on generated harnesses of four sizes; figures and ratios, never a test.
// `--json <file>` writes the figures as data, `--sizes 100,2000` chooses sizes.
import { writeFileSync } from "node:fs";
import { cpus } from "node:os";
import { parseArgs } from "node:util";
import { benchLoad, type LoadFigures } from "./parts/load.ts";
import { benchPeers, type PeerFigures } from "./parts/peers.ts";
import { benchQuestions, type QuestionFigures } from "./parts/questions.ts";
import { printTable, showRatio, showTime, type Row } from "./parts/table.ts";

interface SizeFigures {
  readonly load: LoadFigures;
  readonly questions: readonly QuestionFigures[];
  readonly peers: readonly PeerFigures[];
  readonly networkx: string;
}

const { values } = parseArgs({
  options: { json: { type: "string" }, sizes: { type: "string", default: "100,2000,20000,100000" } },
});
const sizes = values.sizes.split(",").map(Number);
const all = sizes.map((wires): SizeFigures => {
  const runs = wires <= 100 ? 25 : wires <= 2000 ? 11 : wires <= 20_000 ? 5 : 3;
  console.log(`${wires} wires ...`);
  const { figures: load, harness } = benchLoad(wires, runs);
  const { figures: peers, networkx } = benchPeers(harness, runs);
  return { load, questions: benchQuestions(harness, 40), peers, networkx };
});

const columns = all.map(({ load }) => `${load.wires} wires`);
const rows = <Figures>(
  of: (size: SizeFigures) => Figures,
  cells: readonly (readonly [string, (figures: Figures) => string])[],
): Row[] => cells.map(([name, cell]) => ({ name, cells: all.map((size) => cell(of(size))) }));

printTable(
  "Loading, median",
  columns,
  rows(
    ({ load }) => load,
    [
      ["text", (load) => `${(load.characters / 1e6).toPrecision(3)} MB`],
      ["graph nodes", (load) => String(load.nodes)],
      ["graph edges", (load) => String(load.edges)],
      ["JSON.parse", (load) => showTime(load.parseMs)],
      ["JSON.parse and shape", (load) => showTime(load.parseAndShapeMs)],
      ["openHarness", (load) => showTime(load.openMs)],
      ["  against parse and shape (aim: below 3)", (load) => showRatio(load.openRatio)],
      ["fitBuild", (load) => showTime(load.fitMs)],
      ["  with the typed graph made at once", (load) => showTime(load.eagerMs)],
      ["  against that (aim: at most 0.5)", (load) => showRatio(load.fitRatio)],
      ["  the index alone", (load) => showTime(load.indexMs)],
      ["heap of an opened, fitted harness", (load) => `${(load.heapBytes / 1e6).toPrecision(3)} MB`],
    ],
  ),
);

const names = all[0]?.questions.map(({ name }) => name) ?? [];
printTable(
  "Questions (aim: between below 1 ms at 20,000 wires)",
  columns,
  names.flatMap((name): Row[] => {
    const figures = all.map(({ questions }) => questions.find((question) => question.name === name));
    const cells = (of: (figures: QuestionFigures) => number): string[] =>
      figures.map((each) => showTime(each ? of(each) : NaN));
    return [
      { name: `${name}, first`, cells: cells((each) => each.firstMs) },
      { name: "  later, median", cells: cells((each) => each.later.median) },
      { name: "  later, 95 of 100", cells: cells((each) => each.later.p95) },
    ];
  }),
);

const works = all[0]?.peers.map(({ name }) => name) ?? [];
printTable(
  `The same work by peers (${all[0]?.networkx ?? ""})`,
  columns,
  works.flatMap((name): Row[] => {
    const figures = all.map(({ peers }) => peers.find((peer) => peer.name === name));
    const cells = (of: (figures: PeerFigures) => string): string[] => figures.map((each) => (each ? of(each) : "-"));
    return [
      { name, cells: cells((each) => showTime(each.oursMs)) },
      { name: "  graphology takes", cells: cells((each) => showRatio(each.graphologyMs / each.oursMs)) },
      { name: "  networkx takes", cells: cells((each) => showRatio(each.networkxMs / each.oursMs)) },
    ];
  }),
);

if (values.json !== undefined) {
  const machine = { node: process.version, processor: cpus()[0]?.model ?? "unknown", cores: cpus().length };
  writeFileSync(values.json, `${JSON.stringify({ machine, sizes: all }, undefined, 2)}\n`);
  console.log(`\nFigures written to ${values.json}`);
}

// npm run bench comparison: two revisions of a machine, with their ids and with all ids new, against JSON.parse of both files in the same run.
// Figures, never a test.
import { compareHarnesses } from "ohmward/comparison";
import type { HarnessDocument } from "ohmward/harness-model";
import { changeMachine } from "../comparison/support/change-machine.ts";
import { generateHarness } from "../generate/generate-harness.ts";
import { measure } from "./parts/measure.ts";
import { printTable, showRatio, showTime } from "./parts/table.ts";

const RUNS = 3;

const sizes = [2000, 20_000];
const figures = sizes.flatMap((wires) =>
  [false, true].map((renameAll) => {
    const { before, after } = changeMachine(generateHarness({ seed: 5, wires }), 7, { works: 40, renameAll });
    const texts = [JSON.stringify(before), JSON.stringify(after)];
    const parse = (): HarnessDocument[] => texts.map((text) => JSON.parse(text) as HarnessDocument);
    const [left, right] = parse();
    if (!left || !right) throw new Error("No documents");
    const parseMs = measure(RUNS, parse).median;
    const compareMs = measure(RUNS, () => compareHarnesses({ document: left }, { document: right })).median;
    return { name: `${wires} wires${renameAll ? ", ids new" : ""}`, parseMs, compareMs };
  }),
);
printTable(
  "What changed: 40 works (aim: 20,000 wires in at most 2 s)",
  figures.map(({ name }) => name),
  [
    { name: "JSON.parse of both", cells: figures.map(({ parseMs }) => showTime(parseMs)) },
    { name: "compareHarnesses", cells: figures.map(({ compareMs }) => showTime(compareMs)) },
    { name: "  against JSON.parse", cells: figures.map(({ parseMs, compareMs }) => showRatio(compareMs / parseMs)) },
  ],
);

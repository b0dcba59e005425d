// npm run bench formats: reading large files, against one plain pass over the same bytes in the same run. Figures, never a test.
// With OHMWARD_STANDARD_FILES set, a published harness is repeated until it has 20 MB; without it, the excerpt of the demo machine is.
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { SaxesParser } from "saxes";
import {
  csvReader,
  kblReader,
  parseCsv,
  readerOf,
  runReading,
  type FormatReader,
  type ReadResult,
} from "ohmward/import-export";
import { readXml } from "../../src/import-export/xml/read-xml.ts";
import { heapBytes, measure } from "./parts/measure.ts";
import { printTable, showRatio, showTime } from "./parts/table.ts";

const KBL_BYTES = 20_000_000;
const CSV_ROWS = 100_000;
const RUNS = 3;

interface Figures {
  readonly megabytes: number;
  readonly items: string;
  readonly plainMs: number;
  readonly treeMs: number | undefined;
  readonly readMs: number;
  readonly heapMb: number;
  readonly steps: number;
  readonly longestStepMs: number;
}

/** The same harness again and again in one file: what stands inside the root, each time with names of its own. */
function repeatKbl(text: string, bytes: number): { readonly text: string; readonly copies: number } {
  const start = text.indexOf(">", text.indexOf("KBL_container")) + 1;
  const end = text.lastIndexOf("</");
  const inside = text.slice(start, end);
  const ids = new Set([...inside.matchAll(/ id="([^"]*)"/gu)].map((match) => match[1] ?? ""));
  const copies = Math.max(1, Math.round(bytes / inside.length));
  let all = text.slice(0, start);
  for (let copy = 0; copy < copies; copy++) {
    // One set of configurations is enough: builds of every copy would be judged with every other.
    const once = copy === 0 ? inside : inside.replace(/<Harness_configuration[\s\S]*?<\/Harness_configuration>/gu, "");
    all += once
      .replace(/ id="([^"]*)"/gu, ` id="$1_${copy}"`)
      .replace(/>([^<>]+)</gu, (whole, body: string) => {
        const words = body.split(/\s+/u).filter((word) => word !== "");
        const isReference = words.length > 0 && words.every((word) => ids.has(word));
        return isReference ? `>${words.map((word) => `${word}_${copy}`).join(" ")}<` : whole;
      })
      // Names for people are told apart too, as they are in files of several harnesses.
      .replace(/<(Id|Part_number|Signal_name)>([^<]*)</gu, `<$1>$2.${copy}<`);
  }
  return { text: all + text.slice(end), copies };
}

function wireTable(rows: number): string {
  let text = "Wire;From;To;Colour;mm2;Length mm;Net\n";
  for (let row = 0; row < rows; row++) {
    const connector = Math.floor(row / 40);
    text += `W${row};X${connector}:${(row % 40) + 1};Y${connector}:${(row % 40) + 1};WH/RD;0,75;${500 + (row % 900)};N${row}\n`;
  }
  return text;
}

/** One pass of the parser below, with nothing done to what it reports. */
function plainXmlPass(bytes: Uint8Array): number {
  const parser = new SaxesParser<{ xmlns: false }>({ xmlns: false });
  let events = 0;
  parser.on("opentag", () => void (events += 1));
  parser.on("text", () => void (events += 1));
  const text = new TextDecoder().decode(bytes);
  for (let at = 0; at < text.length; at += 65_536) parser.write(text.slice(at, at + 65_536));
  parser.close();
  return events;
}

function bench(
  bytes: Uint8Array,
  reader: FormatReader,
  given: { readonly fileName: string; readonly plain: () => unknown; readonly tree?: () => unknown },
): Figures {
  const plainMs = measure(RUNS, given.plain).median;
  const treeMs = given.tree && measure(RUNS, given.tree).median;
  const steps: number[] = [];
  const before = heapBytes();
  let most = 0;
  const read = measure(RUNS, (run): ReadResult => {
    let last = performance.now();
    const result = runReading(reader.read(bytes, { fileName: given.fileName, mostBytes: 2 * bytes.length }), () => {
      const now = performance.now();
      if (run === 0) steps.push(now - last);
      last = now;
      most = Math.max(most, process.memoryUsage().heapUsed);
      return true;
    });
    if (run === 0) steps.push(performance.now() - last);
    most = Math.max(most, process.memoryUsage().heapUsed);
    if (!result) throw new Error("The reading was stopped");
    return result;
  });
  const result = read.last;
  if (!result.ok)
    throw new Error(
      result.error
        .slice(0, 5)
        .map((problem) => `${problem.code}: ${problem.message}`)
        .join("\n"),
    );
  const { document } = result.value;
  return {
    megabytes: bytes.length / 1e6,
    items: `${document.wires.length} wires`,
    plainMs,
    treeMs,
    readMs: read.median,
    heapMb: (most - before) / 1e6,
    steps: steps.length,
    longestStepMs: Math.max(...steps),
  };
}

const folder = process.env["OHMWARD_STANDARD_FILES"] ?? "";
const published = join(folder, "kbl", "main-harness.kbl");
const isPublished = folder !== "" && existsSync(published);
const source = readFileSync(isPublished ? published : join("demo-harness", "firnlark-excerpt.kbl"), "utf8");
const kbl = repeatKbl(source, KBL_BYTES);
const kblBytes = new TextEncoder().encode(kbl.text);
const csvBytes = new TextEncoder().encode(wireTable(CSV_ROWS));
console.log(
  `KBL: ${kbl.copies} times ${isPublished ? "a published harness" : "the excerpt of the demo machine"}; CSV: ${CSV_ROWS} rows`,
);

const csvFound = readerOf(csvBytes, "wires.csv");
if (!csvFound.ok || csvFound.value.id !== csvReader.id) throw new Error("The table is not recognised");
const all = [
  bench(kblBytes, kblReader, {
    fileName: "large.kbl",
    plain: () => plainXmlPass(kblBytes),
    tree: () => runReading(readXml(kblBytes)),
  }),
  bench(csvBytes, csvFound.value, { fileName: "wires.csv", plain: () => parseCsv(new TextDecoder().decode(csvBytes)) }),
];

const row = (name: string, cell: (figures: Figures) => string) => ({ name, cells: all.map(cell) });
printTable(
  "Reading, median",
  ["KBL", "CSV"],
  [
    row("file", (figures) => `${figures.megabytes.toPrecision(3)} MB`),
    row("document", (figures) => figures.items),
    row("plain pass of the parser", (figures) => showTime(figures.plainMs)),
    row("guarded tree", (figures) => (figures.treeMs === undefined ? "-" : showTime(figures.treeMs))),
    row("  against the plain pass", (figures) => showRatio((figures.treeMs ?? NaN) / figures.plainMs)),
    row("whole reading, checks included", (figures) => showTime(figures.readMs)),
    row("  against the plain pass", (figures) => showRatio(figures.readMs / figures.plainMs)),
    row("most memory above the start", (figures) => `${figures.heapMb.toPrecision(3)} MB`),
    row("steps in which it can be stopped", (figures) => String(figures.steps)),
    row("longest step", (figures) => showTime(figures.longestStepMs)),
  ],
);

import {
  buildGraphIndex,
  fitBuild,
  harnessGraph,
  HarnessDocument,
  openHarness,
  type Harness,
} from "ohmward/harness-model";
import { harnessText } from "../../generate/harness-text.ts";
import { heapBytes, measure } from "./measure.ts";

/** Times of loading a harness, in ms, and what it weighs. */
export interface LoadFigures {
  readonly wires: number;
  readonly characters: number;
  readonly nodes: number;
  readonly edges: number;
  readonly parseMs: number;
  readonly parseAndShapeMs: number;
  readonly openMs: number;
  /** Opening against parsing and checking the shape alone: what all the other checks cost. */
  readonly openRatio: number;
  readonly fitMs: number;
  /** Fitting with the typed graph made at once, as the peer does it. */
  readonly eagerMs: number;
  /** Fitting against the peer. */
  readonly fitRatio: number;
  readonly indexMs: number;
  readonly heapBytes: number;
}

/** Loads a generated harness several times. */
export function benchLoad(wires: number, runs: number): { readonly figures: LoadFigures; readonly harness: Harness } {
  const text = harnessText({ seed: 45, wires });
  const parse = measure(runs, () => JSON.parse(text) as unknown);
  const shape = measure(runs, () => HarnessDocument.safeParse(JSON.parse(text)).success);
  const open = measure(runs, () => openHarness(text));
  if (!shape.last || !open.last.ok) throw new Error("The generated harness does not open");
  const { document } = open.last.value;
  const fit = measure(runs, () => fitBuild(document, "full"));
  const eager = measure(runs, () => {
    const made = fitBuild(document, "full");
    return made && harnessGraph(made);
  });
  const harness = fit.last;
  if (!harness) throw new Error("The generated harness has no build full");
  const { index, nodes, edges } = harness;
  const ends = { from: [...index.from], to: [...index.to] };
  const again = measure(runs, () => buildGraphIndex(nodes.length, ends.from, ends.to));
  const figures: LoadFigures = {
    wires,
    characters: text.length,
    nodes: nodes.length,
    edges: edges.length,
    parseMs: parse.median,
    parseAndShapeMs: shape.median,
    openMs: open.median,
    openRatio: open.median / shape.median,
    fitMs: fit.median,
    eagerMs: eager.median,
    fitRatio: fit.median / eager.median,
    indexMs: again.median,
    heapBytes: weigh(text),
  };
  return { figures, harness };
}

/** Heap that an opened and fitted harness holds, beyond its text. */
function weigh(text: string): number {
  const before = heapBytes();
  const opened = openHarness(text);
  const harness = opened.ok ? fitBuild(opened.value.document, "full") : undefined;
  const after = heapBytes();
  if (!harness) throw new Error("The generated harness does not open");
  return after - before;
}

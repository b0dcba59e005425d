import { fitBuild, openHarness } from "ohmward/harness-model";
import { generateHarness } from "../../generate/generate-harness.ts";

/** A bare graph: edge i joins `from[i]` to `to[i]`. */
export interface SourceGraph {
  readonly nodeCount: number;
  readonly from: readonly number[];
  readonly to: readonly number[];
  /** The edges that are the inside of a component; the others are wires and mated contacts. */
  readonly elements: readonly number[];
}

/**
 * The graphs that the reference is about: generated harness documents of 20 to 60 wires, fitted in one of their builds.
 * The one place to change when the graphs shall come from elsewhere.
 *
 * @param seed number of the graph, from 1, which also fixes what is in it
 * @returns the bare graph; the same for the same seed
 * @throws Error if a generated document does not open
 */
export function sourceGraph(seed: number): SourceGraph {
  const opened = openHarness(JSON.stringify(generateHarness({ seed, wires: 20 + ((seed * 7) % 41) })));
  if (!opened.ok)
    throw new Error(`Generated harness ${seed} does not open: ${opened.error.map(({ code }) => code).join()}`);
  const { builds } = opened.value.document;
  const harness = fitBuild(opened.value.document, builds[seed % builds.length]?.id ?? "");
  if (!harness) throw new Error(`Generated harness ${seed} has no build`);
  const { index, edges } = harness;
  const elements = edges.flatMap((edge, number) => (edge.kind === "element" ? [number] : []));
  return { nodeCount: index.nodeCount, from: [...index.from], to: [...index.to], elements };
}

import { expect, test } from "vitest";
import { fitBuild, openHarness } from "ohmward/harness-model";
import { findProbePoints } from "ohmward/measurement-safety";
import { generateHarness } from "../generate/generate-harness.ts";

test("findProbePoints() stays quick on 20,000 wires", () => {
  const opened = openHarness(JSON.stringify(generateHarness({ seed: 3, wires: 20_000 })));
  if (!opened.ok) throw new Error("The generated harness has problems");
  const harness = fitBuild(opened.value.document, "full");
  const state = opened.value.document.states[0];
  if (!harness || !state) throw new Error("The generated harness has no build or state");
  const times: number[] = [];
  for (let node = 0; node < harness.nodes.length; node += Math.ceil(harness.nodes.length / 60)) {
    const before = performance.now();
    const { points, refused } = findProbePoints(harness, { nodes: [node] }, state);
    times.push(performance.now() - before);
    if (harness.nodes[node]?.kind !== "inner") expect(points.length + refused.length).toBeGreaterThan(0);
  }
  // The first question reads the harness once; the others are judged by their median, so that a busy computer fails no test.
  const sorted = times.slice(1).toSorted((a, b) => a - b);
  expect(sorted.length).toBeGreaterThan(50);
  expect(sorted[sorted.length >> 1]).toBeLessThan(50);
}, 60_000);

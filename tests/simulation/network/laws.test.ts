import { describe, expect, test } from "vitest";
import { seededRandom } from "ohmward/base";
import { fitBuild, openHarness } from "ohmward/harness-model";
import { demoText, fitDemo, openDemo } from "../../demo-harness/open-demo.ts";
import { operatingPointIn } from "../support/small-machine.ts";

const document = openDemo();

describe("the demo machine", () => {
  test("has the same voltages with its wires renamed and everything listed in another order", () => {
    const random = seededRandom(45);
    // Wires W01 to W124 become Q01 to Q124, which nothing else is called.
    const renamed: unknown = JSON.parse(
      demoText("firnlark-45.ohm.json").replaceAll(/"W(\d{2,3})"/gu, '"Q$1"'),
      (_key, value: unknown) =>
        Array.isArray(value) &&
        value.every((each) => typeof each === "object" && each !== null && "id" in each && "ends" in each)
          ? random.shuffle(value as unknown[])
          : value,
    );
    const opened = openHarness(JSON.stringify(renamed));
    if (!opened.ok) throw new Error(opened.error.map(({ message }) => message).join("\n"));
    const other = fitBuild(opened.value.document, "cold-tiller");
    if (!other) throw new Error("no build");
    const plain = fitDemo(document, "cold-tiller");
    expect(plain.fitted.wires.has("W78") && other.fitted.wires.has("Q78")).toBe(true);
    for (const { id: state } of document.states) {
      const [first, second] = [operatingPointIn(plain, { state }), operatingPointIn(other, { state })];
      plain.nodes.forEach((node, number) => {
        const twin = other.nodeNumbers.get(node.key) ?? -1;
        const isTied = first.solved.islands[number] === first.solved.islands[first.list.reference];
        expect(second.solved.islands[twin] === second.solved.islands[second.list.reference]).toBe(isTied);
        if (isTied)
          expect(Math.abs((second.solved.volts[twin] ?? 0) - (first.solved.volts[number] ?? 0))).toBeLessThan(1e-9);
      });
    }
  });

  test.each(document.states.map(({ id }) => id))("has no current left over at any node in %s", (state) => {
    for (const build of document.builds) {
      const { list, values, solved } = operatingPointIn(fitDemo(document, build.id), { state });
      const left = new Map<number, number>();
      const add = (node: number, ampere: number): void => void left.set(node, (left.get(node) ?? 0) + ampere);
      list.parts.forEach((_, at) => {
        const [from, to, ohm] = [list.shape.from[at] ?? 0, list.shape.to[at] ?? 0, values.ohm[at] ?? 0];
        if (ohm === Infinity) return;
        // A copper bar without resistance makes one node of its two ends.
        const joint = solved.planned.clusters.ofNode;
        const ampere =
          ohm === 0 ? 0 : ((solved.volts[from] ?? 0) - (solved.volts[to] ?? 0) + (values.volt[at] ?? 0)) / ohm;
        add(joint[from] ?? 0, -ampere);
        add(joint[to] ?? 0, ampere);
      });
      // Rounding of 12.65 V over a cable of 0.05 mohm is 4e-11 A.
      for (const ampere of left.values()) expect(Math.abs(ampere)).toBeLessThan(1e-9);
    }
  });
});

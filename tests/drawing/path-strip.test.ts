import { pathStrip, type StripBox } from "ohmward/drawing";
import { describeItem, findPaths, resolve, type Resolved } from "ohmward/connectivity";
import { describe, expect, test } from "vitest";
import { demo } from "./demo.ts";

function item(text: string): Resolved {
  const found = resolve(demo, text);
  if (found.kind !== "one") throw new Error(`"${text}" is ${found.kind}`);
  return found.item;
}

function strip(from: string, to: string): readonly StripBox[] {
  const answer = findPaths(demo, [item(from), item(to)]);
  if (answer.kind !== "found") throw new Error(`Nothing joins ${from} and ${to}`);
  return pathStrip(
    demo,
    answer.path.map((item) => describeItem(demo, item)),
    answer.mustPass.map((item) => item.id),
  );
}

describe("pathStrip()", () => {
  test("tells colour in letters, words, swatch and hatching, with size and length", () => {
    const wire = strip("A1.X1:36", "B3.X:3").find((box) => box.type === "wire");
    expect(wire?.mark).toMatchObject({
      letters: "WH/RD",
      name: "white with red stripe",
      hatch: "plain",
      tracerDash: [1.6, 1.6],
    });
    expect([wire?.title, wire?.lines, wire?.isMustPass]).toEqual(["W89", ["0.5 mm², 1.06 m"], true]);
  });

  test("names both halves of a contact in the order of the way", () => {
    const forth = strip("A1.X1:36", "B3.X:3").flatMap((box) => (box.sides ? [box.sides] : []));
    expect(forth).toEqual([
      ["device", "harness"],
      ["harness", "device"],
    ]);
    const inline = (boxes: readonly StripBox[]): StripBox | undefined => boxes.find((box) => box.id === "XC1:2");
    expect(inline(strip("SP3", "A3.X2:2"))?.sides).toEqual(["XC1c:2", "XC1m:2"]);
    expect(inline(strip("A3.X2:2", "SP3"))?.sides).toEqual(["XC1m:2", "XC1c:2"]);
  });

  test("warns where the colour changes at a contact, and only there", () => {
    const boxes = strip("SP3", "A3.X2:2");
    expect(boxes.filter((box) => box.colourChanges).map((box) => box.id)).toEqual(["XC1:2"]);
    expect(strip("A3.X2:1", "S1.X:30").some((box) => box.colourChanges)).toBe(false);
  });

  test("writes the size of small terminals in full", () => {
    expect(strip("A1.X1:36", "B3.X:3")[0]?.lines).toContain("terminal 0.64 mm");
  });
});

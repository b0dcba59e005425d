import { describe, expect, test } from "vitest";
import { pointsByCavity, refusalsByRule, voltageFirst } from "ohmward/application";
import { askDemo, demo } from "./demo-machine.ts";

const setting = { build: "base", state: "KOEO" };
const harness = demo.harness("base");
if (!harness) throw new Error("The demo machine has no base build");
const points = (item: string) => askDemo("test-points", { kind: "test-points", item }, setting);

describe("pointsByCavity()", () => {
  test("has a row for every cavity of the connector that has a contact, in natural order", () => {
    const rows = pointsByCavity(harness, points("A1.X1"));
    // From the document itself: cavities that a fitted wire ends at.
    const wired = new Set(
      [...harness.fitted.wires.values()].flatMap(({ ends }) =>
        ends.flatMap((end) =>
          end?.startsWith("A1.X1.harness:") || end?.startsWith("A1.X1:") ? [end.split(":")[1]] : [],
        ),
      ),
    );
    const shown = rows.map(({ cavity }) => cavity.split(":")[1]);
    for (const cavity of wired) expect(shown).toContain(cavity);
    expect(shown).toEqual(shown.toSorted((a, b) => Number(a) - Number(b)));
  });

  test("puts every point in the row of its own cavity, what gives a voltage before a clamp", () => {
    for (const { cavity, points: list } of pointsByCavity(harness, points("B3"))) {
      const [connector = "", pin = ""] = cavity.split(":");
      expect(connector).toBe("B3.X");
      for (const point of list)
        expect([point.between[0], point.at]).toEqual(
          expect.arrayContaining([expect.stringMatching(new RegExp(`^B3\\.X(\\.harness)?:${pin}$`, "u"))]),
        );
      const clamps = list.map(({ method }) => method === "clamp");
      expect(clamps).toEqual(clamps.toSorted((a, b) => Number(a) - Number(b)));
    }
  });

  test("has no rows for one pin", () => {
    expect(pointsByCavity(harness, points("B3.X:3"))).toEqual([]);
  });
});

test("voltageFirst() keeps the order but for clamps", () => {
  const answer = points("B3.X:3");
  expect(voltageFirst(answer.points).map((point) => point.class)).toEqual(["P2", "P2", "P3", "P0"]);
});

test("refusalsByRule() tells each rule once and loses no refusal", () => {
  const { refused } = points("A1.X1");
  const rules = refusalsByRule(refused);
  expect(rules.flatMap((each) => each.refused)).toHaveLength(refused.length);
  expect(new Set(rules.map(({ rule, reason }) => rule + reason)).size).toBe(rules.length);
  expect(rules.map((each) => each.refused.length)).toEqual(
    rules.map((each) => each.refused.length).toSorted((a, b) => b - a),
  );
});

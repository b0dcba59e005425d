import { describe, expect, test } from "vitest";
import { sideKey, lookUpPoint, pointKey, type AddressUse } from "ohmward/harness-model";
import { baseDocument, fitted } from "./support.ts";

const { book, document } = fitted(baseDocument(), "cold");
const component = document.components.find((each) => each.id === "A3");
if (!component) throw new Error("The base document has no A3");
const wire: AddressUse = { by: "wire" };
const element: AddressUse = { by: "element", component };

describe("lookUpPoint()", () => {
  test.each<[string, AddressUse, string]>([
    ["A3.X1:1", wire, "A3.X1.harness:1"],
    ["A3.X1:1", element, "A3.X1.device:1"],
    ["A3.X1.device:1", wire, "A3.X1.device:1"],
    ["A3.X1.harness:1", element, "A3.X1.harness:1"],
    ["XC1m:3", wire, "XC1m:3"],
    ["XC1.c:3", wire, "XC1c:3"],
    ["SP1", wire, "SP1"],
    ["G1+", wire, "G1+"],
    ["#in", element, "A3#in"],
  ])("finds %s asked by a %o as %s", (address, use, key) => {
    const point = lookUpPoint(book, address, use);
    expect(point.kind === "none" ? point.reason : pointKey(point)).toBe(key);
  });

  test.each<[string, AddressUse, string]>([
    ["", wire, "no cavity, splice or terminal stud has this address"],
    ["W1", wire, "no cavity, splice or terminal stud has this address"],
    ["A3", wire, "no cavity, splice or terminal stud has this address"],
    ["toString", wire, "no cavity, splice or terminal stud has this address"],
    ["__proto__:1", wire, 'there is no connector "__proto__"'],
    ["A3.X1", wire, "the cavity is missing"],
    ["XC1m", wire, "the cavity is missing"],
    ["A3.X1:", wire, '"A3.X1" has no cavity ""'],
    ["A3.X1:constructor", wire, '"A3.X1" has no cavity "constructor"'],
    [":1", wire, 'there is no connector ""'],
    ["A3.X1:1:1", wire, 'there is no connector "A3.X1:1"'],
    ["XC1:1", wire, '"XC1" has several sides. Name one: XC1m, XC1c'],
    ["#in", wire, "a wire cannot end inside a component"],
  ])("says of %j asked by a %o: %s", (address, use, reason) => {
    expect(lookUpPoint(book, address, use)).toEqual({ kind: "none", reason });
  });

  test("finds every node of the graph again by its key", () => {
    const harness = fitted(baseDocument(), "cold");
    for (const node of harness.nodes) {
      if (node.kind === "inner") continue;
      const point = lookUpPoint(book, node.key, wire);
      expect(point.kind === "none" ? point.reason : pointKey(point)).toBe(node.key);
    }
  });
});

test("halfKey() writes the short name where there is one", () => {
  const keys = document.connectors.flatMap((connector) => connector.sides.map((side) => sideKey(connector, side)));
  expect(keys.slice(0, 4)).toEqual(["A3.X1.harness", "A3.X1.device", "XC1m", "XC1c"]);
});

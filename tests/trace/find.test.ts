import { describe, expect, it } from "vitest";
import { find } from "ohmward/trace";
import { demo } from "./ask-demo.ts";

const harness = demo();
const first = (text: string): string | undefined => find(harness, text)[0]?.item.id;

describe("find", () => {
  it.each([
    ["an id", "SP13", "SP13"],
    ["a label in any word order", "sensor rail", "B3"],
    ["a typing slip", "coolent", "B5"],
    ["a transposed letter", "presure", undefined],
    ["a cavity and its connector", "pin 36 A1.X1", "A1.X1:36"],
    ["the connector first", "a1.x1 36", "A1.X1:36"],
  ])("finds by %s", (_, text, id) => {
    const hit = first(text);
    if (id === undefined) expect(hit).toBeDefined();
    else expect(find(harness, text).map((each) => each.item.id)).toContain(id);
  });

  it("finds wires by colour and size, with decimal comma and unit", () => {
    for (const text of ["wh/rd 0.5", "0,5 wh/rd", "WH/RD 0.5mm²", "white red 0.5 mm2"]) {
      expect(find(harness, text, { limit: 50 }).map((hit) => hit.item.id)).toContain("W89");
    }
  });

  it("finds codes", () => {
    const code = harness.document.codes[0];
    expect(code && find(harness, code.id)[0]?.item).toEqual({ type: "code", id: code?.id });
  });

  it("wants every word to match", () => {
    expect(find(harness, "rail zebra")).toEqual([]);
  });

  it("returns nothing for nothing, and bears a long text", () => {
    expect(find(harness, "   ")).toEqual([]);
    expect(find(harness, "x".repeat(100_000))).toEqual([]);
  });

  it("orders equal hits naturally and keeps the limit", () => {
    const wires = find(harness, "wire", { limit: 5 }).map((hit) => hit.item.id);
    expect(wires).toEqual(["C01", "C02", "C03", "C04", "C05"]);
  });

  it("does not list what is not fitted", () => {
    expect(find(harness, "W25").some((hit) => hit.item.id === "W25")).toBe(false);
    expect(find(demo("tiller"), "W25")[0]?.item.id).toBe("W25");
  });
});

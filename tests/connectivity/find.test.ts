import { describe, expect, it } from "vitest";
import { fitBuild } from "ohmward/harness-model";
import { find, resolve } from "ohmward/connectivity";
import { readGood } from "../import-export/support/read-file.ts";
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

  // What an electrician types; common practice, no source.
  it.each([
    ["fuse 7", "A3.F7"],
    ["f7", "A3.F7"],
    ["relay 3", "A3.K3"],
    ["ecu 36", "A1.X1:36"],
    ["a1 36", "A1.X1:36"],
    ["A1.X1:36", "A1.X1:36"],
    ["pin 36 ecu", "A1.X1:36"],
    ["b3", "B3"],
    ["rail", "B3"],
    ["rail pressure", "B3"],
    ["w89", "W89"],
    ["sp13", "SP13"],
    ["FE111", "FE111"],
    ["520301/3", "FE111"],
    ["injector 2", "Y2"],
    ["injector", "Y1"],
    ["ground engine", "GND-E1"],
    ["earth engine", "GND-E1"],
    ["can high", "CAN-H"],
    ["bulkhead", "XC1"],
  ])("%s finds %s first", (text, id) => {
    expect(first(text)).toBe(id);
  });

  it.each(["wh/rd", "white red", "wh rd 0.5"])("%s finds wires before the contacts they end at", (text) => {
    const types = find(harness, text, { limit: 100 }).map((hit) => hit.item.type);
    expect(types[0]).toBe("wire");
    expect(types.lastIndexOf("wire")).toBeLessThan(types.indexOf("contact"));
  });

  it("takes a typing error only where nothing else matches", () => {
    expect(find(harness, "520301/3").map((hit) => hit.item.id)).toEqual(["FE111"]);
    expect(find(harness, "W898").map((hit) => hit.item.id)).toContain("W89");
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

describe("find on bare wiring", () => {
  const text =
    "Connector,Pin,Signal,Colour,Size (mm²),Function,Note\nECU,1,INJ 1,light blue,0.75,,cut off\nECU,2,FAN,BU/WH,1.5,,\nECU,3,N/C,,,glow plug relay,\n";
  const { document } = readGood(text, "ecu.csv");
  const bare = fitBuild(document, "base");

  it.each([
    ["INJ 1", "ECU:1"],
    ["light blue", "ECU:1"],
    ["inj 0.75", "ECU:1"],
    ["cut off", "ECU:1"],
    ["blue white", "ECU:2"],
    ["1,5 mm2 fan", "ECU:2"],
    ["glow plug", "ECU:3"],
  ])("%s finds %s", (words, id) => {
    expect(bare && find(bare, words).map((hit) => hit.item.id)).toContain(id);
  });

  it("finds a label that wires carry though the document lists no nets", () => {
    expect(document.nets).toEqual([]);
    expect(bare && find(bare, "INJ 1")[0]?.item).toEqual({ type: "net", id: "INJ 1" });
  });

  it("knows the open end of a wire by its address", () => {
    const open = bare && resolve(bare, "W1:?");
    expect(open?.kind === "one" ? open.item.type : open?.kind).toBe("open-end");
  });
});

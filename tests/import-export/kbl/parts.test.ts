import { describe, expect, test } from "vitest";
import { runReading } from "../../../src/import-export/format-reader.ts";
import { writeGraphml } from "../../../src/import-export/graphml/write-graphml.ts";
import { tableSetXlsxReader, tableSetZipReader } from "../../../src/import-export/table-set/read-table-set.ts";
import { writeTableSetXlsx, writeTableSetZip } from "../../../src/import-export/table-set/write-table-set.ts";
import { describeItem, find, findPaths, resolve } from "../../../src/connectivity/index.ts";
import { bytesOf } from "../xml/support/edit-text.ts";
import { fit, must, readDocument, readHarness } from "../xml/support/harness-files.ts";
import { fuseCarrier, type CarrierForm } from "./fuse-carrier.ts";

const FIVE = [1, 2, 3, 4, 5];
const read = (form: CarrierForm) => readDocument(bytesOf(fuseCarrier(form)));

describe("the matings of a fuse carrier with plugs of the harness", () => {
  test.each([
    ["slots-of-box", 1],
    ["slots-of-plugs", 1],
    ["cavities-of-box", 2],
  ] as const)("said by %s are read, 5 of 5: each fuse is tied to the cavities of its plug", (said, first) => {
    const result = readHarness(bytesOf(fuseCarrier({ said })));
    if (!result.ok) throw new Error("refused");
    const { document, warnings } = result.value;
    expect(warnings.filter((problem) => problem.code === "mating-left-out")).toEqual([]);
    expect(document.connectors.map((each) => [each.id, each.component, each.cavities.length])).toEqual(
      FIVE.map((n) => [`P${n}`, "A9", 2]),
    );
    const box = must(document.components.find((each) => each.id === "A9"));
    const bars = box.elements.filter((each) => each.kind === "bar").map((each) => each.between);
    expect(bars).toEqual(
      FIVE.flatMap((n) => [
        [`P${n}:${first}`, `#F${n}.1`],
        [`P${n}:${3 - first}`, `#F${n}.2`],
      ]),
    );
    const harness = fit(document);
    for (const n of FIVE) {
      const [from, to] = [`P${n}:1`, "R"].map((text) => resolve(harness, text));
      if (from?.kind !== "one" || to?.kind !== "one") throw new Error("not found");
      const answer = findPaths(harness, [from.item, to.item], { through: "switches-and-fuses" });
      expect(answer.kind === "found" && answer.path.map((item) => item.id)).toContain(`A9.F${n}`);
    }
  });

  test("are refused with the reason where a wire ends in the connector of the box itself", () => {
    const result = readHarness(bytesOf(fuseCarrier({ said: "slots-of-box", isWired: true })));
    if (!result.ok) throw new Error("refused");
    const refused = result.value.warnings.filter((problem) => problem.code === "mating-left-out");
    expect(refused.map((problem) => problem.message)).toEqual([
      '"A9.X1" and "P1" mate in the data, but cannot: one of them is mated already or has a known component behind it',
    ]);
    expect(result.value.document.connectors.map((each) => each.id)).toContain("A9.X1");
  });
});

describe("the parts of a KBL file", () => {
  const document = read({ said: "slots-of-box" });
  const harness = fit(document);
  const part = (number: string, description: string) => ({ number, maker: "Tarnwick", description });

  test("are in the document: housings, terminals, plugs, wires, fuses, carrier and ring", () => {
    const plug = must(document.connectors.find((each) => each.id === "P1"));
    const side = must(plug.sides.find((each) => each.id === "harness"));
    expect(side.part).toEqual(part("HS-2", "Housing of two"));
    expect(side.fitted).toEqual([
      { cavity: "1", plug: part("PLUG-9", "Cavity plug") },
      { cavity: "2", terminal: part("TERM-3", "Socket") },
    ]);
    const wire = must(document.wires.find((each) => each.id === "W1"));
    expect([wire.number, wire.type, wire.part]).toEqual(["47-W1", "FLRY-B", part("GW-1", "Wire")]);
    const box = must(document.components.find((each) => each.id === "A9"));
    expect(box.part).toEqual(part("FC-5", "Fuse carrier"));
    expect(box.elements.find((each) => each.id === "F1")?.part).toEqual(part("FUSE-15", "Fuse 15 A"));
    expect(document.terminalStuds.map((each) => each.part)).toEqual([part("RING-8", "Ring M8")]);
  });

  test("say nothing of seals where the file has none", () => {
    expect(document.connectors.map((each) => each.sealed)).toEqual(FIVE.map(() => undefined));
  });

  test.each([
    ["HS-2", "P1"],
    ["TERM-3", "P1:2"],
    ["PLUG-9", "P1"],
    ["GW-1", "W1"],
    ["47-W1", "W1"],
    ["FLRY-B", "W1"],
    ["FUSE-15", "A9.F1"],
    ["FC-5", "A9"],
    ["RING-8", "R"],
  ])("are found by %s", (text, id) => {
    expect(find(harness, text).map((hit) => hit.item.id)).toContain(id);
  });

  test("are told of the thing they are parts of", () => {
    expect(describeItem(harness, { type: "contact", id: "P1:2" }).parts).toEqual([
      { what: "terminal", side: "harness", ...part("TERM-3", "Socket") },
    ]);
    expect(describeItem(harness, { type: "wire", id: "W1" })).toMatchObject({
      wireNumber: "47-W1",
      wireType: "FLRY-B",
      parts: [{ what: "wire", ...part("GW-1", "Wire") }],
    });
  });

  test("come through a full set of tables, as a workbook and as CSV files", () => {
    for (const [reader, bytes] of [
      [tableSetXlsxReader, writeTableSetXlsx(document)],
      [tableSetZipReader, writeTableSetZip(document)],
    ] as const) {
      const again = runReading(reader.read(bytes, { fileName: "set" }));
      expect(again?.ok && again.value.document).toEqual(document);
    }
  });

  test("stand in GraphML", () => {
    const text = writeGraphml(harness);
    for (const number of ["HS-2", "TERM-3", "GW-1", "47-W1", "FLRY-B", "FUSE-15", "RING-8"])
      expect(text).toContain(`>${number}</data>`);
  });
});

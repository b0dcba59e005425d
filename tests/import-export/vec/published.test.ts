import { execFileSync } from "node:child_process";
import { describe, expect, test } from "vitest";
import { VEC, vecReader } from "../../../src/import-export/vec/vec-reader.ts";
import { VEC_REFERENCES } from "../../../src/import-export/vec/vec-classes.ts";
import { runReading } from "../../../src/import-export/format-reader.ts";
import { readSource } from "../../../src/import-export/xml/harness-format.ts";
import { checkReferences } from "../../../src/import-export/xml/source-facts.ts";
import {
  must,
  NEEDS_FILES,
  publishedFile,
  publishedPath,
  readDocument,
  readers,
  readHarness,
  readTree,
} from "../xml/support/harness-files.ts";
import { hasProgram } from "../xml/support/has-program.ts";

// two-connectors.vec: VWS4LS/vws4ls-subproject-results, commit e61ceb5e, CC BY 4.0. change-before.vec, change-after.vec, not-xml.vec:
// 4Soft-de/harness-model, commit a3672459, MIT. routing.vec: prostep-ivip-e-V/vec, commit acdd2f87, guideline snippets, MIT.

const TWO = "vec/two-connectors.vec";
const BEFORE = "vec/change-before.vec";
const AFTER = "vec/change-after.vec";
const ROUTING = "vec/routing.vec";

describe.skipIf(publishedPath(TWO) === undefined)(`readVec() on published files ${NEEDS_FILES}`, () => {
  test.each([TWO, BEFORE, AFTER, ROUTING])("%s has no id twice and no reference into nothing", (path) => {
    const report = checkReferences(readTree(publishedFile(path)), VEC_REFERENCES);
    expect([report.dangling, report.problems]).toEqual([0, []]);
    expect(report.count).toBeGreaterThan(20);
    expect(readers.filter((reader) => reader.recognises(publishedFile(path), "")).map((reader) => reader.id)).toEqual([
      "vec",
    ]);
  });

  test("three wires between two connectors, with the one colour that is a letter code", () => {
    const result = readHarness(publishedFile(TWO));
    if (!result.ok) throw new Error("refused");
    const { document, warnings } = result.value;
    expect(
      document.wires.map((wire) => [wire.id, wire.ends, wire.colour, wire.crossSectionMm2, wire.lengthMm]),
    ).toEqual([
      ["W1", ["A1:1", "A2:1"], undefined, 0.35, 300],
      ["W2", ["A1:2", "A2:2"], undefined, 0.35, 320],
      ["W3", ["A1:3", "A2:3"], "RD", 0.35, 310],
    ]);
    expect(document.wires.map((wire) => [wire.note, wire.when])).toEqual([
      ["In the file: colour BL", "VAR1"],
      ["In the file: colour YL", "BASIS"],
      ["In the file: colour RD", "VAR2"],
    ]);
    // The file calls its codes IEC 60757, where blue is BU and yellow YE.
    expect(warnings.filter((problem) => problem.code === "source-colour-unknown")).toHaveLength(2);
  });

  test("the cores of a cable, before and after a change", () => {
    const [before, after] = [BEFORE, AFTER].map((path) => readDocument(publishedFile(path)).wires);
    expect(
      must(before).map((wire) => [wire.id, wire.ends, wire.colour, wire.crossSectionMm2, wire.lengthMm, wire.group]),
    ).toEqual([
      ["264002", ["XA.F2.1_1:2", "XA.44.1:1"], "BN", 0.5, 1063, "SL1"],
      ["264001", ["YW001:1", "XA.F2.1_1:1"], "BK", 0.5, 503, "SL1"],
    ]);
    // Of two lengths the one to cut by counts.
    expect(must(after).map((wire) => [wire.id, wire.crossSectionMm2, wire.lengthMm, wire.group])).toEqual([
      ["264002", 0.3, 1077, "SL3"],
      ["264001", 0.3, 1503, "SL3"],
    ]);
  });

  test("the routing example: 8 nodes, 8 segments, two variants, and a cavity that takes three wires by turns", () => {
    const source = must(readSource(VEC, readTree(publishedFile(ROUTING))).source);
    expect([source.nodes.length, source.segments.length, source.routes.length, source.wires.length]).toEqual([
      8, 8, 4, 3,
    ]);
    expect(source.options.map((option) => option.name)).toEqual(["RL", "LL"]);
    expect(source.connectors.map((connector) => [connector.name, connector.node])).toEqual([
      ["A1", "TopologyNode_00024"],
      ["A2", "TopologyNode_00026"],
      ["A3", "TopologyNode_00030"],
    ]);
    const result = readHarness(publishedFile(ROUTING));
    const errors = result.ok ? [] : result.error.filter((problem) => problem.severity === "error");
    expect(errors.map((problem) => problem.code)).toEqual(["options-not-resolved"]);
    expect(errors[0]?.message).toContain("A1:1 (W1, W2, W3)");
  });

  test("a file that is no XML", () => {
    const bytes = publishedFile("vec/not-xml.vec");
    expect(readers.some((reader) => reader.recognises(bytes, "not-xml.vec"))).toBe(false);
    const result = must(runReading(vecReader.read(bytes, { fileName: "not-xml.vec" })));
    expect(result.ok ? [] : result.error.map((problem) => problem.code)).toEqual(["xml-not-well-formed"]);
  });

  test.skipIf(!hasProgram("xmllint"))("the newest of them is valid by the schema it names (needs xmllint)", () => {
    const args = [
      "--noout",
      "--nonet",
      "--schema",
      must(publishedPath("xsd/vec_2.1.0-ud.xsd")),
      must(publishedPath(ROUTING)),
    ];
    expect(() => execFileSync("xmllint", args, { stdio: "pipe" })).not.toThrow();
  });
});

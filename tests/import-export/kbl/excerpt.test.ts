import { execFileSync } from "node:child_process";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { runReading } from "../../../src/import-export/format-reader.ts";
import { KBL, kblReader } from "../../../src/import-export/kbl/kbl-reader.ts";
import { KBL_REFERENCES } from "../../../src/import-export/kbl/kbl-facts.ts";
import { readSource } from "../../../src/import-export/xml/harness-format.ts";
import { checkReferences } from "../../../src/import-export/xml/source-facts.ts";
import { openHarness } from "../../../src/harness-model/index.ts";
import { findPaths, findOpenEffect, resolve } from "../../../src/connectivity/index.ts";
import { root } from "../../structure/support/project-files.ts";
import { demoMachine, EXCERPT_WIRES, routeLengths, wireFacts } from "../xml/support/excerpt.ts";
import {
  demoFile,
  fit,
  must,
  publishedPath,
  readDocument,
  readers,
  readHarness,
  readTree,
} from "../xml/support/harness-files.ts";
import { hasProgram } from "../xml/support/has-program.ts";

// firnlark-excerpt.kbl is a part of our invented machine; what it has to say is told by firnlark-45.ohm.json.

const file = demoFile("firnlark-excerpt.kbl");

describe("the KBL excerpt of the demo machine", () => {
  test.each(["a.kbl", "a.txt", ""])("is recognised by its content under the name '%s'", (name) => {
    expect(readers.filter((reader) => reader.recognises(file, name)).map((reader) => reader.id)).toEqual(["kbl"]);
  });

  test("has the wires of the machine, with ends, colours, sizes, lengths, nets, groups and options", () => {
    const facts = wireFacts(readDocument(file));
    expect(facts).toHaveLength(EXCERPT_WIRES.length);
    expect(facts).toEqual(wireFacts(demoMachine()));
  });

  test("has the connectors of the machine with their cavities", () => {
    const whole = demoMachine();
    const document = readDocument(file);
    for (const id of ["A1.X1", "B1.X", "B3.X", "B4.X", "B6.X", "K10.X", "K11.X", "A3.X1"]) {
      const [own, wanted] = [document, whole].map((each) =>
        must(each.connectors.find((connector) => connector.id === id)),
      );
      expect(own?.label).toBe(id === "A3.X1" ? "Power distribution box" : wanted?.label);
      expect(own?.cavities.map((cavity) => cavity.id)).toEqual(wanted?.cavities.map((cavity) => cavity.id));
    }
    const inline = must(document.connectors.find((connector) => connector.kind === "inline"));
    expect([inline.id, inline.sides.map((side) => side.name)]).toEqual(["XE1m+XE1e", ["XE1m", "XE1e"]]);
  });

  test("has the splices and ring terminals of the machine", () => {
    const whole = demoMachine();
    const document = readDocument(file);
    expect(document.splices.map(({ id, label }) => ({ id, label }))).toEqual(
      whole.splices.filter(({ id }) => ["SP11", "SP13"].includes(id)).map(({ id, label }) => ({ id, label })),
    );
    expect(document.terminalStuds.map((stud) => [stud.id, stud.label, stud.role])).toEqual(
      ["GND-E1", "M1.50"].map((id) => [id, must(whole.terminalStuds.find((stud) => stud.id === id)).label, "terminal"]),
    );
  });

  test("has the builds of the machine and fits the same wires in them", () => {
    const [own, whole] = [readDocument(file), demoMachine()];
    for (const build of ["base", "cold"]) {
      const [fitted, wanted] = [own, whole].map((document) =>
        [...fit(document, build).fitted.wires.keys()].filter((id) => EXCERPT_WIRES.includes(id)),
      );
      expect(fitted?.toSorted()).toEqual(wanted?.toSorted());
    }
  });

  test("runs its wires along segments whose lengths make up the wires, 60 mm for both ends", () => {
    // Splices of the machine sit inside segments; KBL cuts the segment there.
    const document = readDocument(file);
    const lengths = routeLengths(document);
    const wires = document.wires.filter((wire) => EXCERPT_WIRES.includes(wire.id));
    expect(wires.map((wire) => [wire.id, must(wire.lengthMm) - must(lengths.get(wire.id))])).toEqual(
      wires.map((wire) => [wire.id, 60]),
    );
    expect(document.segments.find((segment) => segment.id === "SG07")).toMatchObject({
      lengthMm: 150,
      covering: "glass-braid sleeve",
    });
    expect(document.segments.find((segment) => segment.id === "SG01")?.clips).toBe("CL1 (at 50 %)");
  });

  test("answers what is between and what stops without a splice", () => {
    const harness = fit(readDocument(file), "base");
    const [module, sensor, splice] = ["A1.X1:1", "B3.X:1", "SP11"].map((text) => resolve(harness, text));
    if (module?.kind !== "one" || sensor?.kind !== "one" || splice?.kind !== "one") throw new Error("not found");
    const answer = findPaths(harness, [module.item, sensor.item]);
    expect(answer.kind === "found" && answer.path.map((item) => item.id)).toEqual([
      "A1.X1:1",
      "W71",
      "SP11",
      "W72",
      "B3.X:1",
    ]);
    expect(findOpenEffect(harness, splice.item)).toBeDefined();
  });

  test("has the fuse and the relay of the box, read from ratings and terminal numbers", () => {
    const result = readHarness(file);
    if (!result.ok) throw new Error("refused");
    const box = must(result.value.document.components.find((component) => component.id === "A3"));
    expect(box.elements.map((element) => [element.kind, element.id, ...element.between])).toEqual([
      ["bar", "bar-F9-K1", "#F9.2", "#K1.30"],
      ["bar", "bar-K1-X1.5", "A3.X1:5", "#K1.87"],
      ["bar", "bar-K1-X1.4", "A3.X1:4", "#K1.85"],
      ["fuse", "F9", "#F9.1", "#F9.2"],
      ["coil", "K1-coil", "#K1.86", "#K1.85"],
      ["contact", "K1-make", "#K1.30", "#K1.87"],
    ]);
    expect(box.elements.find((element) => element.kind === "fuse")?.ratedAmpere).toBe(30);
    expect(result.value.document.system.nominalVolt).toBe(12);
    const codes = new Set(result.value.warnings.map((problem) => problem.code));
    expect([...codes].toSorted()).toEqual([
      "fuse-resistance-assumed",
      "insides-unknown",
      "layout-assumed",
      "relay-read-from-pins",
      "ring-roles-unknown",
      "source-colours",
    ]);
  });

  test("becomes the same bytes twice, and opens again as the same document", () => {
    const [first, second] = [1, 2].map(() => JSON.stringify(readDocument(file)));
    expect(second).toBe(first);
    const opened = openHarness(must(first));
    expect(opened.ok && JSON.stringify(opened.value.document)).toBe(first);
  });

  test("tells progress that only grows and ends below the whole", () => {
    const shares: number[] = [];
    runReading(kblReader.read(file, { fileName: "a.kbl" }), ({ share }) => {
      shares.push(share);
    });
    expect(new Set(shares).size).toBe(shares.length);
    expect(shares).toEqual(shares.toSorted((first, second) => first - second));
    expect(shares.at(-1)).toBeLessThan(1);
  });

  test("has no reference into nothing", () => {
    const report = checkReferences(readTree(file), KBL_REFERENCES);
    expect([report.dangling, report.problems]).toEqual([0, []]);
    expect(must(readSource(KBL, readTree(file)).source).wires).toHaveLength(EXCERPT_WIRES.length);
  });

  const schema = publishedPath("xsd/kbl2.5-sr1.xsd");
  // Source: schema of KBL 2.5 SR-1, prostep-ivip-e-V/vec, MIT.
  test.skipIf(schema === undefined || !hasProgram("xmllint"))(
    "is valid by the schema of KBL 2.5 (needs xmllint and the schema)",
    () => {
      const args = ["--noout", "--nonet", "--schema", schema ?? "", join(root, "demo-harness", "firnlark-excerpt.kbl")];
      expect(() => execFileSync("xmllint", args, { stdio: "pipe" })).not.toThrow();
    },
  );
});

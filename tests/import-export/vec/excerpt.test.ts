import { execFileSync } from "node:child_process";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { VEC_REFERENCES } from "../../../src/import-export/vec/vec-classes.ts";
import { checkReferences } from "../../../src/import-export/xml/source-facts.ts";
import { openHarness } from "../../../src/harness-model/index.ts";
import { root } from "../../structure/support/project-files.ts";
import { demoMachine, EXCERPT_WIRES, wireFacts } from "../xml/support/excerpt.ts";
import {
  demoFile,
  must,
  publishedPath,
  readDocument,
  readers,
  readHarness,
  readTree,
} from "../xml/support/harness-files.ts";
import { hasProgram } from "../xml/support/has-program.ts";

// firnlark-excerpt.vec is a part of our invented machine; what it has to say is told by firnlark-45.ohm.json.

const file = demoFile("firnlark-excerpt.vec");
const builds = [
  { id: "base", options: [] },
  { id: "cold", options: ["OPT-COLD"] },
];

describe("the VEC excerpt of the demo machine", () => {
  test.each(["a.vec", "a.txt", ""])("is recognised by its content under the name '%s'", (name) => {
    expect(readers.filter((reader) => reader.recognises(file, name)).map((reader) => reader.id)).toEqual(["vec"]);
  });

  test("has the wires of the machine, with ends, colours, sizes, lengths, nets, groups and options", () => {
    const facts = wireFacts(readDocument(file, { builds }));
    expect(facts).toHaveLength(EXCERPT_WIRES.length);
    expect(facts).toEqual(wireFacts(demoMachine()));
  });

  test("has the splices of the machine where they sit along their segments", () => {
    const whole = demoMachine();
    expect(readDocument(file, { builds }).splices.map(({ id, label, at }) => ({ id, label, at }))).toEqual(
      whole.splices.filter(({ id }) => ["SP11", "SP13"].includes(id)).map(({ id, label, at }) => ({ id, label, at })),
    );
  });

  test("has the segments and routes of the machine", () => {
    const [own, whole] = [readDocument(file, { builds }), demoMachine()];
    const known = new Map(whole.segments.map((segment) => [segment.id, segment]));
    for (const { id, from, to, lengthMm } of own.segments) {
      const wanted = must(known.get(id));
      expect({ from, to, lengthMm }).toEqual({ from: wanted.from, to: wanted.to, lengthMm: wanted.lengthMm });
    }
    const routes = (document: typeof own) =>
      new Map(document.wires.filter(({ id }) => EXCERPT_WIRES.includes(id)).map(({ id, route }) => [id, route]));
    expect(routes(own)).toEqual(routes(whole));
  });

  test("has the drawing of the machine, to scale", () => {
    const [own, whole] = [readDocument(file, { builds }), demoMachine()];
    const wanted = own.topologyNodes.map((place) => must(whole.topologyNodes.find(({ id }) => id === place.id)));
    const ratio = (axis: "x" | "y") =>
      own.topologyNodes.map(
        (place, at) =>
          (must(place[axis]) - must(own.topologyNodes[0]?.[axis])) /
          (must(wanted[at]?.[axis]) - must(wanted[0]?.[axis])),
      );
    const ratios = [...ratio("x"), ...ratio("y")].filter((each) => Number.isFinite(each));
    expect(ratios.length).toBeGreaterThan(10);
    for (const each of ratios) expect(each).toBeCloseTo(must(ratios[0]), 1);
  });

  test("plugs both halves of the inline connector into one another", () => {
    const inline = must(readDocument(file, { builds }).connectors.find((connector) => connector.kind === "inline"));
    expect([inline.id, inline.sides.map((side) => side.name)]).toEqual(["XE1m+XE1e", ["XE1m", "XE1e"]]);
  });

  test("puts the power box behind its connector, with the fuse and the relay plugged into it", () => {
    const document = readDocument(file, { builds });
    const box = must(document.components.find((component) => component.id === "A3"));
    expect(must(document.connectors.find((connector) => connector.id === "A3.X1")).component).toBe("A3");
    expect(box.elements.map((element) => [element.kind, element.id, ...element.between])).toEqual([
      ["bar", "bar-F9-K1", "#F9.2", "#K1.30"],
      ["bar", "bar-K1-X1.5", "#K1.87", "A3.X1:5"],
      ["bar", "bar-K1-X1.4", "#K1.85", "A3.X1:4"],
      ["fuse", "F9", "#F9.1", "#F9.2"],
      ["coil", "K1-coil", "#K1.86", "#K1.85"],
      ["contact", "K1-make", "#K1.30", "#K1.87"],
    ]);
    expect(box.elements.find((element) => element.kind === "fuse")?.ratedAmpere).toBe(30);
  });

  test("becomes the same bytes twice, and opens again as the same document", () => {
    const [first, second] = [1, 2].map(() => JSON.stringify(readDocument(file, { builds })));
    expect(second).toBe(first);
    const opened = openHarness(must(first));
    expect(opened.ok && JSON.stringify(opened.value.document)).toBe(first);
  });

  test("tells what it had to assume", () => {
    const result = readHarness(file, { builds });
    if (!result.ok) throw new Error("refused");
    expect([...new Set(result.value.warnings.map((problem) => problem.code))].toSorted()).toEqual([
      "fuse-resistance-assumed",
      "insides-unknown",
      "layout-assumed",
      "relay-read-from-pins",
      "ring-roles-unknown",
      "system-assumed",
    ]);
  });

  test("has no reference into nothing", () => {
    expect(checkReferences(readTree(file), VEC_REFERENCES)).toMatchObject({ dangling: 0, problems: [] });
  });

  const schema = publishedPath("xsd/vec_2.1.0-ud.xsd");
  // Source: schema of VEC 2.1.0, prostep-ivip-e-V/vec, MIT.
  test.skipIf(schema === undefined || !hasProgram("xmllint"))(
    "is valid by the schema of VEC 2.1 (needs xmllint and the schema)",
    () => {
      const args = ["--noout", "--nonet", "--schema", schema ?? "", join(root, "demo-harness", "firnlark-excerpt.vec")];
      expect(() => execFileSync("xmllint", args, { stdio: "pipe" })).not.toThrow();
    },
  );
});

import { describe, expect, test } from "vitest";
import { fitBuild, type HarnessDocument } from "ohmward/harness-model";
import { findPaths } from "ohmward/connectivity";
import {
  pinTableTemplate,
  tableRows,
  writeGraphml,
  writeTableCsv,
  writeTableSetXlsx,
  writeTableXlsx,
} from "ohmward/import-export";
import { openDemo } from "../../demo-harness/open-demo.ts";
import { ask, conductorNets } from "../support/ask-all.ts";
import { errorCodes, problemsOf, readGood } from "../support/read-file.ts";

const demo = openDemo();
const shapes = ["pin", "wire"] as const;
const builds = [
  ["base", "base"],
  ["cold", "OPT-COLD"],
  ["tiller", "OPT-TILL"],
] as const;

function fitted(document: HarnessDocument, build: string) {
  const harness = fitBuild(document, build);
  if (!harness) throw new Error(`There is no build "${build}"`);
  return harness;
}

describe.each(shapes)("a plain table with a row for each %s", (shape) => {
  const fromCsv = readGood(writeTableCsv(demo, { shape }).content, "machine.csv").document;
  const fromXlsx = readGood(writeTableXlsx(demo, { shape }).content, "machine.xlsx").document;

  test.each(builds)("joins the same points and wires into nets in build %s", (build, option) => {
    const before = conductorNets(fitted(demo, build));
    expect(before.length).toBeGreaterThan(50);
    expect(conductorNets(fitted(fromCsv, option))).toEqual(before);
    expect(conductorNets(fitted(fromXlsx, option))).toEqual(before);
  });

  test("keeps what each wire is", () => {
    const facts = ({ wires }: HarnessDocument) =>
      wires
        .map(({ id, colour, crossSectionMm2, lengthMm, net, harness, group, when }) => ({
          id,
          colour,
          crossSectionMm2,
          lengthMm,
          net,
          harness,
          group,
          when,
        }))
        .sort((first, second) => (first.id < second.id ? -1 : 1));
    expect(facts(fromCsv)).toEqual(facts(demo));
    expect(facts(fromXlsx)).toEqual(facts(demo));
  });

  test("keeps the kinds of nets and the roles of studs", () => {
    const kinds = ({ nets }: HarnessDocument) => new Map(nets.map(({ id, kind }) => [id, kind]));
    const used = new Set(demo.wires.map((wire) => wire.net));
    expect(kinds(fromCsv)).toEqual(new Map([...kinds(demo)].filter(([id]) => used.has(id))));
    const roles = ({ terminalStuds }: HarnessDocument) =>
      new Map(terminalStuds.map(({ id, role, component }) => [id, { role, component }]));
    for (const [id, role] of roles(fromCsv)) expect(roles(demo).get(id)).toEqual(role);
  });

  test("gives the same way along the conductors between two points", () => {
    for (const ends of [
      ["A1.X1:36", "B3.X:3"],
      ["A1.X1:41", "Y8.X:4"],
      ["RT1.X:1", "RT2.X:1"],
    ] as const) {
      const [before, after] = [fitted(demo, "base"), fitted(fromCsv, "base")].map((harness) => {
        const answer = findPaths(harness, [ask(harness, ends[0]), ask(harness, ends[1])], { through: "conductors" });
        return answer.kind === "found" ? { path: answer.path, mustPass: answer.mustPass } : answer.kind;
      });
      expect(after).toEqual(before);
      expect(typeof after).toBe("object");
    }
  });

  test("can hold one build alone, without options", () => {
    const { content } = writeTableCsv(demo, { shape, build: "tiller" });
    expect(content.split("\r\n")[0]).not.toContain("Option");
    const read = readGood(content, "tiller.csv").document;
    expect(read.builds.map((build) => build.id)).toEqual(["base"]);
    expect(conductorNets(fitted(read, "base"))).toEqual(conductorNets(fitted(demo, "tiller")));
  });

  test("says what it cannot hold", () => {
    const { problems } = writeTableCsv(demo, { shape });
    expect(new Set(problems.map((problem) => problem.code))).toEqual(new Set(["export-loses"]));
    const text = problems.map((problem) => problem.message).join("\n");
    for (const word of ["insides of components", "zones", "states", "trouble codes", "routes", "adapters"])
      expect(text).toContain(word);
  });

  test("has the same bytes at every writing", () => {
    expect(writeTableXlsx(demo, { shape }).content).toEqual(writeTableXlsx(openDemo(), { shape }).content);
  });

  test("starts from a template that is read without an error", () => {
    const problems = problemsOf(pinTableTemplate(shape), "template.csv");
    expect(errorCodes(problems)).toEqual([]);
    const { document } = readGood(pinTableTemplate(shape), "template.csv");
    expect(document.wires.map((wire) => [wire.id, ...wire.ends])).toEqual([
      ["W72", "B3.X:1", "A1.X1:20"],
      ["W73", "B3.X:2", "GND-A1"],
      ["W74", "B3.X:3", "A1.X1:36"],
    ]);
    expect(document.components.map((component) => component.id).sort()).toEqual(["A1", "B3"]);
  });
});

test("tableRows() throws for a build that is not there", () => {
  expect(() => tableRows(demo, { shape: "wire", build: "gold" })).toThrow(RangeError);
});

describe("a wire with one end", () => {
  const text =
    "Wire,From,To,Colour,Size (mm²),Signal,Note\nW7,,X1:5,BU,0.5,INJ 1,cut off\nW8,X1:6,,,,SPLICED,\nW9,X1:7,X2:1,RD,,,\n";
  const { document } = readGood(text, "a.csv");
  const facts = ({ wires }: HarnessDocument) =>
    wires
      .map(({ id, ends, colour, crossSectionMm2, net, note }) => ({ id, ends, colour, crossSectionMm2, net, note }))
      .sort((first, second) => (first.id < second.id ? -1 : 1));

  test.each(shapes)("is written with a row for each %s, and read back the same", (shape) => {
    expect(facts(readGood(writeTableCsv(document, { shape }).content, "w.csv").document)).toEqual(facts(document));
    expect(facts(readGood(writeTableXlsx(document, { shape }).content, "w.xlsx").document)).toEqual(facts(document));
  });

  test("comes back from a full set of tables and from the harness document", () => {
    expect(readGood(writeTableSetXlsx(document), "w.xlsx").document).toEqual(document);
    expect(readGood(JSON.stringify(document), "w.ohm.json").document).toEqual(document);
  });

  test("has an open end in GraphML", () => {
    const graph = writeGraphml(fitted(document, "base"));
    expect(graph).toContain('<data key="n_kind">open-end</data><data key="n_label">W7:?</data>');
  });
});

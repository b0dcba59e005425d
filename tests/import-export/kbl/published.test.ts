import { execFileSync } from "node:child_process";
import { describe, expect, test } from "vitest";
import { KBL } from "../../../src/import-export/kbl/kbl-reader.ts";
import { KBL_REFERENCES } from "../../../src/import-export/kbl/kbl-facts.ts";
import { readSource } from "../../../src/import-export/xml/harness-format.ts";
import { checkReferences } from "../../../src/import-export/xml/source-facts.ts";
import { findContactedTwice, isFittedWith } from "../../../src/import-export/xml/assembly.ts";
import type { HarnessSource } from "../../../src/import-export/xml/harness-source.ts";
import { joinDocuments } from "../../../src/import-export/xml/join-documents.ts";
import { proposeMatings } from "../../../src/import-export/xml/propose-matings.ts";
import type { HarnessDocument, Wire } from "../../../src/harness-model/index.ts";
import { findPaths, resolve, type Resolved } from "../../../src/connectivity/index.ts";
import type { Harness } from "../../../src/harness-model/index.ts";
import {
  fit,
  must,
  NEEDS_FILES,
  publishedFile,
  publishedPath,
  readDocument,
  readHarness,
  readTree,
} from "../xml/support/harness-files.ts";
import { hasProgram } from "../xml/support/has-program.ts";
import { Groups } from "../xml/support/potentials.ts";

// main-harness.kbl, alternator-cable.kbl, battery-positive.kbl, battery-negative.kbl: prostep-ivip-e-V/vec, commit acdd2f87, folder
// wiki/content/sample, CC BY-SA 4.0, author Volkswagen AG; declared test data, no real car. single-housing.kbl: 4Soft-de/harness-model,
// commit a3672459, MIT. The expected figures were counted in the files by another program.

const MAIN = "kbl/main-harness.kbl";
const ALTERNATOR = "kbl/alternator-cable.kbl";
const NEGATIVE = "kbl/battery-negative.kbl";
const POSITIVE = "kbl/battery-positive.kbl";
const HOUSING = "kbl/single-housing.kbl";

const isMissing = publishedPath(MAIN) === undefined;

function sourceOf(path: string): HarnessSource {
  return must(readSource(KBL, readTree(publishedFile(path))).source);
}

/** Wires of the file, without what stands for a crimp. */
function ownWires(document: HarnessDocument): readonly Wire[] {
  return document.wires.filter((wire) => !wire.note?.startsWith("Not a wire"));
}

function only(harness: Harness, text: string): Resolved {
  const found = resolve(harness, text);
  if (found.kind !== "one") throw new Error(`${text}: ${found.kind}`);
  return found.item;
}

describe.skipIf(isMissing)(`readKbl() on published files ${NEEDS_FILES}`, () => {
  test.each([
    [MAIN, 10_585, 12_878],
    [ALTERNATOR, undefined, undefined],
    [NEGATIVE, undefined, undefined],
    [POSITIVE, undefined, undefined],
    [HOUSING, undefined, undefined],
  ])("1: %s has no id twice and no reference into nothing", (path, ids, references) => {
    const tree = readTree(publishedFile(path));
    const report = checkReferences(tree, KBL_REFERENCES);
    expect([report.dangling, tree.duplicates.length, report.problems]).toEqual([0, 0, []]);
    expect(report.count).toBeGreaterThan(0);
    if (ids !== undefined) expect([tree.ids.size, report.count]).toEqual([ids, references]);
  });

  test.each([
    [MAIN, 254, 246],
    [ALTERNATOR, 3, 3],
    [NEGATIVE, 1, 1],
    [POSITIVE, 1, 1],
  ])("2: in %s, every routed wire is as long as its segments", (path, wires, routed) => {
    const document = readDocument(publishedFile(path));
    const lengths = new Map<string, number>(document.segments.map((segment) => [segment.id, segment.lengthMm]));
    const own = ownWires(document);
    const withRoute = own.filter((wire) => wire.route !== undefined);
    expect([own.length, withRoute.length]).toEqual([wires, routed]);
    const off = withRoute.map((wire) => {
      const sum = must(wire.route).reduce((total, id) => total + must(lengths.get(id)), 0);
      return Math.abs(sum - must(wire.lengthMm));
    });
    expect(Math.max(...off)).toBeLessThan(0.1);
  });

  test.each([
    [MAIN, 246],
    [ALTERNATOR, 3],
    [NEGATIVE, 1],
    [POSITIVE, 1],
  ])("3: in %s, every route is a chain from the one part to the other", (path, routed) => {
    const document = readDocument(publishedFile(path));
    const segments = new Map<string, { from: string; to: string }>(document.segments.map((each) => [each.id, each]));
    const places = placesOfEnds(document);
    let followed = 0;
    for (const wire of ownWires(document)) {
      if (wire.route === undefined) continue;
      let at = must(places.get(wire.ends[0].split(":")[0] ?? ""));
      for (const id of wire.route) {
        const { from, to } = must(segments.get(id));
        expect([from, to]).toContain(at);
        at = at === from ? to : from;
      }
      expect(at).toBe(places.get(wire.ends[1]?.split(":")[0] ?? ""));
      followed += 1;
    }
    expect(followed).toBe(routed);
  });

  test.each([
    [MAIN, 183, 184],
    [ALTERNATOR, 3, 4],
    [NEGATIVE, 1, 2],
    [POSITIVE, 1, 2],
  ])("4: %s is one tree", (path, segments, places) => {
    const document = readDocument(publishedFile(path));
    const groups = new Groups();
    for (const segment of document.segments) groups.join(segment.from, segment.to);
    const parts = new Set(document.topologyNodes.map((place) => groups.of(place.id)));
    expect([document.segments.length, document.topologyNodes.length, parts.size]).toEqual([segments, places, 1]);
  });

  test("5: configuration MIN has 165 wires in 74 potentials, and 62 through its 13 fuses", () => {
    const harness = fit(readDocument(publishedFile(MAIN)));
    expect(harness.build.label).toContain("Derivat_MIN");
    const joints = new Groups();
    const fused = new Groups();
    harness.edges.forEach((edge, number) => {
      const [from, to] = [harness.index.from[number], harness.index.to[number]].map((node) => String(node));
      if (edge.kind !== "element") joints.join(from ?? "", to ?? "");
      if (edge.kind !== "element" || edge.element.kind === "bar" || edge.element.kind === "fuse")
        fused.join(from ?? "", to ?? "");
    });
    const wires = harness.edges.flatMap((edge, number) =>
      edge.kind === "wire" && !edge.wire.note?.startsWith("Not a wire")
        ? [{ wire: edge.wire, node: String(harness.index.from[number]) }]
        : [],
    );
    const fuses = harness.edges.filter((edge) => edge.kind === "element" && edge.element.kind === "fuse");
    const nets = new Map<string, Set<string | undefined>>();
    for (const { wire, node } of wires)
      nets.set(joints.of(node), (nets.get(joints.of(node)) ?? new Set()).add(wire.net));
    expect([wires.length, nets.size, fuses.length]).toEqual([165, 74, 13]);
    expect([...nets.values()].filter((names) => names.size > 1)).toEqual([]);
    expect(new Set(wires.map(({ node }) => fused.of(node))).size).toBe(62);
  });

  test("5: the only cavities of MIN contacted more than once are those of 9 splices", () => {
    const source = sourceOf(MAIN);
    const min = must(source.builds.find((build) => build.label.includes("Derivat_MIN")));
    const twice = findContactedTwice(source, new Set(min.options));
    expect(twice.map((each) => each.use)).toEqual(Array.from({ length: 9 }, () => "splice"));
  });

  test("6: read whole, alternatives meet in 66 cavities and mix signals in 6 of 103 potentials", () => {
    const source = sourceOf(MAIN);
    const all = new Set(source.options.map((option) => option.key));
    const twice = findContactedTwice(source, all);
    const of = (wanted: string) => twice.filter((each) => (each.isBox ? "box" : each.use) === wanted).length;
    expect([all.size, twice.length, of("plug"), of("splice"), of("ring"), of("box")]).toEqual([34, 66, 50, 12, 2, 2]);
    const groups = new Groups();
    for (const contact of source.contacts) for (const cavity of contact.cavities) groups.join(contact.key, cavity);
    const wires = source.wires.filter((wire) => isFittedWith(wire.fitted, all));
    for (const wire of wires) for (const end of wire.ends) groups.join(end.contact, wire.key);
    const signals = new Map<string, Set<string | undefined>>();
    for (const wire of wires)
      signals.set(groups.of(wire.key), (signals.get(groups.of(wire.key)) ?? new Set()).add(wire.signal));
    expect([signals.size, [...signals.values()].filter((names) => names.size > 1).length]).toEqual([103, 6]);
  });

  test("6: a configuration that gathers alternatives is left out, and asked for alone it is refused", () => {
    const result = readHarness(publishedFile(MAIN));
    if (!result.ok) throw new Error("refused");
    const leftOut = result.value.warnings.filter((problem) => problem.code === "build-left-out");
    expect(leftOut.map((problem) => problem.message)).toEqual([expect.stringMatching(/Derivat_MAX.* 54 cavities/u)]);
    expect(result.value.document.builds.map((build) => build.id)).toEqual(["Kombination_MINI"]);
    const options = result.value.document.options.map((option) => option.id as string);
    const refused = readHarness(publishedFile(MAIN), { builds: [{ id: "all", options }] });
    expect(refused.ok || refused.error.filter((each) => each.severity === "error").map((each) => each.code)).toEqual([
      "options-not-resolved",
    ]);
  });

  test("7: the coupling of the main harness and the alternator cable is proposed, and joins both when confirmed", () => {
    const parts = [MAIN, ALTERNATOR].map((path) => ({ document: readDocument(publishedFile(path)) }));
    const [proposal] = proposeMatings(parts.map((part) => part.document));
    expect(proposal).toMatchObject({
      first: { part: 0, connector: "TMM.1A1" },
      second: { part: 1, connector: "TMM.2A1" },
      namesAlike: true,
    });
    expect(must(proposal).evidence.map(({ cavity, sameNet, sameColour }) => [cavity, sameNet, sameColour])).toEqual(
      expect.arrayContaining(["1", "2", "3"].map((cavity) => [cavity, true, true])),
    );
    expect(must(proposal).evidence).toHaveLength(3);
    const joined = joinDocuments(parts, [must(proposal)]);
    if (!joined.ok) throw new Error(joined.error.map((problem) => problem.message).join("\n"));
    const harness = fit(joined.value.document);
    const answer = findPaths(harness, [only(harness, "XA.C.1:2"), only(harness, "TMM.1A1:3")]);
    expect(answer.kind === "found" && [answer.through, answer.path.map((item) => item.id)]).toEqual([
      "conductors",
      ["XA.C.1:2", "V.15B.SZS1090.1LMM.2B11311", "TMM.1A1+TMM.2A1:3"],
    ]);
    // Apart, the two harnesses have nothing in common.
    const apart = joinDocuments(parts, []);
    if (!apart.ok) throw new Error("not joined");
    const open = fit(apart.value.document);
    expect(findPaths(open, [only(open, "XA.C.1:2"), only(open, "TMM.1A1:3")]).kind).toBe("no-path");
  });

  test("8: a ring terminal that holds two wires is one potential with two signal names", () => {
    const document = readDocument(publishedFile(ALTERNATOR));
    const wires = document.wires.filter((wire) => wire.ends.includes("XB.C.1"));
    expect(document.terminalStuds.map((stud) => [stud.id, stud.label])).toEqual([["XB.C.1", "Drehstromgenerator"]]);
    expect(new Set(wires.map((wire) => wire.net)).size).toBe(2);
  });

  test.skipIf(!hasProgram("xmllint"))("9: the files are valid by the schemas they name (needs xmllint)", () => {
    const schemas = {
      "kbl23_sr1.xsd": [ALTERNATOR, NEGATIVE, POSITIVE],
      "kbl24_sr1.xsd": [MAIN],
      "kbl2.5-sr1.xsd": [MAIN],
    };
    for (const [schema, files] of Object.entries(schemas)) {
      for (const file of files) {
        const args = [
          "--noout",
          "--nonet",
          "--schema",
          must(publishedPath(`xsd/${schema}`)),
          must(publishedPath(file)),
        ];
        expect(() => execFileSync("xmllint", args, { stdio: "pipe" }), `${file} by ${schema}`).not.toThrow();
      }
    }
  });

  test("what is between: from the left indicator lamp to the hazard switch, with the length of its route", () => {
    const harness = fit(readDocument(publishedFile(MAIN)));
    const ends = [only(harness, "XA.M5.1"), only(harness, "XA.E3.1")] as const;
    const answer = findPaths(harness, ends, { through: "conductors" });
    if (answer.kind !== "found") throw new Error("no path");
    const wires = answer.path
      .filter((item) => item.type === "wire")
      .map((item) => must(harness.fitted.wires.get(item.id)));
    expect(wires.length).toBeGreaterThan(1);
    expect(new Set(wires.map((wire) => wire.net)).size).toBe(1);
    const routeMm = wires.flatMap((wire) => must(wire.route)).map((id) => must(harness.segments.get(id)).lengthMm);
    const lengthMm = wires.reduce((sum, wire) => sum + must(wire.lengthMm), 0);
    expect(routeMm.reduce((sum, each) => sum + each, 0)).toBeCloseTo(lengthMm, 0);
    expect(answer.mustPass.map((item) => item.id)).toEqual(answer.path.map((item) => item.id));
  });

  test("the drawing keeps the proportions of the file, in two of its three axes", () => {
    const source = sourceOf(MAIN);
    const document = readDocument(publishedFile(MAIN));
    const spread = (axis: number) => {
      const values = source.nodes.map((node) => must(must(node.position)[axis]));
      return Math.max(...values) - Math.min(...values);
    };
    const [most = 0, middle = 0] = [spread(0), spread(1), spread(2)].toSorted((a, b) => b - a);
    const xs = document.topologyNodes.map((place) => must(place.x));
    const ys = document.topologyNodes.map((place) => must(place.y));
    expect([Math.min(...xs), Math.max(...xs), Math.min(...ys)]).toEqual([0, 1200, 0]);
    expect(Math.max(...ys)).toBeCloseTo((1200 * middle) / most, 0);
  });

  test("a fuse carrier becomes a component with rated fuses, a relay without telling pins stays open", () => {
    const result = readHarness(publishedFile(MAIN));
    if (!result.ok) throw new Error("refused");
    const carrier = must(result.value.document.components.find((component) => component.id === "XA.SA.1"));
    const fuses = carrier.elements.filter((element) => element.kind === "fuse");
    expect(fuses.map((fuse) => fuse.ratedAmpere).toSorted((a, b) => a - b)).toEqual([
      7.5, 7.5, 7.5, 7.5, 10, 10, 10, 10, 20, 20, 25, 30, 40, 40, 40, 40, 40, 40, 40,
    ]);
    expect(carrier.elements.filter((element) => element.kind === "bar")).toHaveLength(62);
    expect(
      result.value.warnings.filter((each) => each.code === "part-inside-unknown").map((each) => each.message),
    ).toEqual([expect.stringContaining("R_WISG_R9")]);
  });

  test("the same document twice, to the byte, and under any name", () => {
    const [first, second] = ["x.bin", MAIN].map((fileName) =>
      readDocument(publishedFile(MAIN), { fileName, machine: "same" }),
    );
    expect(JSON.stringify(must(second).wires.map((wire) => ({ ...wire, origin: 0 })))).toBe(
      JSON.stringify(must(first).wires.map((wire) => ({ ...wire, origin: 0 }))),
    );
    const [one, two] = [1, 2].map(() => JSON.stringify(readDocument(publishedFile(MAIN))));
    expect(one).toBe(two);
  });

  test("a file with one housing and no wires is a document all the same", () => {
    const document = readDocument(publishedFile(HOUSING));
    expect([document.connectors.map((connector) => connector.label), document.wires]).toEqual([["Description265"], []]);
  });
});

function placesOfEnds(document: HarnessDocument): ReadonlyMap<string, string> {
  const places = new Map<string, string>();
  for (const connector of document.connectors)
    if (connector.place !== undefined) places.set(connector.id, connector.place);
  for (const stud of document.terminalStuds) if (stud.place !== undefined) places.set(stud.id, stud.place);
  for (const splice of document.splices) {
    // A crimp has no place of its own: it is in the connector that its name begins with.
    const owner = /^(.+)\.[^.]+-crimp$/u.exec(splice.id)?.[1];
    const place = splice.at?.from ?? places.get(owner ?? "");
    if (place !== undefined) places.set(splice.id, place);
  }
  return places;
}

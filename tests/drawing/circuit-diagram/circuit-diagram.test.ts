import { seededRandom } from "ohmward/base";
import {
  circuitDiagram,
  writeDiagramSvg,
  type CircuitDiagram,
  type DiagramOptions,
  type PointMark,
} from "ohmward/drawing";
import { fitBuild, type Harness, type HarnessDocument } from "ohmward/harness-model";
import { describe, expect, test } from "vitest";
import { openDemo } from "../../demo-harness/open-demo.ts";
import { demo } from "../demo.ts";
import { diagramOf, itemOf } from "./all-items.ts";

function svg(harness: Harness, id: string, options?: DiagramOptions): string {
  return writeDiagramSvg(diagramOf(harness, id, options), { theme: "light" });
}

function textsOf({ groups }: CircuitDiagram): readonly string[] {
  return groups.flatMap(({ shapes }) => shapes.flatMap((shape) => (shape.kind === "text" ? [shape.text] : [])));
}

function idsOf({ groups }: CircuitDiagram): ReadonlySet<string> {
  return new Set(groups.flatMap(({ item }) => item?.id ?? []));
}

/** The document with all its lists in another order. */
function reordered(document: HarnessDocument, seed: number): HarnessDocument {
  const { shuffle } = seededRandom(seed);
  return {
    ...document,
    components: shuffle(document.components.map((each) => ({ ...each, elements: shuffle(each.elements) }))),
    connectors: shuffle(document.connectors),
    splices: shuffle(document.splices),
    terminalStuds: shuffle(document.terminalStuds),
    wires: shuffle(document.wires),
    nets: shuffle(document.nets),
  };
}

describe("circuitDiagram()", () => {
  test.each(["M2", "M1", "B3", "Y1", "CAN-H", "GND-C2"])("draws %s as it was", async (id) => {
    await expect(svg(demo, id)).toMatchFileSnapshot(`../pictures/circuit-${id.toLowerCase()}.svg`);
  });

  test("draws the same from the same, in whatever order the lists of the document stand", () => {
    const other = fitBuild(reordered(openDemo(), 7), "base");
    for (const id of ["M2", "M1", "B3", "CAN-H", "GND-C2", "A1.supply", "Y8", "K10", "SP11", "A2"]) {
      const drawn = svg(demo, id);
      expect(svg(demo, id)).toBe(drawn);
      expect(other && svg(other, id)).toBe(drawn);
    }
  });

  test("puts the pump between its fuse and its ground, and names what it leaves out", () => {
    const pump = diagramOf(demo, "M2");
    const texts = textsOf(pump);
    expect(texts).toEqual(expect.arrayContaining(["A3.F10", "15 A", "A3.K4", "M2", "2.2 Ω", "GND-C1", "battery −"]));
    expect(texts).toEqual(expect.arrayContaining(["from G2+", "through S10, FL1 (150 A)", "A3.K3-coil"]));
    expect(texts).toContain("A3.X1:12, GND-C2, SP2,");
    expect(idsOf(pump).has("C01")).toBe(false);
  });

  test("draws the whole feed and the coils of coils where they are asked for", () => {
    const whole = diagramOf(demo, "M2", { wholeFeed: true, coils: "all" });
    expect([...idsOf(whole)]).toEqual(expect.arrayContaining(["C01", "S10.blade", "A3.K3-coil", "S1.run"]));
    expect(whole.layout.model.links).toHaveLength(2);
    const plain = idsOf(diagramOf(demo, "M2", { coils: "none" }));
    expect(plain.has("A3.K4-coil")).toBe(false);
  });

  test("shows tags that tell the role of a wire without any colour", () => {
    const tagOf = (id: string, wire: string): string | undefined => {
      const group = diagramOf(demo, id).groups.find(({ kind, item }) => kind === "wire" && item?.id === wire);
      const [tag] = group?.shapes.flatMap((shape) => (shape.kind === "text" ? [shape.text] : [])) ?? [];
      return tag;
    };
    const cases = { W30: "M2", W31: "M2", W32: "M2", W71: "B3", W78: "B3", W89: "B3", W103: "Y1", W50: "CAN-H" };
    const tags = Object.entries(cases).map(([wire, id]) => `${wire} ${tagOf(id, wire) ?? ""}`);
    expect(tags).toEqual(["W30 +", "W31 −", "W32 C", "W71 +", "W78 −", "W89 S", "W103 C", "W50 D"]);
  });

  test("writes the role in words where there is to be no legend", () => {
    const texts = textsOf(diagramOf(demo, "M2", { roleWords: true }));
    expect(texts).toEqual(expect.arrayContaining(["supply", "ground", "control"]));
    expect(texts).not.toContain("supply side");
  });

  test("puts a pill only where a meter is permitted, and a plain number elsewhere", () => {
    const marks = new Map<string, PointMark>([
      ["M2.X:1", { text: "12.4 V", permitted: true }],
      ["GND-C1", { text: "4 mV", permitted: false }],
      ["A1.X2:28", { text: "0.2 V", permitted: false }],
    ]);
    const pills = (diagram: CircuitDiagram): readonly string[] =>
      diagram.groups.flatMap(({ item, shapes }) =>
        shapes.some((shape) => shape.kind === "rect" && shape.fill === "pill") ? (item?.id ?? "legend") : [],
      );
    const marked = diagramOf(demo, "M2", { marks });
    expect(pills(marked)).toEqual(["M2.X:1", "legend"]);
    expect(textsOf(marked)).toEqual(expect.arrayContaining(["12.4 V", "4 mV", "0.2 V"]));
    const none = new Map([...marks].map(([key, { text }]) => [key, { text, permitted: false }] as const));
    expect(pills(diagramOf(demo, "M2", { marks: none }))).toEqual([]);
  });

  test("sets rows close where the drawing would be high", () => {
    const [close, normal] = [diagramOf(demo, "M1"), diagramOf(demo, "M1", { rows: "normal" })];
    expect(close.height).toBeLessThan(normal.height);
    expect(diagramOf(demo, "M2").height).toBe(diagramOf(demo, "M2", { rows: "normal" }).height);
    const short = diagramOf(demo, "M2", { labels: "short", rows: "close" });
    expect(short.width).toBeLessThanOrEqual(390);
  });

  test("lists the circuits where there are too many, and says where nothing is to be drawn", () => {
    const isolator = circuitDiagram(demo, itemOf(demo, "S10"));
    expect(isolator.kind === "choose" && isolator.items.map(({ id }) => id)).toContain("M2.motor");
    expect(circuitDiagram(demo, itemOf(demo, "K10.30"))).toMatchObject({ kind: "nothing" });
  });

  test("tells the same as a list, from supply to ground, with a joint at both columns", () => {
    const pump = diagramOf(demo, "M2");
    const lines = pump.list.map(({ entries }) => entries.map(({ kind, id }) => `${kind} ${id}`));
    expect(lines).toEqual([
      ["supply A3.S1", "internal node A3#bus"],
      [
        ...["internal node A3#bus", "fuse A3.F10", "contact A3.K4", "pin A3.X1:6", "wire W30", "pin M2:1"],
        ...["load M2", "pin M2:2", "wire W31", "terminal stud GND-C1", "wire C06", "battery terminal, negative G2-"],
      ],
      [
        ...["internal node A3#bus", "fuse A3.F6", "contact A3.K3", "internal node A3#k3-87", "coil A3.K4-coil"],
        ...["pin A3.X1:7", "wire W32", "control unit A1"],
      ],
    ]);
    const wire = pump.list[1]?.entries.find(({ id }) => id === "W30");
    expect([wire?.facts, wire?.role]).toEqual([["blue (BU)", "2.5 mm²"], "supply"]);
    const listed = new Set(pump.list.flatMap(({ entries }) => entries.map(({ item }) => item.id)));
    const drawn = pump.groups.filter(({ kind }) => kind !== "outline").flatMap(({ item }) => item?.id ?? []);
    expect(drawn.filter((id) => !listed.has(id))).toEqual([]);
  });
});

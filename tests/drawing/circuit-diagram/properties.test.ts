import type { CircuitDiagram } from "ohmward/drawing";
import { describe, expect, test } from "vitest";
import { fitDemo, openDemo } from "../../demo-harness/open-demo.ts";
import {
  fit,
  NEEDS_FILES,
  publishedFile,
  publishedPath,
  readDocument,
} from "../../import-export/xml/support/harness-files.ts";
import { allIds, drawAll, type Drawn } from "./all-items.ts";
import {
  bends,
  crossings,
  groundless,
  looseEnds,
  outlinesOverText,
  overlaps,
  runsOver,
  textOverlaps,
  unlevelLinks,
} from "./check-diagram.ts";

/** What each drawing is asked; every one names what is wrong and names nothing where all is well. */
const checks: readonly (readonly [string, (diagram: CircuitDiagram) => readonly string[]])[] = [
  ["no two things cover one another", overlaps],
  ["no two texts cover one another", textOverlaps],
  ["every text lies on ground of its own", groundless],
  ["no wire, line or bar runs through a label or a foreign symbol", runsOver],
  ["no outline runs through a text", outlinesOverText],
  ["every wire is upright and every bar level", bends],
  ["every line ends on its pin, dot or symbol", looseEnds],
];

function faults(drawn: readonly Drawn[], check: (diagram: CircuitDiagram) => readonly string[]): readonly string[] {
  return drawn.flatMap(({ name, diagram }) => check(diagram).map((fault) => `${name}: ${fault}`));
}

const document = openDemo();

describe.each(["base", "cold", "tiller", "cold-tiller"])(
  "circuit diagrams of every item of the demo machine, %s",
  (build) => {
    const harness = fitDemo(document, build);
    const drawn = drawAll(harness, allIds(harness));

    test("are many", () => {
      expect(drawn.length).toBeGreaterThan(160);
      expect(Math.max(...drawn.map(({ diagram }) => diagram.layout.model.columns.length))).toBeGreaterThan(15);
    });

    test.each(checks)("%s", (_, check) => {
      expect(faults(drawn, check)).toEqual([]);
    });

    test("coil and contact stand at one height", () => {
      expect(drawn.filter(({ diagram }) => unlevelLinks(diagram) > 0).map(({ name }) => name)).toEqual([]);
      expect(drawn.some(({ diagram }) => diagram.layout.model.links.length > 0)).toBe(true);
    });

    test("every wire that is drawn is drawn once, and all of the circuits but the feed that is cut", () => {
      const wrong = drawn.filter(({ diagram }) => {
        const { scope } = diagram.layout.model;
        const kept = [...scope.edges].flatMap((edge) => {
          const found = harness.edges[edge];
          return found?.kind === "wire" ? [found.wire.id] : [];
        });
        const wires = diagram.groups.filter(({ kind }) => kind === "wire").map(({ item }) => item?.id ?? "");
        const ofCircuits = new Set(scope.circuits.flatMap(({ edges }) => [...edges]));
        const left = [...ofCircuits].filter((edge) => !scope.edges.has(edge) && scope.feed?.edges.has(edge) !== true);
        return left.length > 0 || String([...wires].sort()) !== String(kept.sort());
      });
      expect(wrong.map(({ name }) => name)).toEqual([]);
    });

    test("the supply is above, and no column goes up", () => {
      const wrong = drawn.filter(({ diagram }) => {
        const { model, wides } = diagram.layout;
        return model.columns.some(({ upper, lower }) => {
          const [above, below] = [model.wides[upper], model.wides[lower]];
          const isJoint = (thing: number | undefined): boolean => model.graph.things[thing ?? -1]?.kind === "joint";
          const isRising =
            isJoint(above?.thing) && isJoint(below?.thing) && (above?.height ?? 0) < (below?.height ?? 0) - 1e-9;
          const isUp = isRising || (wides[upper]?.y ?? 0) >= (wides[lower]?.y ?? 0);
          const lowest = model.graph.things[below?.thing ?? -1];
          return isUp || (lowest?.kind === "joint" && lowest.look === "supply");
        });
      });
      expect(wrong.map(({ name }) => name)).toEqual([]);
    });
  },
);

test("bars cross few wires", () => {
  const harness = fitDemo(document, "base");
  const counts = (ids: readonly string[]): readonly number[] =>
    drawAll(harness, ids).map(({ diagram }) => crossings(diagram));
  const plain = ["M2", "B3", "M1", "Y1", "K10", "Y8", "GND-C2", "A1.supply"];
  expect(counts(plain)).toEqual(plain.map(() => 0));
  expect(Math.max(...counts(["CAN-H"]))).toBeLessThanOrEqual(3);
});

const kbl = "kbl/main-harness.kbl";
describe.skipIf(publishedPath(kbl) === undefined)(`circuit diagrams of a published harness ${NEEDS_FILES}`, () => {
  const harness = publishedPath(kbl) === undefined ? undefined : fit(readDocument(publishedFile(kbl)));
  const drawn = harness ? drawAll(harness, allIds(harness)) : [];

  test("are many", () => {
    expect(drawn.length).toBeGreaterThan(250);
  });

  test.each(checks)("%s", (_, check) => {
    expect(faults(drawn, check)).toEqual([]);
  });
});

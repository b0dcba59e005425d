import { describe, expect, test } from "vitest";
import {
  endAddresses,
  isPermittedAt,
  lookUpPoint,
  openHarness,
  type Permit,
  type Connector,
  type Segment,
  type Wire,
} from "ohmward/harness-model";
import { demoText, fitDemo, openDemo } from "./open-demo.ts";

// Everything about this machine is invented; the figures below are those its tables were drawn up with (demo-harness/README.md).
const text = demoText("firnlark-45.ohm.json");
const document = openDemo();
const harness = fitDemo(document, "cold-tiller");
const builds = document.builds.map((build) => build.id);

describe("the demo machine", () => {
  test("opens with no problems and no warnings", () => {
    const opened = openHarness(text);
    expect(opened.ok ? opened.value.warnings : opened.error).toEqual([]);
  });

  test("is small enough to read: under 300 kB, one record a line", () => {
    expect(text.length).toBeLessThan(300_000);
    expect(Math.max(...text.split("\n").map((line) => line.length))).toBeLessThan(1_000);
  });

  test("has the conductors of its tables", () => {
    const cables = document.wires.filter((wire) => wire.harness === "cables");
    expect(document.wires).toHaveLength(126);
    expect(cables).toHaveLength(10);
    expect(document.wires.filter((wire) => wire.when !== undefined)).toHaveLength(8);
    const harnessMm = document.wires
      .filter((wire) => !cables.includes(wire))
      .reduce((sum, wire) => sum + (wire.lengthMm ?? 0), 0);
    expect(Math.round(harnessMm / 1000)).toBe(145);
  });

  test.each([
    ["connectors", 36],
    ["splices", 11],
    ["terminalStuds", 20],
    ["segments", 50],
    ["zones", 11],
    ["builds", 4],
    ["options", 2],
  ] as const)("has its %s: %d", (part, count) => {
    expect(document[part]).toHaveLength(count);
  });

  test("has six connectors between harnesses", () => {
    const between = document.connectors.filter((each) => each.kind === "inline" || each.kind === "pass-through");
    expect(between.map((each) => each.id)).toEqual(["XC1", "XE1", "XT1", "XF1", "XP1", "XP2"]);
  });

  test.each([
    ["base", 119],
    ["cold", 122],
    ["tiller", 122],
    ["cold-tiller", 125],
  ])("fits build %s with %d conductors", (build, count) => {
    expect(fitDemo(document, build).fitted.wires.size).toBe(count);
  });

  test("no splice has fewer than three wires in any build", () => {
    for (const build of builds) {
      const wires = [...fitDemo(document, build).fitted.wires.values()];
      for (const splice of document.splices) {
        const legs = wires.flatMap((wire) => wire.ends).filter((end) => end === splice.id);
        expect(legs.length, `${splice.id} in ${build}`).toBeGreaterThanOrEqual(3);
      }
    }
  });

  test("both halves of an inline cavity carry the same net label", () => {
    for (const build of builds) {
      const { fitted, book } = fitDemo(document, build);
      const netAt = new Map<string, string | undefined>();
      for (const wire of fitted.wires.values()) {
        for (const end of endAddresses(wire)) {
          const point = lookUpPoint(book, end, { by: "wire" });
          if (point.kind !== "contact" || point.side.id === "harness" || point.side.id === "j") continue;
          const key = `${point.connector.id}:${point.cavity.id}`;
          if (netAt.has(key)) expect(wire.net, `${key} in ${build}`).toBe(netAt.get(key));
          netAt.set(key, wire.net);
        }
      }
    }
  });

  test("every terminal of every element exists", () => {
    const missing = document.components.flatMap((component) =>
      component.elements.flatMap((element) => {
        const ends = element.kind === "divider" ? [...element.between, element.tap] : element.between;
        return ends.filter((end) => lookUpPoint(harness.book, end, { by: "element", component }).kind === "none");
      }),
    );
    expect(missing).toEqual([]);
  });

  test("every state says where every switch, driver and regulator stands", () => {
    const movable = document.components.flatMap((component) =>
      component.elements
        .filter(
          (element) =>
            element.kind === "switch" ||
            element.kind === "driver" ||
            (element.kind === "source" && element.role !== "battery"),
        )
        .map((element) => `${component.id}.${element.id}`),
    );
    for (const state of document.states) {
      expect((state.settings ?? []).map((setting) => setting.of).toSorted(), state.id).toEqual(movable.toSorted());
    }
  });

  test("every quantity a sensor needs is given in every state", () => {
    const needed = document.components.flatMap((component) =>
      component.elements.flatMap((element) =>
        element.kind === "ntc" || element.kind === "divider" ? [element.quantity] : [],
      ),
    );
    for (const state of document.states) {
      const given = new Set((state.quantities ?? []).map((quantity) => quantity.name));
      expect(
        needed.filter((name) => !given.has(name)),
        state.id,
      ).toEqual([]);
    }
  });

  test("only six nets may carry a test lamp, and the injector lines are boosted while cranking and running", () => {
    const lamp = document.nets.filter((net) => net.kind === "battery-power").map((net) => net.id);
    expect(lamp.toSorted()).toEqual(["BATT", "BATT-FL1", "HEAT-1", "HEAT-2", "PUMP", "START-50"]);
    const boosted = document.nets.filter((net) => net.kind === "boosted");
    expect(boosted.map((net) => net.id)).toEqual([
      "INJ1-H",
      "INJ1-L",
      "INJ2-H",
      "INJ2-L",
      "INJ3-H",
      "INJ3-L",
      "INJ4-H",
      "INJ4-L",
    ]);
    expect(boosted.every((net) => net.boostedIn?.toSorted().join() === "CRANK,RUN")).toBe(true);
    expect(document.nets.filter((net) => net.kind === "airbag" || net.kind === "high-voltage")).toEqual([]);
    expect(new Set(document.wires.map((wire) => wire.net))).toEqual(new Set(document.nets.map((net) => net.id)));
  });

  test("green and yellow are never combined, colours stay with the wire", () => {
    const both = document.wires.filter((wire) => /GN\/YE|YE\/GN|GNYE/u.test(wire.colour ?? ""));
    expect(both).toEqual([]);
    const colourOf = (id: string) => document.wires.find((wire) => wire.id === id)?.colour;
    expect([colourOf("W15"), colourOf("W16")]).toEqual(["OG", "OG/BK"]);
    expect([colourOf("W105"), colourOf("W113")]).toEqual(["GY/RD", "WH"]);
  });
});

describe("wire lengths", () => {
  // Rule of the tables: way through the segments plus 60 mm for both ends.
  const segments = new Map(document.segments.map((segment) => [segment.id, segment]));
  const routed = document.wires.filter((wire) => wire.route !== undefined);

  test("every harness wire has a route; cables and the jumper loop run on their own", () => {
    const without = document.wires.filter((wire) => wire.route === undefined).map((wire) => wire.id);
    expect(without).toEqual(["C01", "C02", "C03", "C04", "C05", "C06", "C07", "C08", "C09", "C10", "W24"]);
  });

  test.each(routed.map((wire) => [wire.id, wire] as const))("%s is its route plus 60 mm", (_id, wire) => {
    expect(wire.lengthMm).toBe(routeLengthMm(wire) + 60);
  });

  function routeLengthMm(wire: Wire): number {
    const way = (wire.route ?? []).map((id) => segments.get(id)).filter((segment) => segment !== undefined);
    let sumMm = 0;
    way.forEach((segment, at) => {
      const entry = at === 0 ? offsetOf(wire.ends[0], segment) : meeting(segment, way[at - 1]);
      const exit = at === way.length - 1 ? offsetOf(endAddresses(wire)[1], segment) : meeting(segment, way[at + 1]);
      sumMm += Math.abs(entry - exit);
    });
    return sumMm;
  }

  /** Where an end lies on a segment, counted from its place `from`. */
  function offsetOf(end: string, segment: Segment): number {
    // The address book names everything of the document, fitted or not.
    const known = lookUpPoint(harness.book, end, { by: "wire" });
    if (known.kind === "splice") {
      const at = known.splice.at;
      if (at?.segment !== segment.id) throw new Error(`${end} does not lie on ${segment.id}`);
      return at.from === segment.from ? at.offsetMm : segment.lengthMm - at.offsetMm;
    }
    const place =
      known.kind === "contact" ? known.connector.place : known.kind === "stud" ? known.stud.place : undefined;
    if (place === segment.from) return 0;
    if (place === segment.to) return segment.lengthMm;
    throw new Error(`${end} is not at an end of ${segment.id}`);
  }

  function meeting(segment: Segment, other: Segment | undefined): number {
    const touches = (place: string): boolean => other?.from === place || other?.to === place;
    if (touches(segment.from)) return 0;
    if (touches(segment.to)) return segment.lengthMm;
    throw new Error(`${segment.id} does not meet ${other?.id ?? "anything"}`);
  }
});

describe("cavity faces", () => {
  const connector = (id: string): Connector => {
    const found = document.connectors.find((each) => each.id === id);
    if (!found) throw new Error(`no connector ${id}`);
    return found;
  };
  const placeOf = (id: string, cavity: string) => {
    const found = connector(id).cavities.find((each) => each.id === cavity);
    return found && [found.x, found.y];
  };

  test.each([
    ["A1.X1", 16, 4],
    ["A1.X2", 12, 4],
    ["A2.X1", 12, 2],
    ["A3.X1", 6, 2],
    ["A3.X2", 3, 2],
    ["XC1", 8, 2],
    ["XE1", 2, 2],
    ["XT1", 3, 2],
    ["XF1", 5, 1],
    ["XP1", 2, 2],
    ["B4.X", 4, 1],
  ])("%s has %d columns and %d rows, numbered row by row from the top left of the wire side", (id, columns, rows) => {
    const { cavities, face } = connector(id);
    expect(face.view).toBe("wire-side");
    expect(cavities).toHaveLength(columns * rows);
    cavities.forEach((cavity, at) => {
      expect([cavity.id, cavity.x, cavity.y]).toEqual([String(at + 1), at % columns, Math.floor(at / columns)]);
    });
  });

  test("the diagnostic connector has eight cavities on a circle and one in its middle, no letter I", () => {
    const { cavities, face } = connector("XD1");
    expect(face.shape).toBe("round");
    expect(cavities.map((cavity) => cavity.id).join("")).toBe("ABCDEFGHJ");
    const [middleX, middleY] = placeOf("XD1", "J") ?? [NaN, NaN];
    const ring = cavities.filter((cavity) => cavity.id !== "J");
    for (const cavity of ring)
      expect(Math.hypot(cavity.x - (middleX ?? NaN), cavity.y - (middleY ?? NaN))).toBeCloseTo(2, 2);
    const used = document.wires.flatMap(endAddresses).filter((end) => end.startsWith("XD1:"));
    expect(used.toSorted()).toEqual(["XD1:A", "XD1:B", "XD1:C", "XD1:D"]);
  });

  test("terminal sizes follow the tables, and every connector has its contact resistance", () => {
    const sizeOf = (id: string, cavity: string) =>
      connector(id).cavities.find((each) => each.id === cavity)?.terminalMm;
    expect(["48", "49"].map((cavity) => sizeOf("A1.X1", cavity))).toEqual([0.64, 1.5]);
    expect(["3", "4", "13", "15", "16"].map((cavity) => sizeOf("A1.X2", cavity))).toEqual([2.8, 0.64, 2.8, 2.8, 0.64]);
    expect(["1", "2"].map((cavity) => sizeOf("XE1", cavity))).toEqual([6.3, 2.8]);
    for (const { id, contactOhm, cavities } of document.connectors) {
      for (const cavity of cavities)
        expect(cavity.resistanceOhm ?? contactOhm, `${id}:${cavity.id}`).toBeGreaterThan(0);
    }
  });

  test("no two cavities of a connector sit in the same spot", () => {
    for (const { id, cavities } of document.connectors) {
      expect(new Set(cavities.map((cavity) => `${cavity.x} ${cavity.y}`)).size, id).toBe(cavities.length);
    }
  });
});

describe("the drawing", () => {
  test("gives every place a spot of its own, at least 28 units from the next, on a canvas of 1600 by 900", () => {
    const spots = document.topologyNodes.map((place) => ({ id: place.id, x: place.x ?? NaN, y: place.y ?? NaN }));
    for (const [at, a] of spots.entries()) {
      expect(a.x >= 0 && a.x <= 1600 && a.y >= 0 && a.y <= 900, a.id).toBe(true);
      for (const b of spots.slice(at + 1))
        expect(Math.hypot(a.x - b.x, a.y - b.y), `${a.id} ${b.id}`).toBeGreaterThanOrEqual(28);
    }
  });

  test("gives every connector and stud a place", () => {
    expect([...document.connectors, ...document.terminalStuds].filter((each) => each.place === undefined)).toEqual([]);
  });
});

describe("what may be touched", () => {
  test("front probes, screws and adapters are permitted only where the machine's rules allow them", () => {
    const permitted = (permit: Permit) =>
      document.connectors.filter((each) => isPermittedAt(each, permit)).map((each) => each.id);
    expect(permitted("front-probe").toSorted()).toEqual([
      "B1.X",
      "B2.X",
      "B3.X",
      "B4.X",
      "B5.X",
      "B6.X",
      "B7.X",
      "M2.X",
      "RT1.X",
      "RT2.X",
      "XE1",
      "XF1",
      "XT1",
      "Y7.X",
    ]);
    expect(permitted("screw").toSorted()).toEqual(["S1.X", "S5.X", "Y1.X", "Y2.X", "Y3.X", "Y4.X"]);
    expect(document.connectors.find((each) => each.id === "Y8.X")?.permits).toEqual([]);
    const fitted = new Set(
      document.adapters.filter((adapter) => adapter.method === "in-line").flatMap((adapter) => adapter.fits),
    );
    expect(permitted("adapter").toSorted()).toEqual([...fitted].toSorted());
  });

  test("injector studs are reached only with the battery isolated", () => {
    for (const id of ["Y1.X", "Y2.X", "Y3.X", "Y4.X"]) {
      expect(document.connectors.find((each) => each.id === id)?.access).toMatchObject({
        minutes: 45,
        states: ["OFF"],
      });
    }
    expect(document.states.find((state) => state.id === "OFF")?.conditions).toEqual(["battery-disconnected"]);
  });
});

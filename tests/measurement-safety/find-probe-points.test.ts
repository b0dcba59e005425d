import { describe, expect, test } from "vitest";
import { findProbePoints, MAKER_FIRST, METER_PROVEN, OHMS_DEAD } from "ohmward/measurement-safety";
import { TestPointsAnswer } from "ohmward/application";
import { fitDemo, openDemo } from "../demo-harness/open-demo.ts";
import { ask, pointIds, ruleOf } from "./ask.ts";
import { stateOf } from "./made-up-machine.ts";

// The demo machine is invented; what may be touched on it was laid down with it, class by class.
const document = openDemo();
const base = fitDemo(document, "base");
const full = fitDemo(document, "cold-tiller");

describe("findProbePoints() on the demo machine, class by class", () => {
  test.each([
    ["base", "G2+ G2- S10.1 S10.2 FL1.2 A3.S1 M1.30 M1.50 G1.B+ G1.S FB1.1 K10.30 K10.87 R1.1 GND-E1 GND-C1 GND-C2"],
    ["cold-tiller", "K11.30 K11.87 R1.2"],
  ])("P1: posts, studs and grounds of build %s", (build, terminalStuds) => {
    const harness = fitDemo(document, build);
    for (const stud of terminalStuds.split(" "))
      expect(pointIds(ask(harness, stud, "KOEO"), "P1")).toContain(`tip@${stud}`);
  });

  test("P1: both sides of every blade fuse", () => {
    for (let number = 1; number <= 11; number++) {
      const windows = ask(base, `A3.F${number}`, "KOEO").points.filter(
        (point) => point.method === "fuse-window" && point.relation === "itself",
      );
      expect(windows.map((point) => point.item.id)).toEqual([`A3.F${number}`, `A3.F${number}`]);
      expect(new Set(windows.map((point) => point.at)).size).toBe(2);
    }
  });

  test("P1: the diagnostic connector through its mating adapter", () => {
    for (const cavity of "ABCD") {
      expect(pointIds(ask(base, `XD1:${cavity}`, "KOEO"), "P1")).toContain(
        `mating-adapter@XD1.harness:${cavity}~MA-XD1`,
      );
    }
  });

  test.each([
    ["A1.X1:36", "in-line@A1.X1.harness:36~BL-A1X1"],
    ["A1.X2:11", "in-line@A1.X2.harness:11~BL-A1X2"],
    ["A1.X2.device:1", "in-line@A1.X2.device:1~BL-A1X2"],
    ["B3.X:3", "in-line@B3.X.harness:3~TL-3-0.64"],
    ["B7.X:3", "in-line@B7.X.harness:3~TL-B7"],
    ["XT1m:1", "in-line@XT1m:1~JA-XT1"],
    ["XP1o:2", "in-line@XP1o:2~JH-XP"],
    ["A3.X2.device:3", "relay-extension@A3.X2.device:3~RX-K1"],
    ["A3.X1.device:2", "relay-extension@A3.X1.device:2~RX-K2"],
    ["A3.X1.device:12", "relay-extension@A3.X1.device:12~RX-K3"],
    ["A3.X1.device:6", "relay-extension@A3.X1.device:6~RX-K4"],
  ])("P2: %s is read through an adapter, connector mated", (what, id) => {
    const point = ask(base, what, "KOEO").points.find((each) => each.id === id);
    expect(point).toMatchObject({ class: "P2", relation: "itself" });
    expect(point?.unplug).toBeUndefined();
  });

  test.each([
    ["B1.X", 1.5],
    ["B2.X", 1.5],
    ["B3.X", 0.64],
    ["B4.X", 0.64],
    ["B5.X", 1.5],
    ["B6.X", 0.64],
    ["B7.X", 0.64],
    ["Y7.X", 1.5],
    ["M2.X", 2.8],
    ["RT1.X", 1.5],
    ["RT2.X", 1.5],
  ])("P3: %s is opened and front-probed on the harness half", (connector, terminalMm) => {
    const findings = ask(base, `${connector}:1`, "KOEO");
    expect(findings.points.find((each) => each.id === `front-probe@${connector}.harness:1`)).toMatchObject({
      class: "P3",
      unplug: connector,
      terminalMm,
      relation: "itself",
    });
    expect(ruleOf(findings, `front-probe@${connector}.device:1`)).toBe("no-device-half");
  });

  test.each([
    ["XF1e:1", "XF1"],
    ["XE1m:1", "XE1"],
    ["XE1e:1", "XE1"],
    ["XT1m:1", "XT1"],
  ])("P3: both halves of an inline connector are harness halves: %s", (what, unplug) => {
    expect(ask(base, what, "KOEO").points.find((each) => each.id === `front-probe@${what}`)).toMatchObject({ unplug });
  });

  test("P3 says that the reading is an open-circuit one and what is taken away", () => {
    const how = ask(base, "B3.X:3", "KOEO").points.find((each) => each.class === "P3")?.how;
    expect(how).toContain("Turn the key off. Disconnect B3.X");
    expect(how).toContain("0.64 mm pin");
    expect(how).toContain("This is an open-circuit reading: B3 is disconnected.");
  });

  test.each(["S1.X:15", "S1.X:30", "S1.X:50", "S5.X:1", "S5.X:2"])("P4: %s on the screw", (what) => {
    expect(ask(base, what, "KOEO").points).toContainEqual(
      expect.objectContaining({ class: "P4", method: "screw", at: what.replace(".X:", ".X.harness:") }),
    );
  });

  test("P4: injector nuts with the machine isolated only", () => {
    expect(pointIds(ask(base, "Y1.X:1", "OFF"), "P4")).toEqual(["screw@Y1.X.harness:1"]);
    expect(ruleOf(ask(base, "Y1.X:1", "KOEO"), "screw@Y1.X.harness:1")).toBe("out-of-reach");
    expect(ruleOf(ask(base, "Y1.X:1", "RUN"), "screw@Y1.X.harness:1")).toBe("boosted-line");
  });

  test("never: behind a connector, through insulation, a tip in a socket, the moulded plug, each with its reason and a way out", () => {
    const findings = ask(base, "Y8.X:2", "KOEO");
    expect(findings.refused).toContainEqual({
      id: "back-probe@Y8.X.harness:2",
      method: "back-probe",
      item: { type: "contact", id: "Y8.X.harness:2" },
      at: "Y8.X.harness:2",
      rule: "no-back-probe-sealed",
      reason: expect.any(String) as string,
      source: expect.stringContaining("maker withheld") as string,
      instead: "in-line@XF1p:2~TL-XF1",
    });
    expect(ruleOf(findings, "tip-in-socket@Y8.X.harness:2")).toBe("no-tip-in-socket");
    expect(ruleOf(findings, "front-probe@Y8.X.harness:2")).toBe("not-permitted-here");
    expect(ruleOf(findings, "pierce@W99")).toBe("no-piercing");
  });

  test("injector lines: the clamp only while they are driven, an adapter when they are not", () => {
    expect(pointIds(ask(base, "INJ2-H", "RUN"))).toEqual(["clamp@W105"]);
    expect(pointIds(ask(base, "INJ2-H", "CRANK"))).toEqual(["clamp@W105"]);
    expect(pointIds(ask(base, "INJ2-H", "KOEO"), "P2")).toContain("in-line@XP1o:3~JH-XP");
  });
});

describe("findProbePoints() meters", () => {
  const metersAt = (what: string, state: string, id: string): readonly string[] | undefined =>
    ask(full, what, state).points.find((point) => point.id === id)?.meters;

  test("ohms in the isolated state only, and not on the battery side of the isolator", () => {
    expect(metersAt("GND-E1", "OFF", "tip@GND-E1")).toEqual(["dc-voltage", "resistance"]);
    expect(metersAt("GND-E1", "KOEO", "tip@GND-E1")).toEqual(["dc-voltage"]);
    expect(metersAt("S10.2", "OFF", "tip@S10.2")).toEqual(["dc-voltage", "resistance", "test-lamp"]);
    for (const post of ["G2+", "S10.1"])
      expect(metersAt(post, "OFF", `tip@${post}`)).toEqual(["dc-voltage", "test-lamp"]);
    expect(metersAt("G2-", "OFF", "tip@G2-")).toEqual(["dc-voltage", "resistance"]);
  });

  test.each(["tip@G2+", "tip@FL1.2", "tip@R1.1", "tip@R1.2", "tip@M1.50"])("lamp at %s", (id) => {
    expect(metersAt(id.slice(4), "KOEO", id)).toContain("test-lamp");
  });

  test.each([
    ["A1.X1:36", "in-line@A1.X1.harness:36~BL-A1X1"],
    ["A1.X2:1", "in-line@A1.X2.harness:1~BL-A1X2"],
    ["XD1:C", "mating-adapter@XD1.harness:C~MA-XD1"],
    ["S1.X:15", "screw@S1.X.harness:15"],
    ["A3.F3", "fuse-window@A3.X2.device:1~A3.F3"],
    ["GND-C1", "tip@GND-C1"],
  ])("no lamp at %s", (what, id) => {
    expect(metersAt(what, "KOEO", id)).toEqual(["dc-voltage"]);
    const notFor = ask(full, what, "KOEO").points.find((point) => point.id === id)?.notFor;
    expect(notFor?.find((each) => each.meter === "test-lamp")?.rule).toBe("lamp-needs-battery-power");
  });

  test("a clamp reads amperes and nothing else", () => {
    const clamps = ask(base, "BATT", "KOEO").points.filter((point) => point.class === "P0");
    expect(clamps.map((clamp) => clamp.item.id)).toEqual(["C01", "C02", "C08", "C04"]);
    for (const clamp of clamps) {
      expect(clamp.meters).toEqual(["clamp"]);
      expect(clamp.at).toBeUndefined();
    }
  });
});

describe("findProbePoints() dangers of the place", () => {
  test.each(["CRANK", "RUN"])("nothing at all by the turning fan in %s", (state) => {
    for (const what of ["XF1e:1", "XF1p:4", "B5.X:1", "B1.X:1", "Y8.X:1"])
      for (const point of ask(base, what, state).points) expect(point.zone, point.id).not.toBe("Z3");
    expect(ruleOf(ask(base, "W98", state), "clamp@W98")).toBe("turning-parts");
    expect(ruleOf(ask(base, "XF1e:1", state), "in-line@XF1e:1~TL-XF1")).toBe("out-of-reach");
  });

  test("a wire is embraced where nothing turns", () => {
    const clamp = ask(base, "W97", "RUN").points.find((point) => point.id === "clamp@W97");
    expect(clamp?.zone).toBe("Z1");
  });

  test("a cable without a known route is embraced at the end where nothing turns", () => {
    const starter = ask(base, "C02", "CRANK").points.find((point) => point.id === "clamp@C02");
    expect(starter).toMatchObject({ zone: "Z7", relation: "itself" });
    expect(starter?.how).toContain("close to S10.2");
    expect(ruleOf(ask(base, "C04", "CRANK"), "clamp@C04")).toBe("turning-parts");
  });

  test("a stud beside turning parts is read by a lead clipped on before, never with a hand", () => {
    const cranking = ask(base, "M1.50", "CRANK");
    expect(ruleOf(cranking, "tip@M1.50")).toBe("turning-parts");
    const clip = cranking.points.find((point) => point.id === "clip@M1.50");
    expect(clip?.how).toContain("Stop the machine");
    expect(clip?.cautions.join(" ")).toContain("Keep hands away");
    expect(pointIds(ask(base, "M1.50", "KOEO"))).not.toContain("clip@M1.50");
  });

  test("a danger that holds in every state is a caution, one that the state brings a refusal", () => {
    const hitch = ask(full, "XT1m:1", "KOEO").points.find((point) => point.method === "front-probe");
    expect(hitch?.cautions.join(" ")).toContain("Hitch and tiller can drop");
    expect(ruleOf(ask(full, "XE1m:1", "CRANK"), "front-probe@XE1m:1")).toBe("crushing-parts");
  });

  test("no opened connector on a running machine", () => {
    expect(ruleOf(ask(base, "B3.X:3", "RUN"), "front-probe@B3.X.harness:3")).toBe("opened-while-running");
    expect(pointIds(ask(base, "B3.X:3", "RUN"))).toContain("in-line@B3.X.harness:3~TL-3-0.64");
  });
});

describe("findProbePoints() order, relation and way out", () => {
  test("ranks by class, then the thing itself, then minutes", () => {
    expect(ask(base, "A1.X1:36", "KOEO").points.map((point) => [point.id, point.relation, point.minutes])).toEqual([
      ["clamp@W89", "same-net", 2],
      ["in-line@A1.X1.harness:36~BL-A1X1", "itself", 9],
      ["in-line@B3.X.harness:3~TL-3-0.64", "same-net", 3],
      ["front-probe@B3.X.harness:3", "same-net", 2],
    ]);
  });

  test("says what lies between", () => {
    const point = ask(base, "S1.X:30", "KOEO").points.find((each) => each.method === "fuse-window");
    expect(point?.between.map((item) => item.id)).toEqual(["W11", "XC1:1", "W10", "A3.X2:1"]);
  });

  test("says that unplugging parts the place read from the thing asked about", () => {
    const points = ask(base, "XF1e:2", "KOEO").points;
    expect(points.find((each) => each.id === "front-probe@XF1e:2")?.relation).toBe("itself");
    expect(points.find((each) => each.id === "front-probe@XF1p:2")?.relation).toBe("parted");
    expect(ask(base, "B3", "OFF").points.find((each) => each.id === "front-probe@B3.X.harness:3")?.relation).toBe(
      "parted",
    );
  });

  test("a refusal points at the nearest allowed point, and a clamp at a clamp if there is one", () => {
    const refused = ask(base, "START-50", "CRANK").refused;
    const insteadOf = (id: string): string | undefined => refused.find((each) => each.id === id)?.instead;
    expect(insteadOf("back-probe@XE1e:1")).toBe("clip@M1.50");
    expect(insteadOf("back-probe@XE1m:1")).toBe("in-line@A3.X1.harness:5~TL-A3X1");
    expect(insteadOf("clamp@W29")).toBe("clamp@W28");
  });

  test("asks for fewer refusals on wish", () => {
    const count = (refusals: "net" | "asked" | "none"): number =>
      ask(base, "B3.X:1", "KOEO", { refusals }).refused.length;
    expect(count("net")).toBeGreaterThan(count("asked"));
    expect(ask(base, "B3.X:1", "KOEO", { refusals: "asked" }).refused.map((each) => each.id)).toEqual([
      "back-probe@B3.X.harness:1",
      "front-probe@B3.X.device:1",
      "pierce@W72",
      "tip-in-socket@B3.X.harness:1",
    ]);
    expect(count("none")).toBe(0);
  });

  test("takes nodes by number, and wires with them", () => {
    const node = base.nodeNumbers.get("B3.X.harness:3") ?? -1;
    const edge = base.edgeNumbers.get("W89") ?? -1;
    const found = findProbePoints(base, { nodes: [node], edges: [edge] }, stateOf(base, "KOEO"));
    expect(found.points.filter((point) => point.relation === "itself").map((point) => point.id)).toEqual([
      "clamp@W89",
      "in-line@B3.X.harness:3~TL-3-0.64",
      "front-probe@B3.X.harness:3",
    ]);
  });

  test("counts the minutes of the adapter and says when minutes are borrowed", () => {
    const points = ask(base, "B3.X:3", "KOEO").points;
    expect(points.find((each) => each.method === "front-probe")).toMatchObject({ minutes: 2, isEstimated: false });
    expect(points.find((each) => each.method === "in-line")).toMatchObject({ minutes: 3, isEstimated: false });
    expect(points.find((each) => each.method === "clamp")).toMatchObject({ isEstimated: true });
  });
});

describe("findProbePoints() cautions", () => {
  test("every answer puts the maker first and carries the cautions without a place", () => {
    const { cautions } = ask(base, "B3.X:3", "KOEO");
    expect(cautions[0]).toBe(MAKER_FIRST);
    expect(cautions.join(" ")).toContain("Park level");
    expect(ask(base, "B3.X:3", "CRANK").cautions.join(" ")).toContain("Before cranking");
    expect(cautions.join(" ")).not.toContain("Before cranking");
    expect(ask(base, "XP1:1", "KOEO").cautions.join(" ")).toContain("up to 65 V");
  });

  test("every reading in volts asks for a proven meter, every one in ohms for a dead circuit", () => {
    for (const state of document.states)
      for (const point of ask(full, "GND", state.id).points) {
        expect(point.cautions.includes(METER_PROVEN), point.id).toBe(point.meters.includes("dc-voltage"));
        expect(point.cautions.includes(OHMS_DEAD), point.id).toBe(point.meters.includes("resistance"));
      }
  });

  test("a point carries the cautions of its zone and component", () => {
    const at = (what: string, id: string): string =>
      ask(base, what, "KOEO")
        .points.find((point) => point.id === id)
        ?.cautions.join(" ") ?? "";
    expect(at("G2+", "tip@G2+")).toContain("explosive gas");
    expect(at("A1.X1:36", "in-line@A1.X1.harness:36~BL-A1X1")).toContain("No test lamp and no ohmmeter");
  });

  test("the shape is that of the answer for screen and command line", () => {
    const { points, refused } = ask(base, "GND", "KOEO");
    const named = points.map((point) => ({ ...point, between: point.between.map((item) => item.id) }));
    expect(TestPointsAnswer.shape.points.safeParse(named).error).toBeUndefined();
    expect(TestPointsAnswer.shape.refused.safeParse(refused).error).toBeUndefined();
  });
});

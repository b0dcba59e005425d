import { describe, expect, test } from "vitest";
import { z } from "zod";
import { demoText } from "../demo-harness/open-demo.ts";
import { askDemo } from "./demo-machine.ts";

// Source: demo-harness/expected.json, the ways written down by hand from the wiring tables, apart from this program.
const { traces } = z
  .object({
    traces: z.array(
      z.object({
        id: z.string(),
        builds: z.array(z.string()).min(1),
        between: z.tuple([z.string(), z.string()]),
        edges: z.array(z.string()),
        through: z.array(z.string()).optional(),
        stubs: z.array(z.string()).optional(),
        colours: z.array(z.string()).optional(),
        jointsBeforeCoil: z.number().optional(),
        jointsAfterCoil: z.number().optional(),
      }),
    ),
  })
  .parse(JSON.parse(demoText("expected.json")));

/**
 * Two ways start and end inside a box, where other ways run beside them: they are asked for between the outermost things a person
 * would name, their own first and last element.
 */
function endsOf({ between, edges }: (typeof traces)[number]): readonly [string, string] {
  const isInside = between.some((address) => address.includes("#"));
  return isInside ? [edges[0] ?? "", edges.at(-1) ?? ""] : between;
}

describe("askBetween() on the worked ways of the demo machine", () => {
  const cases = traces.flatMap((trace) => trace.builds.map((build) => [trace.id, build, trace] as const));
  test("there are eleven of them, in all builds", () => {
    expect(traces).toHaveLength(11);
    expect(cases).toHaveLength(40);
  });

  test.each(cases)("%s in build %s is found edge by edge", (_id, build, trace) => {
    const [from, to] = endsOf(trace);
    const answer = askDemo("path", { kind: "path", from, to }, { build });
    const points = answer.path.filter((facts) => facts.type === "splice" || facts.type === "stud");
    const edges = answer.path.filter((facts) => facts.type !== "splice" && facts.type !== "stud");
    expect(edges.map((facts) => facts.id)).toEqual(trace.edges);
    expect(points.map((facts) => facts.id)).toEqual(expect.arrayContaining([...(trace.through ?? [])]));
    if (trace.colours) {
      expect(answer.path.flatMap((facts) => (facts.type === "wire" ? (facts.colour ?? "") : []))).toEqual(
        trace.colours,
      );
    }
    if (trace.stubs) {
      const stubs = answer.branches.flatMap((branch) => branch.ways.map((way) => way.wire));
      expect(stubs.sort()).toEqual([...trace.stubs].sort());
    }
    // All of them are single ways: whatever lies between must be passed.
    expect([...answer.mustPass].sort()).toEqual([...answer.between].sort());
    expect(answer.alternatives).toEqual([]);
    expect(answer.alternativesComplete).toBe(true);
  });

  test.each(["base", "cold"])(
    "the start chain in build %s has ten joints before the relay coil and two after it",
    (build) => {
      const trace = traces.find((each) => each.id === "start-chain");
      const answer = askDemo("path", { kind: "path", from: "A3.F3", to: "A1.X2:27" }, { build });
      const coil = answer.path.findIndex((facts) => facts.id === "A3.K1-coil");
      const joints = (part: typeof answer.path): number => part.filter((facts) => facts.type === "contact").length;
      expect(coil).toBeGreaterThan(0);
      expect([joints(answer.path.slice(0, coil)), joints(answer.path.slice(coil))]).toEqual([10, 2]);
      expect([trace?.jointsBeforeCoil, trace?.jointsAfterCoil]).toEqual([10, 2]);
      expect(answer.through).toBe("loads");
    },
  );

  test("the tiller puts two wires, two joints and a switch in the place of the jumper", () => {
    const ids = (build: string): readonly string[] =>
      askDemo(
        "path",
        { kind: "path", from: "XT1m:1", to: "XT1m:2", through: "switches-and-fuses" },
        { build },
      ).path.map((facts) => facts.id);
    expect(ids("base")).toEqual(["XT1:1", "W24", "XT1:2"]);
    expect(ids("tiller")).toEqual(["XT1:1", "W25", "S4.X:1", "S4.contact", "S4.X:2", "W26", "XT1:2"]);
  });
});

describe("askBetween()", () => {
  test("tells of each wire what is needed to find it, with the way through the harness", () => {
    const answer = askDemo("path", { kind: "path", from: "a1.x1:36", to: "b3" });
    expect(answer.path[1]).toMatchObject({
      type: "wire",
      id: "W89",
      colour: "WH/RD",
      crossSectionMm2: 0.5,
      lengthMm: 1060,
      net: "RAIL-P",
      ends: ["A1.X1:36", "B3.X:3"],
      route: ["SG01", "SG02", "SG04", "SG07"],
    });
    expect(answer.wireLengthMm).toBe(1060);
    expect(answer.route.steps.map((step) => step.segment)).toEqual(["SG01", "SG02", "SG04", "SG07"]);
    expect(answer.route.zones.map((zone) => zone.zone)).toEqual(["Z1", "Z2"]);
    expect(answer).toMatchObject({
      origin: "data",
      through: "conductors",
      build: "base",
      state: "OFF",
      assumptions: [],
    });
  });

  test("names what every way passes where there are several ways", () => {
    const answer = askDemo("path", { kind: "path", from: "A1.X2", to: "SP2" });
    expect([...answer.mustPass, ...answer.between].length).toBeGreaterThan(answer.path.length);
    expect(answer.between).toEqual(expect.arrayContaining(["W04", "W05"]));
    expect(answer.mustPass).not.toContain("W04");
  });

  test("a way through switches says that they count as closed", () => {
    const answer = askDemo("path", { kind: "path", from: "S1.X:50", to: "XC1:3" });
    expect(answer.through).toBe("switches-and-fuses");
    expect(answer.origin).toBe("computed");
    expect(answer.assumptions.join(" ")).toMatch(/Switches and relay contacts can close/u);
  });
});

describe("askBetween() without a way", () => {
  test("names the switch that a trace by conductors ends at, and the builds that have a way", () => {
    const question = { kind: "path", from: "XT1m:1", to: "XT1m:2", through: "conductors" } as const;
    const answer = askDemo("no-path", question, { build: "tiller" });
    expect(answer.cut).toEqual({ kind: "element", at: { type: "element", id: "S4.contact" } });
    expect(answer.joinedIn).toEqual(["base", "cold"]);
    expect(answer.text).toMatch(/ends at S4\.contact .*There is a path in: base, cold\./u);
  });

  test("tells the first switch on the way a person has in mind, not some coil on a shorter one", () => {
    const answer = askDemo("no-path", { kind: "path", from: "A3.F3", to: "A1.X2:27", through: "conductors" });
    expect(answer.cut).toEqual({ kind: "element", at: { type: "element", id: "S1.start" } });
    expect(answer.joinedIn).toEqual([]);
  });

  test("says of one point that nothing lies between it and itself", () => {
    const answer = askDemo("no-path", { kind: "path", from: "SP11", to: "SP11" });
    expect(answer.cut.kind).toBe("same");
    expect(answer.text).toMatch(/same point/u);
  });
});

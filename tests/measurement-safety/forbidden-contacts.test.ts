import { describe, expect, test } from "vitest";
import type { Harness } from "ohmward/harness-model";
import {
  findProbePoints,
  isContactPermitted,
  METHODS,
  RULES,
  type Meter,
  type Method,
  type ProbeFindings,
  type Rule,
} from "ohmward/measurement-safety";
import { resolve } from "ohmward/connectivity";
import { fitDemo, openDemo } from "../demo-harness/open-demo.ts";
import { forbiddenOn, type Told } from "./forbidden-contacts.ts";
import { fitMadeUpMachine } from "./made-up-machine.ts";

const document = openDemo();
const forbidden = forbiddenOn(document);
const fitted = new Map(document.builds.map((build) => [build.id as string, fitDemo(document, build.id)]));

/** Every thing a build has: both halves of every contact, studs, splices, inner points, wires, elements, components, connectors, nets. */
function everyThing(harness: Harness): readonly string[] {
  const elements = harness.edges.flatMap((edge) =>
    edge.kind === "element" ? [`${edge.component.id}.${edge.element.id}`] : [edge.key],
  );
  const { components, connectors } = harness.fitted;
  const nets = [...harness.fitted.wires.values()].flatMap((wire) => wire.net ?? []);
  return [
    ...new Set([
      ...harness.nodes.map((node) => node.key),
      ...elements,
      ...components.keys(),
      ...connectors.keys(),
      ...nets,
    ]),
  ];
}

function told(harness: Harness, { state, points }: ProbeFindings): readonly Told[] {
  return points.map(({ method, at, item, meters, zone, segment, terminalMm, adapter }) => ({
    build: harness.build.id,
    state,
    method,
    at: at ?? item.id,
    meters,
    zone,
    segment,
    terminalMm,
    adapter,
  }));
}

/** What is wrong with an answer, as texts. */
function wrongIn(all: readonly Told[]): readonly string[] {
  return all.flatMap((each) => {
    const why = forbidden(each);
    return why === undefined
      ? []
      : [`${each.build} ${each.state}: ${each.method} at ${each.at} (${each.meters.join(", ")}) is ${why}`];
  });
}

/** Each build takes a share of the things, together they take all; OHMWARD_WHOLE=1 takes all in each. */
const isWhole = process.env["OHMWARD_WHOLE"] === "1";

describe("no answer ever offers a forbidden contact", () => {
  test.each(document.builds.map((build, turn) => ({ id: build.id, turn })))(
    "findProbePoints() of every thing in every state, build $id",
    ({ id, turn }) => {
      const harness = fitDemo(document, id);
      const all = everyThing(harness);
      expect(all.length).toBeGreaterThan(500);
      const items = isWhole ? all : all.filter((_, at) => at % document.builds.length === turn);
      let count = 0;
      for (const item of items) {
        const found = resolve(harness, item);
        if (found.kind !== "one") throw new Error(`${item} is ${found.kind}`);
        for (const state of document.states) {
          const answer = told(harness, findProbePoints(harness, found.item, state, { refusals: "none" }));
          count += answer.length;
          expect(wrongIn(answer)).toEqual([]);
        }
      }
      expect(count).toBeGreaterThan(40 * items.length);
    },
    60_000,
  );

  test.each(document.builds.map((build) => build.id))(
    "isContactPermitted() of every point, method and meter, build %s",
    (id) => {
      const harness = fitDemo(document, id);
      const points = [...harness.nodes.map((node) => node.key), ...harness.fitted.wires.keys()];
      let count = 0;
      for (const told of everyContact(harness, points)) {
        count++;
        expect(wrongIn([told])).toEqual([]);
      }
      expect(count).toBeGreaterThan(1_000);
    },
    60_000,
  );
});

const METERS: readonly Meter[] = ["dc-voltage", "resistance", "clamp", "test-lamp"];

function* everyContact(harness: Harness, points: readonly string[]): Iterable<Told> {
  for (const state of document.states)
    for (const at of points)
      for (const method of Object.keys(METHODS) as Method[])
        for (const meter of METERS) {
          const answer = isContactPermitted(harness, state, { point: at, method, meter });
          if (answer.kind === "permitted")
            yield { build: harness.build.id, state: state.id, method, at, meters: [meter] };
        }
}

describe("the check of forbidden contacts", () => {
  const at = (more: Partial<Told>): Told => ({
    build: "base",
    state: "KOEO",
    method: "in-line",
    at: "B3.X.harness:3",
    meters: ["dc-voltage"],
    ...more,
  });

  test.each<[string, Partial<Told>]>([
    ["back of a connector, insulation, tip in a socket", { method: "back-probe" }],
    ["back of a connector, insulation, tip in a socket", { method: "pierce", at: "W89" }],
    ["the moulded plug", { at: "Y8.X.harness:2" }],
    ["an injector line", { at: "XP1o:3", state: "RUN" }],
    ["a module without an adapter", { at: "A2.X1.harness:7", method: "front-probe" }],
    ["a device half", { at: "B3.X.device:3", method: "front-probe" }],
    ["opening this connector", { at: "XC1m:1", method: "front-probe" }],
    ["a test lead of another size", { method: "front-probe", terminalMm: 1.5 }],
    ["ohms on a live circuit", { meters: ["dc-voltage", "resistance"] }],
    ["ohms on the battery", { at: "S10.1", method: "tip", state: "OFF", meters: ["resistance"] }],
    ["a test lamp", { meters: ["test-lamp"] }],
    ["hands near moving parts", { at: "M1.50", method: "tip", state: "CRANK" }],
    ["anything near the turning fan", { at: "XF1e:1", state: "CRANK" }],
    ["hands near moving parts", { at: "W29", method: "clamp", meters: ["clamp"], state: "RUN", segment: "SG20" }],
  ])("finds %s", (why, more) => {
    expect(forbidden(at(more))).toBe(why);
  });

  test("is content with a good contact", () => {
    expect(forbidden(at({}))).toBeUndefined();
    expect(forbidden(at({ at: "M2.X.harness:1", meters: ["dc-voltage", "test-lamp"] }))).toBeUndefined();
  });
});

describe("every row of the table is missed if it is taken out", () => {
  const madeUp = fitMadeUpMachine();
  // Nothing turns there, and the line of which nothing is known is no airbag line.
  const calm = fitMadeUpMachine({
    zones: ["CALM", "ROLLERS"].map((id) => ({ id, label: id, hazards: [] })),
    statements: [{ about: "W9", what: "harmless", by: "R. Tester", on: "2026-02-03" }],
  });
  const tiller = fitted.get("cold-tiller");

  /** All answers for all machines, as one text. */
  function digest(rules: readonly Rule[]): string {
    return [madeUp, calm, tiller]
      .flatMap((harness) =>
        (harness?.document.states ?? []).map((state) =>
          harness ? findProbePoints(harness, { nodes: [...harness.nodes.keys()] }, state, { rules }) : undefined,
        ),
      )
      .map((answer) => answer?.points.map((point) => `${point.id} ${point.meters.join(" ")}`).join("\n"))
      .join("\n");
  }
  const whole = digest(RULES);
  // No answer looks for a meter on a splice or on the wrong kind of point; only a single question can, see rules.test.ts.
  const notLookedFor = new Set(["nothing-bare", "wrong-place"]);

  test.each(RULES.map((rule) => rule.id).filter((id) => !notLookedFor.has(id)))("%s", (id) => {
    const without = RULES.filter((rule) => rule.id !== id);
    let answer: string;
    try {
      answer = digest(without);
    } catch (error) {
      expect(error).toBeInstanceOf(RangeError);
      return;
    }
    expect(answer).not.toBe(whole);
  });

  // Rows whose loss shows as a forbidden contact on the demo machine itself.
  test.each([
    ["no-device-half", "is a device half"],
    ["boosted-line", "is an injector line"],
    ["turning-parts", "is hands near moving parts"],
    ["crushing-parts", "is hands near moving parts"],
    ["out-of-reach", "is anything near the turning fan"],
    ["not-permitted-here", "is the moulded plug"],
    ["opened-while-running", "is an opened connector on a running machine"],
    ["ohms-live", "is ohms on a live circuit"],
    ["ohms-on-battery", "is ohms on the battery"],
    ["lamp-needs-battery-power", "is a test lamp"],
  ])("without %s something %s", (id, wrong) => {
    const rules = RULES.filter((rule) => rule.id !== id);
    const found = document.states.flatMap((state) =>
      tiller ? told(tiller, findProbePoints(tiller, { nodes: [...tiller.nodes.keys()] }, state, { rules })) : [],
    );
    expect(wrongIn(found).join("\n")).toContain(wrong);
  });

  test.each(["no-piercing", "no-back-probe-sealed", "no-back-probe-unsealed", "no-tip-in-socket"])(
    "without %s there is no answer at all",
    (id) => {
      expect(() => digest(RULES.filter((rule) => rule.id !== id))).toThrow("must never be offered");
    },
  );
});

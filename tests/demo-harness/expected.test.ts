import { describe, expect, test } from "vitest";
import { lookUpPoint, type Harness } from "ohmward/harness-model";
import { z } from "zod";
import { demoText, fitDemo, openDemo } from "./open-demo.ts";

const value = z.union([z.number(), z.string(), z.null(), z.record(z.string(), z.unknown())]);
const Expected = z.object({
  readings: z.array(
    z.object({
      state: z.string(),
      red: z.string(),
      black: z.string(),
      volt: z.number(),
      adapter: z.string().optional(),
    }),
  ),
  coolant: z.array(z.object({ celsius: z.number(), ohm: z.number(), volt: z.number() })),
  resistances: z.array(
    z.object({ red: z.string(), black: z.string(), unplugged: z.array(z.string()), ohm: z.number() }),
  ),
  traces: z.array(
    z.object({
      id: z.string(),
      builds: z.array(z.string()).min(1),
      between: z.tuple([z.string(), z.string()]),
      edges: z.array(z.string()).min(1),
      through: z.array(z.string()).optional(),
    }),
  ),
  faults: z.array(
    z.object({
      id: z.string(),
      builds: z.array(z.string()).min(1),
      codes: z.array(z.string()),
      fault: z.object({ kind: z.string(), of: z.string().optional() }).loose(),
      state: z.string(),
      basis: z.enum(["computed", "reasoned"]),
      readings: z.array(
        z.object({ red: z.string(), black: z.string(), unit: z.enum(["V", "ohm"]), good: value, faulty: value }),
      ),
    }),
  ),
});

const document = openDemo();
const expected = Expected.parse(JSON.parse(demoText("expected.json")));
const states = new Set<string>(document.states.map((state) => state.id));
const adapters = new Set<string>(document.adapters.map((adapter) => adapter.id));
const harnesses = new Map(document.builds.map((build) => [String(build.id), fitDemo(document, build.id)]));

function harnessOf(build: string): Harness {
  const harness = harnesses.get(build);
  if (!harness) throw new Error(`no build ${build}`);
  return harness;
}

/** Whether a meter lead's address names a point that is fitted in the build. */
function isFittedPoint(address: string, build: string): boolean {
  const { book, nodeNumbers } = harnessOf(build);
  const point = lookUpPoint(book, address, { by: "wire" });
  if (point.kind !== "contact") return nodeNumbers.has(address);
  return nodeNumbers.has(`${point.side.name ?? `${point.connector.id}.${point.side.id}`}:${point.cavity.id}`);
}

describe("expected readings", () => {
  test("are 33 voltages and 5 resistances between points that the base build has", () => {
    expect(expected.readings).toHaveLength(33);
    expect(expected.resistances).toHaveLength(5);
    for (const { red, black } of [...expected.readings, ...expected.resistances]) {
      expect([red, black].filter((address) => !isFittedPoint(address, "base"))).toEqual([]);
    }
    expect(expected.readings.filter((reading) => !states.has(reading.state))).toEqual([]);
    expect(
      expected.readings.filter((reading) => reading.adapter !== undefined && !adapters.has(reading.adapter)),
    ).toEqual([]);
  });

  test("of the coolant sensor follow the beta equation and the pull-up of the document", () => {
    // Source: beta equation of a thermistor, R = R0 exp(B (1/T - 1/T0)), T in kelvin (general physics; makers' handbooks give it so).
    const elements = document.components.flatMap((component) =>
      component.elements.map((element) => ({ key: `${component.id}.${element.id}`, element })),
    );
    const ntc = elements.find((each) => each.key === "B5.ntc")?.element;
    const pullUp = elements.find((each) => each.key === "A1.pull-39")?.element;
    if (ntc?.kind !== "ntc" || !("betaK" in ntc.curve) || pullUp?.kind !== "bias")
      throw new Error("coolant circuit is missing");
    const { referenceOhm, referenceC, betaK } = ntc.curve;
    for (const { celsius, ohm, volt } of expected.coolant) {
      const resistanceOhm = referenceOhm * Math.exp(betaK * (1 / (celsius + 273.15) - 1 / (referenceC + 273.15)));
      expect(Math.abs(resistanceOhm - ohm)).toBeLessThanOrEqual(0.5);
      expect(Math.abs((5 * resistanceOhm) / (resistanceOhm + pullUp.resistanceOhm) - volt)).toBeLessThanOrEqual(0.0051);
    }
  });
});

describe("expected traces", () => {
  test.each(expected.traces.map((trace) => [trace.id, trace] as const))(
    "%s is a chain in each of its builds",
    (_id, trace) => {
      for (const build of trace.builds) {
        const { edgeNumbers, index, nodes, nodeNumbers } = harnessOf(build);
        let node = nodeNumbers.get(trace.between[0]) ?? -1;
        const passed: string[] = [];
        for (const key of trace.edges) {
          const edge = edgeNumbers.get(key) ?? -1;
          const ends = [index.from[edge], index.to[edge]];
          expect(ends, `${key} goes on from ${nodes[node]?.key ?? trace.between[0]}`).toContain(node);
          node = (ends[0] === node ? ends[1] : ends[0]) ?? -1;
          passed.push(nodes[node]?.key ?? "");
        }
        expect(passed.at(-1)).toBe(trace.between[1]);
        expect(passed).toEqual(expect.arrayContaining([...(trace.through ?? [])]));
      }
    },
  );
});

describe("practice faults", () => {
  test("name things, codes, states and points that exist in their builds", () => {
    expect(expected.faults.map((fault) => fault.id)).toEqual([
      "X01",
      "X02",
      "X04",
      "X05",
      "X06",
      "X09",
      "X10",
      "X11",
      "X12",
      "X13",
      "X17",
      "X18",
      "X19",
      "X20",
    ]);
    const codes = new Set<string>(document.codes.map((code) => code.id));
    for (const fault of expected.faults) {
      expect(states.has(fault.state), fault.id).toBe(true);
      expect(
        fault.codes.filter((code) => !codes.has(code)),
        fault.id,
      ).toEqual([]);
      for (const build of fault.builds) {
        const { book, edgeNumbers } = harnessOf(build);
        const of = fault.fault.of;
        const isKnown = of === undefined || edgeNumbers.has(of) || book.connectors.has(of) || book.sides.has(of);
        expect(isKnown, `${fault.id}: ${of ?? ""}`).toBe(true);
        for (const { red, black } of fault.readings) {
          expect(
            [red, black].filter((address) => !isFittedPoint(address, build)),
            `${fault.id} in ${build}`,
          ).toEqual([]);
        }
      }
    }
  });
});

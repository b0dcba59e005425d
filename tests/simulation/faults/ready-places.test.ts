import { describe, expect, test } from "vitest";
import {
  applyFaults,
  ohmBetween,
  settle,
  solveCircuit,
  withReadyPlaces,
  type Fault,
  type PartList,
  type OperatingPoint,
} from "ohmward/simulation";
import { findScope, listCandidates } from "ohmward/diagnosis";
import { fitDemo, openDemo } from "../../demo-harness/open-demo.ts";

// The circuit with places made ready must be the circuit without them. What that one says is held against ngspice elsewhere.

const harness = fitDemo(openDemo(), "base");
const touching = listCandidates(harness, findScope(harness, ["FE141", "FE411", "M1", "Y1"]))
  .flatMap(({ levels }) => levels.flat())
  .filter(({ kind }) => kind === "short" || kind === "bridge");

function elementStates(state: string): OperatingPoint {
  const answer = solveCircuit(harness, { state });
  if (answer.kind !== "settled") throw new Error(answer.kind);
  return answer;
}

function solve(list: PartList, faults: readonly Fault[]): OperatingPoint {
  const faulty = applyFaults(harness, list, faults);
  if (!faulty.ok) throw new Error(JSON.stringify(faulty.error));
  const operatingPoint = settle(faulty.value);
  if (operatingPoint.kind !== "settled") throw new Error(operatingPoint.kind);
  return operatingPoint;
}

describe("withReadyPlaces", () => {
  const { list } = elementStates("KOEO");
  const ready = withReadyPlaces(harness, list, touching);

  test("leaves the circuit as it is", () => {
    expect(touching.length).toBeGreaterThan(40);
    const [plain, prepared] = [solve(list, []), solve(ready, [])];
    plain.solved.volts.forEach((volt, node) => expect(prepared.solved.volts[node]).toBeCloseTo(volt, 9));
  });

  test("gives every fault the voltages, islands and resistances that it has without them", () => {
    for (const fault of touching.filter((_, at) => at % 7 === 0)) {
      const [plain, prepared] = [solve(list, [fault]), solve(ready, [fault])];
      const nodes = [...list.nodeKeys.keys()];
      const tied = (operatingPoint: OperatingPoint, node: number): boolean =>
        operatingPoint.solved.islands[node] === operatingPoint.solved.islands[list.reference];
      expect(
        nodes.filter((node) => tied(prepared, node)),
        JSON.stringify(fault),
      ).toEqual(nodes.filter((node) => tied(plain, node)));
      for (const node of nodes.filter((each) => tied(plain, each))) {
        expect(prepared.solved.volts[node], JSON.stringify(fault)).toBeCloseTo(plain.solved.volts[node] ?? NaN, 8);
        const ohm = ohmBetween(plain.solved, node, list.reference);
        expect(ohmBetween(prepared.solved, node, list.reference) / (ohm || 1)).toBeCloseTo(ohm === 0 ? 0 : 1, 8);
      }
    }
  });

  test("keeps the shape, so that one plan serves for all", () => {
    const shapes = touching.slice(0, 20).map((fault) => solve(ready, [fault]).list.shape);
    for (const shape of shapes) expect(shape).toBe(ready.shape);
  });

  test("a place on a wire elsewhere than in its middle is made when it is asked for", () => {
    const fault = { kind: "short", of: "W92", to: "GND-E1", ohm: 0, atPercent: 20 } as const;
    const prepared = withReadyPlaces(harness, list, [fault]);
    expect(prepared.parts).toHaveLength(list.parts.length);
    const [plain, later] = [solve(list, [fault]), solve(prepared, [fault])];
    plain.solved.volts.forEach((volt, node) => expect(later.solved.volts[node]).toBeCloseTo(volt, 9));
  });
});

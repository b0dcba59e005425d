import { voltageProfile } from "ohmward/drawing";
import { describe, expect, test } from "vitest";

const size = { width: 300, height: 100 };
const way = [
  { id: "W1", inVolt: 12, outVolt: 11 },
  { id: "X1:1", inVolt: 11, outVolt: 10.99 },
  { id: "E1", inVolt: 10.99, outVolt: 0 },
];

describe("voltageStair()", () => {
  test("has round marks from 0 V to above the highest voltage", () => {
    const { ticks } = voltageProfile([way], size);
    expect(ticks.map(({ volt }) => volt)).toEqual([0, 2, 4, 6, 8, 10, 12]);
    expect(ticks[0]?.y).toBe(100);
    expect(ticks.at(-1)?.y).toBe(0);
  });

  test("falls only inside columns, and labels what takes a share worth it", () => {
    const { lines, columns } = voltageProfile([way], size);
    expect(columns.map(({ id, x, width }) => [id, x, width])).toEqual([
      ["W1", 0, 100],
      ["X1:1", 100, 100],
      ["E1", 200, 100],
    ]);
    const points = lines[0]?.pieces[0] ?? [];
    expect(points).toHaveLength(12);
    expect(points.every((point, at) => at === 0 || point.y >= (points[at - 1]?.y ?? 0))).toBe(true);
    expect(lines[0]?.steps.map(({ id, isLarge }) => [id, isLarge])).toEqual([
      ["W1", true],
      ["E1", true],
    ]);
  });

  test("breaks the line where things float, and tells which", () => {
    const open = [way[0], { id: "X1:1", inVolt: null, outVolt: null }, { id: "E1", inVolt: 0, outVolt: 0 }].flatMap(
      (each) => each ?? [],
    );
    const { lines, floating } = voltageProfile([open], size);
    expect(lines[0]?.pieces).toHaveLength(2);
    expect(floating).toEqual([[1]]);
  });

  test("draws several lines on one axis, also below 0 V and with nothing at all", () => {
    const below = way.map(({ id }) => ({ id, inVolt: -0.4, outVolt: -0.4 }));
    const { ticks } = voltageProfile([way, below], size);
    expect(ticks[0]?.volt).toBe(-2);
    expect(voltageProfile([way, below], size).gap?.x).toBe(100);
    expect(voltageProfile([way, way], size).gap).toBeUndefined();
    expect(voltageProfile([], size).ticks.length).toBeGreaterThan(1);
  });
});

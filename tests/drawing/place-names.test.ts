import fc from "fast-check";
import { placeNames, type NamedPoint, type NameSide } from "ohmward/drawing";
import { expect, test } from "vitest";

const size = { width: 40, height: 14, halfWidth: 8, halfHeight: 6 };

function box(
  { x, y, width, height, halfWidth, halfHeight }: NamedPoint,
  side: NameSide,
): readonly [number, number, number, number] {
  const [dx, dy] = [halfWidth + width / 2 + 2, halfHeight + height / 2 + 2];
  const middle = { below: [x, y + dy], above: [x, y - dy], right: [x + dx, y], left: [x - dx, y], none: [x, y] }[side];
  const [mx = x, my = y] = middle;
  return [mx - width / 2, mx + width / 2, my - height / 2, my + height / 2];
}

test("placeNames() sets a name below its thing where there is room, else on another side, else nowhere", () => {
  const crowd = [
    { x: 0, y: 0, ...size },
    { x: 0, y: 24, ...size },
    { x: 4, y: 2, ...size },
    { x: 500, y: 0, ...size },
  ];
  expect(placeNames(crowd)).toEqual(["above", "below", "right", "below"]);
  expect(placeNames([{ x: 0, y: 0, ...size }], [{ x: 0, y: 0, width: 400, height: 400 }])).toEqual(["none"]);
});

test("placeNames() never sets a name on another name or thing", () => {
  const point = fc.record({ x: fc.integer({ min: 0, max: 300 }), y: fc.integer({ min: 0, max: 300 }) });
  fc.assert(
    fc.property(fc.array(point, { maxLength: 60 }), (points) => {
      const items = points.map((each) => ({ ...each, ...size }));
      const sides = placeNames(items);
      const names = items.flatMap((item, at) => (sides[at] === "none" ? [] : [box(item, sides[at] ?? "none")]));
      const bodies = items.map(
        ({ x, y, halfWidth, halfHeight }) => [x - halfWidth, x + halfWidth, y - halfHeight, y + halfHeight] as const,
      );
      const meets = (a: readonly number[], b: readonly number[]): boolean =>
        (a[0] ?? 0) < (b[1] ?? 0) &&
        (b[0] ?? 0) < (a[1] ?? 0) &&
        (a[2] ?? 0) < (b[3] ?? 0) &&
        (b[2] ?? 0) < (a[3] ?? 0);
      names.forEach((name, at) => {
        expect(names.some((other, next) => next !== at && meets(name, other))).toBe(false);
        expect(bodies.some((body) => meets(name, body))).toBe(false);
      });
    }),
    { seed: 11, numRuns: 80 },
  );
});

import { describe, expect, test } from "vitest";
import { resistance, unitNetwork } from "../support/networks.ts";
import { lookFromTwoPoints } from "../support/plain-network.ts";

// Networks whose resistance is known as a fraction. Tolerance 1e-12 of the value.
const TEXTBOOK = "worked out from symmetry in textbooks; recomputed with exact fractions; confidence high";

type Pairs = readonly (readonly [number, number])[];

/** Corners of a cube are 0 to 7; an edge where two numbers differ in one bit. */
const cube: Pairs = Array.from({ length: 8 }, (_, corner) => corner).flatMap((corner) =>
  [1, 2, 4].filter((bit) => (corner & bit) === 0).map((bit) => [corner, corner | bit] as const),
);

const complete = (count: number): Pairs =>
  Array.from({ length: count }, (_, a) => a).flatMap((a) =>
    Array.from({ length: count - a - 1 }, (_, b) => [a, a + b + 1] as const),
  );

/** Corners opposite each other are 0 and 1, 2 and 3, 4 and 5. */
const octahedron: Pairs = complete(6).filter(([a, b]) => a >> 1 !== b >> 1);

const torus = (size: number): Pairs =>
  Array.from({ length: size * size }, (_, at) => at).flatMap((at) => {
    const [row, column] = [Math.floor(at / size), at % size];
    return [
      [at, row * size + ((column + 1) % size)],
      [at, ((row + 1) % size) * size + column],
    ] as const;
  });

/** Sections of 1 ohm in series, 1 ohm across, seen from nodes 0 (foot) and 1. */
const ladder = (sections: number): Pairs =>
  Array.from({ length: sections }, (_, at) => [[at + 1, at + 2] as const, [at + 2, 0] as const]).flat();

function expectRelative(actual: number, wanted: number, share = 1e-12): void {
  expect(Math.abs(actual - wanted)).toBeLessThanOrEqual(share * Math.abs(wanted));
}

describe("ohmBetween() on networks of 1 ohm", () => {
  const fan = cube.filter(([a, b]) => !(a === 0 && b === 1));
  test.each<readonly [string, number, Pairs, number, number, number]>([
    // Source: schoolphysics page on the cube (read); confidence high.
    ["cube, along an edge", 8, cube, 0, 1, 7 / 12],
    ["cube, across a face", 8, cube, 0, 3, 3 / 4],
    ["cube, through the body", 8, cube, 0, 7, 5 / 6],
    // Source: R / (1 - R / r) with R = 7/12; exact fractions; confidence high.
    ["cube with an edge taken out, across the gap", 8, fan, 0, 1, 7 / 5],
    // Source: TEXTBOOK.
    ["tetrahedron", 4, complete(4), 0, 1, 1 / 2],
    ["octahedron, neighbours", 6, octahedron, 0, 2, 5 / 12],
    ["octahedron, opposite", 6, octahedron, 0, 1, 1 / 2],
  ])(`%s (${TEXTBOOK})`, (...[, nodeCount, pairs, first, second, wanted]) => {
    expectRelative(resistance(unitNetwork(nodeCount, pairs), first, second), wanted);
  });

  test.each([2, 3, 5, 8, 13, 40])("complete network of %i nodes is 2/n between any two (textbook, high)", (count) => {
    const network = unitNetwork(count, complete(count));
    expectRelative(resistance(network, 0, 1), 2 / count);
    expectRelative(resistance(network, 0, count - 1), 2 / count);
  });

  test.each([
    [3, 4 / 9],
    [4, 15 / 32],
    [5, 12 / 25],
    [12, 143 / 288],
  ])("torus of %i by %i between neighbours (Foster's theorem, high)", (size, wanted) => {
    expectRelative(resistance(unitNetwork(size * size, torus(size)), 0, 1), wanted);
  });

  test.each([
    [1, 2],
    [2, 5 / 3],
    [3, 13 / 8],
    [4, 34 / 21],
    [5, 89 / 55],
    [6, 233 / 144],
    [40, (1 + Math.sqrt(5)) / 2],
  ])("ladder of %i sections (quotients of Fibonacci numbers, textbook, high)", (sections, wanted) => {
    expectRelative(resistance(unitNetwork(sections + 2, ladder(sections)), 0, 1), wanted);
  });

  test("ladder with 1 ohm in both rails tends to 1 + sqrt 3 (schoolphysics page, read, high)", () => {
    const sections = 40;
    const pairs = Array.from({ length: sections }, (_, at) => {
      const [top, bottom] = [2 * at, 2 * at + 1];
      return [[top, top + 2] as const, [bottom, bottom + 2] as const, [top + 2, bottom + 2] as const];
    }).flat();
    expectRelative(resistance(unitNetwork(2 * sections + 2, pairs), 0, 1), 1 + Math.sqrt(3));
  });
});

describe("bridges", () => {
  const bridge = (arms: readonly [number, number, number, number, number]) => {
    const [a, b, c, d, middle] = arms;
    const ends = [
      [0, 1, a],
      [0, 2, b],
      [1, 3, c],
      [2, 3, d],
      [1, 2, middle],
    ] as const;
    return { nodeCount: 4, branches: ends.map(([from, to, ohm]) => ({ from, to, ohm })) };
  };

  // A question site prints 155/74 for it, which lies outside the limits 2.381 and 2.4 of a short and an open bridge.
  test("1, 2 over 3, 4 with 5 across is 170/71 (exact fractions, high)", () => {
    expectRelative(resistance(bridge([1, 2, 3, 4, 5]), 0, 3), 170 / 71);
  });

  test("a balanced one does not see what is across (textbook, high)", () => {
    expectRelative(resistance(bridge([1, 1, 1, 1, 7]), 0, 3), 1);
  });

  test("20 ohm all over and a lead of 20 ohm is 40 ohm (expertsmind page, read, medium)", () => {
    const { branches } = bridge([20, 20, 20, 20, 20]);
    expectRelative(resistance({ nodeCount: 5, branches: [...branches, { from: 3, to: 4, ohm: 20 }] }, 0, 4), 40);
  });
});

test("lookFromTwoPoints() sees half the source behind half the resistance in the middle of a divider", () => {
  const branches = [
    { from: 0, to: 1, ohm: 1e6, volt: 12 },
    { from: 1, to: 0, ohm: 1e6 },
  ];
  expect(lookFromTwoPoints({ nodeCount: 3, branches }, 1, 0)).toEqual({ kind: "connected", ohm: 5e5, openVolt: 6 });
  expect(lookFromTwoPoints({ nodeCount: 3, branches }, 2, 0)).toEqual({ kind: "apart" });
});

test("lookFromTwoPoints() and ohmBetween() agree with each other on the closed forms", () => {
  const seen = lookFromTwoPoints(unitNetwork(8, cube), 0, 7);
  expect(seen).toEqual({ kind: "connected", ohm: expect.closeTo(5 / 6, 14) as number, openVolt: 0 });
});

test("a grid of 1 ohm, 61 by 61, is near the endless one (OEIS A355565; Atkinson and van Steenwijk 1999; high)", () => {
  const size = 61;
  const at = (x: number, y: number): number => y * size + x;
  const pairs = Array.from({ length: size * size }, (_, node) => node).flatMap((node) => {
    const [x, y] = [node % size, Math.floor(node / size)];
    return [
      x + 1 < size ? [[node, at(x + 1, y)] as const] : [],
      y + 1 < size ? [[node, at(x, y + 1)] as const] : [],
    ].flat();
  });
  const network = unitNetwork(size * size, pairs);
  const middle = at(30, 30);
  const wanted: readonly (readonly [number, number, number])[] = [
    [1, 0, 1 / 2],
    [1, 1, 2 / Math.PI],
    [2, 1, 4 / Math.PI - 1 / 2],
    [2, 0, 2 - 4 / Math.PI],
  ];
  for (const [x, y, ohm] of wanted) {
    const found = resistance(network, middle, at(30 + x, 30 + y));
    // A grid that ends is always a little above the endless one.
    expect(found).toBeGreaterThan(ohm);
    expect(found).toBeLessThan(ohm * 1.002);
  }
});

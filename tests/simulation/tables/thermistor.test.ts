import { describe, expect, test } from "vitest";
import { thermistorOhm } from "ohmward/simulation";

// Source: Semitec sheet of the 103AT (10 kohm at 25 C); confidence high. kohm by degrees C.
const sheet: readonly (readonly [number, number])[] = [
  [-20, 67.77],
  [0, 27.28],
  [25, 10],
  [50, 4.16],
  [85, 1.451],
  [100, 0.9731],
  [110, 0.7576],
];

// Source: a public sensor calibration page, usual coolant curve, 2.5 kohm at 20 C; confidence high. With 1 kohm to 5 V beside it.
const coolant: readonly (readonly [number, number, number])[] = [
  [-40, 45_313, 4.892],
  [-20, 15_462, 4.696],
  [0, 5896, 4.275],
  [20, 2500, 3.571],
  [40, 1175, 2.701],
  [60, 596, 1.867],
  [80, 323, 1.221],
  [100, 187, 0.788],
  [120, 113, 0.508],
  [140, 72, 0.336],
];

describe("thermistorOhm()", () => {
  test.each(coolant)("from a table: %i C is %i ohm, %f V on a 1 kohm pull-up", (celsius, ohm, volt) => {
    const found = thermistorOhm({ tableCOhm: coolant.map(([at, value]) => [at, value]) }, celsius);
    expect(found).toBeCloseTo(ohm, 8);
    expect((5 * found) / (1000 + found)).toBeCloseTo(volt, 3);
  });

  test("between the rows of a table it is nearer to the sheet than a straight line", () => {
    const sparse = sheet.filter((_, at) => at % 2 === 0);
    for (const [celsius, kiloohm] of sheet.filter((_, at) => at % 2 === 1)) {
      const found = thermistorOhm({ tableCOhm: sparse }, celsius);
      // The largest error is that of one curve piece of 45 K.
      expect(Math.abs(found / kiloohm - 1)).toBeLessThan(0.08);
    }
    expect(thermistorOhm({ tableCOhm: sparse }, 0) / 27.28).toBeLessThan(((10 + 67.77) / 2 / 27.28) * 0.9);
  });

  // Source: errors of the two-point beta equation against the sheet, 3435 K; worked out, confidence high.
  test.each([
    [-20, 0.144],
    [0, 0.052],
    [25, 0],
    [50, -0.014],
    [100, 0.014],
    [110, 0.025],
  ])("from beta: at %i C off by %f of the sheet, no more and no less", (celsius, share) => {
    const kiloohm = sheet.find(([at]) => at === celsius)?.[1] ?? 0;
    const found = thermistorOhm({ referenceOhm: 10, referenceC: 25, betaK: 3435 }, celsius);
    expect(found / kiloohm - 1).toBeCloseTo(share, 2);
  });

  // Source: IEC 60751, coefficients from four agreeing pages; confidence high.
  test.each([
    [0, 100],
    [100, 138.51],
    [200, 175.86],
    [400, 247.09],
    [600, 313.71],
    [850, 390.48],
    [-40, 84.27],
  ])("a platinum table of the standard's equation gives Pt100 at %i C = %f ohm", (celsius, ohm) => {
    const equation = (t: number): number =>
      100 * (1 + 3.9083e-3 * t - 5.775e-7 * t * t - (t < 0 ? 4.183e-12 * (t - 100) * t ** 3 : 0));
    const tableCOhm = Array.from({ length: 106 }, (_, at) => [10 * at - 200, equation(10 * at - 200)] as const);
    expect(thermistorOhm({ tableCOhm }, celsius)).toBeCloseTo(ohm, 2);
    // Half way between two rows a straight line is as good as the standard prints.
    expect(thermistorOhm({ tableCOhm }, celsius - 5)).toBeCloseTo(equation(celsius - 5), 1);
  });

  test("beyond its ends a table stays at its end", () => {
    expect(thermistorOhm({ tableCOhm: sheet }, 300)).toBeCloseTo(0.7576, 10);
    expect(thermistorOhm({ tableCOhm: sheet }, -60)).toBeCloseTo(67.77, 10);
  });
});

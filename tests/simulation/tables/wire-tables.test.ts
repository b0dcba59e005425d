import { describe, expect, test } from "vitest";
import {
  COPPER_OHM_MM2_PER_METRE,
  copperFactor,
  IEC_60228_CLASS_5,
  ISO_6722,
  typicalContact,
  typicalRing,
  wireResistance,
} from "ohmward/simulation";
import { awgCrossSectionMm2, awgDiameterMm, awgSolidOhmPerKm } from "../support/awg.ts";

describe("solid AWG conductors", () => {
  // Source: formula of ASTM B258; figures printed by hyperphysics and a Texio manual, which agree. Confidence high.
  test.each([
    [-3, 11.684, 107.22, 0.1608],
    [0, 8.251, 53.48, 0.3224],
    [10, 2.588, 5.261, 3.277],
    [12, 2.0525, 3.309, 5.211],
    [14, 1.6277, 2.081, 8.285],
    [18, 1.0237, 0.823, 20.95],
    [22, 0.6438, 0.3255, 52.96],
    [24, 0.5106, 0.2047, 84.21],
    [30, 0.2546, 0.0509, 338.5],
  ])("%i AWG is %f mm, %f mm2, %f ohm/km", (gauge, diameter, area, ohm) => {
    // To half a step of the last digit printed.
    expect(Math.abs(awgDiameterMm(gauge) / diameter - 1)).toBeLessThan(2e-4);
    expect(Math.abs(awgCrossSectionMm2(gauge) / area - 1)).toBeLessThan(1.1e-3);
    expect(Math.abs(awgSolidOhmPerKm(gauge) / ohm - 1)).toBeLessThan(3.5e-4);
    const wire = { standard: "awg-solid", crossSectionMm2: awgCrossSectionMm2(gauge), lengthMm: 1e6 } as const;
    const answer = wireResistance({ ...wire, temperatureC: 20 });
    expect(answer.kind === "known" && answer.ohm).toBeCloseTo(awgSolidOhmPerKm(gauge), 9);
  });

  test("36 AWG is 0.005 inch, 4/0 is 0.46 inch, a step is 1.2610 in area", () => {
    expect(awgDiameterMm(36)).toBeCloseTo(0.127, 12);
    expect(awgDiameterMm(-3)).toBeCloseTo(11.684, 12);
    expect(awgCrossSectionMm2(9) / awgCrossSectionMm2(10)).toBeCloseTo(1.261, 4);
  });
});

describe("copper", () => {
  test("100 % IACS is 0.017241 ohm mm2/m (NBS Circular 31, Handbook 100, as quoted; high)", () => {
    expect(Math.abs(COPPER_OHM_MM2_PER_METRE / 0.017241 - 1)).toBeLessThan(1e-4);
  });

  // Source: 0.00393 /K, the same as (234.5 + T) / 254.5; confidence high.
  test.each([
    [-40, 0.764],
    [0, 0.921],
    [20, 1],
    [60, 1.157],
    [85, 1.255],
    [105, 1.334],
    [125, 1.413],
  ])("at %i C has %f times its resistance at 20 C", (celsius, factor) => {
    expect(copperFactor(celsius)).toBeCloseTo(factor, 3);
    expect(copperFactor(celsius)).toBeCloseTo((234.5 + celsius) / 254.5, 3);
  });
});

describe("wireResistance()", () => {
  const milliohmPerMetre = (standard: "iso-6722" | "iec-60228-class-5", crossSectionMm2: number): number => {
    const answer = wireResistance({ standard, crossSectionMm2, lengthMm: 1000, temperatureC: 20 });
    return answer.kind === "known" ? answer.ohm * 1000 : Number.NaN;
  };

  // Source: cable makers' tables that quote ISO 6722; confidence high.
  test.each([
    [0.22, 84.4],
    [0.35, 54.4],
    [0.5, 37.1],
    [0.75, 24.7],
    [1, 18.5],
    [1.5, 12.7],
    [2.5, 7.6],
    [4, 4.71],
    [6, 3.14],
    [10, 1.82],
    [16, 1.16],
  ])("ISO 6722: %f mm2 has at most %f mohm/m", (size, wanted) => {
    expect(milliohmPerMetre("iso-6722", size)).toBeCloseTo(wanted, 10);
  });

  // Source: four agreeing cable tables that quote IEC 60228; confidence high.
  test.each([
    [0.5, 39],
    [0.75, 26],
    [1, 19.5],
    [1.5, 13.3],
    [2.5, 7.98],
    [4, 4.95],
    [6, 3.3],
    [16, 1.21],
    [25, 0.78],
    [35, 0.554],
    [50, 0.386],
    [95, 0.206],
    [120, 0.161],
  ])("IEC 60228 class 5: %f mm2 has at most %f mohm/m", (size, wanted) => {
    expect(milliohmPerMetre("iec-60228-class-5", size)).toBeCloseTo(wanted, 10);
  });

  test("the two tables stay 1.043 to 1.066 apart, so that they cannot have been mixed", () => {
    const iso = new Map(ISO_6722.map((row) => [row.crossSectionMm2, row.milliohmPerMetre]));
    const shared = IEC_60228_CLASS_5.filter((row) => iso.has(row.crossSectionMm2));
    expect(shared.length).toBeGreaterThan(10);
    for (const row of shared) {
      const quotient = row.milliohmPerMetre / (iso.get(row.crossSectionMm2) ?? 0);
      expect(quotient).toBeGreaterThan(1.04);
      expect(quotient).toBeLessThan(1.06);
    }
  });

  test("5 m of 0.5 mm2 drop 0.93 V at 5 A (ISO 6722, worked check value, high)", () => {
    const answer = wireResistance({ standard: "iso-6722", crossSectionMm2: 0.5, lengthMm: 5000, temperatureC: 20 });
    expect(answer.kind === "known" && 5 * answer.ohm).toBeCloseTo(0.93, 2);
  });

  test("a size that is not listed is scaled from the nearest one, and it is said", () => {
    const answer = wireResistance({
      standard: "iec-60228-class-5",
      crossSectionMm2: 2,
      lengthMm: 1000,
      temperatureC: 20,
    });
    expect(answer).toMatchObject({ kind: "known", isListed: false, source: "IEC 60228 class 5, scaled from 2.5 mm2" });
    expect(answer.kind === "known" && answer.ohm).toBeCloseTo((7.98 * 2.5) / 2 / 1000, 12);
  });

  test.each([
    [undefined, 100, ["cross-section"]],
    [1, undefined, ["length"]],
    [undefined, undefined, ["cross-section", "length"]],
  ])("size %s and length %s: says what is missing", (crossSectionMm2, lengthMm, missing) => {
    const question = { standard: "iso-6722", crossSectionMm2, lengthMm, temperatureC: 20 } as const;
    expect(wireResistance(question)).toEqual({ kind: "unknown", missing });
  });
});

test("every row of a table has a source", () => {
  for (const row of [...ISO_6722, ...IEC_60228_CLASS_5]) expect(row.source.length).toBeGreaterThan(5);
});

describe("typical joints (common practice, no source)", () => {
  test.each([
    [0.64, 0.01],
    [1.5, 0.005],
    [2.8, 0.002],
    [6.3, 0.001],
    [4.8, 0.002],
    [0.5, 0.01],
    [undefined, 0.005],
  ])("a contact of %s mm has %f ohm", (width, ohm) => {
    expect(typicalContact(width)).toMatchObject({ ohm, confidence: "low" });
  });

  test("a ring of a cable has less than one of a wire", () => {
    expect(typicalRing(35).ohm).toBe(0.0001);
    expect(typicalRing(1).ohm).toBe(0.0003);
  });
});

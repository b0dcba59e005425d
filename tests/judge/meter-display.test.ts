import { expect, test } from "vitest";
import { readCases } from "./cases.ts";
import { ohmsShown, voltsShown } from "./meter-display.ts";

// Source: the displays written down in the workshop cases, which were made apart from this project.

const SCALE: Readonly<Record<string, number>> = { mV: 1e-3, V: 1, ohm: 1, kohm: 1e3, Mohm: 1e6 };

/** A display as a value and the step of its last digit. */
function readDisplay(shown: string): { readonly value: number; readonly step: number } {
  const [digits = "", unit = ""] = shown.split(" ");
  const scale = SCALE[unit] ?? Number.NaN;
  return { value: Number(digits) * scale, step: 10 ** -(digits.split(".")[1]?.length ?? 0) * scale };
}

test.each(readCases().map((each) => [each.id, each] as const))(
  "%s: shown as there, to the last digit",
  (_, { readings }) => {
    for (const { meter, faulty, faultyShown, healthy, healthyShown } of readings) {
      for (const [value, shown] of [
        [faulty, faultyShown],
        [healthy, healthyShown],
      ] as const) {
        if (value === null) {
          expect(shown).toBe("over range");
          continue;
        }
        const [own, there] = [
          readDisplay(meter === "volts" ? voltsShown(value) : ohmsShown(value)),
          readDisplay(shown),
        ];
        expect(Math.abs(own.value - there.value)).toBeLessThanOrEqual(1.001 * Math.max(own.step, there.step));
      }
    }
  },
);

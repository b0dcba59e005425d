import { expect, test } from "vitest";
import { ImpliedReadings } from "./implied-readings.ts";
import type { MeterSetting } from "./truth/machine.ts";

const volts = (red: string, black: string, state = "KOEO", unplugged: readonly string[] = []): MeterSetting => ({
  ...{ meter: "volts", state, red, black, unplugged },
});

test("copies, turned leads and sums are implied; another state or another plug off is not", () => {
  const readings = new ImpliedReadings();
  expect(readings.take(volts("A", "B"))).toBe(false);
  expect(readings.take(volts("B", "A"))).toBe(true);
  expect(readings.take(volts("B", "C"))).toBe(false);
  expect(readings.take(volts("A", "C"))).toBe(true);
  expect(readings.take(volts("A", "D"))).toBe(false);
  expect(readings.take(volts("A", "C", "CRANK"))).toBe(false);
  expect(readings.take(volts("A", "C", "KOEO", ["X1"]))).toBe(false);
});

test("ohms are implied by ohms of the same two points only", () => {
  const readings = new ImpliedReadings();
  const ohms = (red: string, black: string): MeterSetting => ({ ...volts(red, black, "OFF"), meter: "ohms" });
  expect(readings.take(ohms("A", "B"))).toBe(false);
  expect(readings.take(ohms("B", "C"))).toBe(false);
  expect(readings.take(ohms("A", "C"))).toBe(false);
  expect(readings.take(ohms("C", "A"))).toBe(true);
});

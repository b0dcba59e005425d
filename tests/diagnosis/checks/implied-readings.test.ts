import { expect, test } from "vitest";
import { impliedBy } from "../../../src/diagnosis/checks/implied-readings.ts";
import { isMeterCheck, type MeterCheck } from "ohmward/diagnosis";
import { begin, demo, newJob } from "../demo-job.ts";

const checks = [...begin(newJob([], ["M2"]), demo()).model.checks.values()].filter(isMeterCheck);
const find = (kind: MeterCheck["kind"], state: string, red: string, black: string): MeterCheck => {
  const made = checks.find(
    (check) => check.kind === kind && check.need.state === state && check.need.unplugged.length === 0,
  );
  if (!made) throw new Error(`${kind} ${state}`);
  return { ...made, red: { ...made.red, at: red }, black: { ...made.black, at: black } };
};

// Source: Kirchhoff's voltage law (textbook): volts add up along a chain of points, whatever lies between; resistances do not.
test("volts that a chain of earlier ones gives are implied, in one set-up only", () => {
  const isImplied = impliedBy([find("dc-voltage", "PRIME", "A", "B"), find("dc-voltage", "PRIME", "C", "B")]);
  expect(isImplied(find("dc-voltage", "PRIME", "A", "C"))).toBe(true);
  expect(isImplied(find("dc-voltage", "PRIME", "B", "A"))).toBe(true);
  expect(isImplied(find("dc-voltage", "PRIME", "A", "D"))).toBe(false);
  expect(isImplied(find("dc-voltage", "KOEO", "A", "C"))).toBe(false);
});

test("ohms of two stretches do not give those of both, but the same two points are known", () => {
  const isImplied = impliedBy([find("resistance", "OFF", "A", "B"), find("resistance", "OFF", "B", "C")]);
  expect(isImplied(find("resistance", "OFF", "A", "C"))).toBe(false);
  expect(isImplied(find("resistance", "OFF", "B", "A"))).toBe(true);
});

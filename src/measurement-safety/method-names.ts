import type { Meter, Method } from "./rule.ts";

const METHOD_NAMES: Readonly<Record<Method, string>> = {
  clamp: "current clamp",
  tip: "probe on exposed terminal",
  clip: "clip lead, connected with the power off",
  "fuse-window": "fuse test point",
  "mating-adapter": "mating adapter",
  "in-line": "breakout lead in line",
  "relay-extension": "relay breakout adapter",
  "front-probe": "front probe with a matching test terminal",
  screw: "probe on the screw",
  "back-probe": "back-probing",
  pierce: "insulation piercing",
  "tip-in-socket": "probe pushed into the cavity",
};

const NAMES: ReadonlyMap<string, string> = new Map(Object.entries(METHOD_NAMES));

/** What a method of contact is called, for people. */
export function methodName(method: string): string {
  return NAMES.get(method) ?? method;
}

/** What each function of the meter is called, for people. */
export const METER_NAMES: Readonly<Record<Meter, string>> = {
  "dc-voltage": "DC voltage",
  resistance: "resistance",
  clamp: "current clamp (DC)",
  "test-lamp": "test lamp",
};

import { expect, test } from "vitest";
import type { Harness } from "ohmward/harness-model";
import { cutText, type MissingWay } from "../../src/application/cut-text.ts";
import { fitDemo, openDemo } from "../demo-harness/open-demo.ts";

const harness: Harness = fitDemo(openDemo(), "base");
const ends: MissingWay["ends"] = [
  { type: "contact", id: "XT1:1" },
  { type: "contact", id: "XT1:2" },
];

test.each<[MissingWay, string]>([
  [
    { ends, through: "control-units", cut: { kind: "same" }, joinedIn: [] },
    "XT1:1 and XT1:2 are the same point. There is no path between them.",
  ],
  [
    { ends, through: "control-units", cut: { kind: "apart" }, joinedIn: ["cold"] },
    "In build base there is no path from XT1:1 to XT1:2. No wire, contact or part in the data joins them. There is a path in: cold.",
  ],
  [
    {
      ends,
      through: "switches-and-fuses",
      cut: { kind: "element", at: { type: "element", id: "Y7.coil" } },
      joinedIn: [],
    },
    "Through fuses, switches and relay contacts there is no path from XT1:1 to XT1:2. It ends at Y7.coil (Fuel metering valve: coil).",
  ],
  [
    {
      ends,
      through: "loads",
      cut: { kind: "rail", rail: "ground", at: { type: "stud", id: "G2-" } },
      joinedIn: ["a", "b"],
    },
    "The only path from XT1:1 to XT1:2 runs through the main ground. It reaches it at G2- (Battery negative post). There is a path in: a, b.",
  ],
])("cutText() of %j", (way, text) => {
  expect(cutText(harness, way)).toBe(text);
});

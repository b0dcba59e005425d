import { expect, test } from "vitest";
import { answerGap, findGaps, gapsReport, likeConnectors, summariseGaps, writeGapsReport } from "ohmward/application";
import { openDemo } from "../../demo-harness/open-demo.ts";
import { pins, trailer } from "./trailer.ts";

test("a wire list says what it is good for, and what is missing", () => {
  const document = trailer();
  expect(summariseGaps(document)).toEqual([
    "Circuits and paths: 33 wires, 3 of them with one end only.",
    "Expected readings: not yet, no supply is known, the inside of 8 of 8 components is not in the data.",
    "Meter tests: the data needed for a test is known at 0 of 8 connectors.",
    "Jobs: on wires, contacts and splices only; no consumer is known.",
  ]);
  const items = new Map(findGaps(document).map((item) => [item.about, item.gaps.map(({ what }) => what)]));
  expect(items.get("machine")).toEqual(["supply", "access"]);
  expect(items.get("PLUG")).toEqual(["sealed", "permits", "terminal-size", "access", "zone"]);
  expect(items.get("T41")).toEqual(["far-end"]);
  expect(writeGapsReport(gapsReport(document), "trailer.ohm.json")).toContain("Is this connector sealed?");
});

test("a document without wires is never just imported", () => {
  const [first] = summariseGaps({ ...trailer(), wires: [] });
  expect(first).toBe("Circuits and paths: not possible, the data has no wires.");
});

test("a terminal size is not asked for where no probe goes", () => {
  const answer = { about: "PLUG", what: "permits", value: "unplug", by: "N", on: "2026-11-30" };
  const changed = answerGap(pins(), { ...answer, about: "ECU" });
  const item = changed.ok ? findGaps(changed.value).find(({ about }) => about === "ECU") : undefined;
  expect(item?.gaps.map(({ what }) => what)).not.toContain("terminal-size");
});

test("connectors of one shape are found, and those of another are not", () => {
  const document = trailer();
  const lamps = document.connectors.filter(({ id }) => id.startsWith("LAMP"));
  expect(lamps.map(({ cavities }) => cavities.length)).toEqual([5, 6]);
  expect(likeConnectors(document, "PLATE").map(({ id }) => id)).toEqual(["REVERSE", "BRAKE"]);
});

test("the demo machine can be asked everything", () => {
  const demo = openDemo();
  const open = findGaps(demo).flatMap(({ about, gaps }) => gaps.map(({ what }) => `${about} ${what}`));
  expect(open.filter((gap) => /sealed|far-end|wires|supply|ground|net-kind|conditions/u.test(gap))).toEqual([]);
});

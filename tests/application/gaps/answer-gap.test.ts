import { describe, expect, test } from "vitest";
import { openHarness, type HarnessDocument } from "ohmward/harness-model";
import { answerGap, findGaps, type GapAnswer } from "ohmward/application";
import { trailer } from "./trailer.ts";

const document = trailer();
const said = { by: "A. Fitter", on: "2026-11-30" };

function taken(answer: Omit<GapAnswer, "by" | "on">, before = document): HarnessDocument {
  const changed = answerGap(before, { ...answer, ...said });
  if (!changed.ok) throw new Error(changed.error.message);
  const opened = openHarness(JSON.stringify(changed.value));
  expect(opened.ok).toBe(true);
  return changed.value;
}

function gapsAt(changed: HarnessDocument, about: string): readonly string[] {
  return (
    findGaps(changed)
      .find((item) => item.about === about)
      ?.gaps.map(({ what }) => what) ?? []
  );
}

describe("answerGap()", () => {
  test.each([
    ["PLUG", "sealed", "no"],
    ["PLUG", "permits", "unplug,front-probe"],
    ["PLUG", "terminal-size", "2.8"],
    ["PLUG", "zone", "REAR"],
    ["PLUG", "access", "2 min any"],
    ["Left indicator", "net-kind", "supply"],
  ])("closes the gap of %s: %s", (about, what, value) => {
    expect(gapsAt(document, about)).toContain(what);
    const changed = taken({ about, what, value });
    expect(gapsAt(changed, about)).not.toContain(what);
    expect(changed.statements).toEqual([{ about, what, ...said }]);
  });

  test("of a zone and of how connectors are usually reached", () => {
    const zoned = taken({ about: "PLUG", what: "zone", value: "REAR" });
    expect(gapsAt(zoned, "REAR")).toEqual(["hazards"]);
    expect(gapsAt(taken({ about: "REAR", what: "hazards", value: "wet: spray" }, zoned), "REAR")).toEqual([]);
    const reached = taken({ about: "machine", what: "access", value: "5 min OFF" });
    expect(reached.system.usualAccess).toEqual({ minutes: 5, states: ["OFF"] });
    expect(gapsAt(reached, "PLUG")).not.toContain("access");
  });

  test("sets no field where a line is declared harmless, and asks for the reason", () => {
    const refused = answerGap(document, { about: "T1", what: "harmless", value: "yes", ...said });
    expect(refused.ok ? "" : refused.error.hint).toContain("--reason");
    const changed = taken({ about: "T1", what: "harmless", value: "yes", reason: "lamp of the trailer" });
    expect(changed).toEqual({
      ...document,
      statements: [{ about: "T1", what: "harmless", ...said, reason: "lamp of the trailer" }],
    });
  });

  test("a later answer about the same takes the place of the earlier one", () => {
    const first = taken({ about: "PLUG", what: "sealed", value: "no" });
    const second = taken({ about: "PLUG", what: "sealed", value: "yes" }, first);
    expect(second.statements).toHaveLength(1);
    expect(second.connectors.find(({ id }) => id === "PLUG")?.sealed).toBe(true);
  });

  test.each([
    [{ about: "PLUG", what: "sealed", value: "perhaps" }, "is not yes or no"],
    [{ about: "PLUG", what: "colour", value: "red" }, "has no single value"],
    [{ about: "NOWHERE", what: "sealed", value: "no" }, "Nothing has the name"],
    [{ about: "T1", what: "sealed", value: "no" }, 'A wire has no value "sealed"'],
    [{ about: "PLUG", what: "access", value: "5 min MOON" }, "no state MOON"],
    [{ about: "PLUG", what: "permits", value: "pierce" }, "no list of permits"],
    [{ about: "PLUG", what: "terminal-size", value: "-1" }, "no terminal size"],
  ])("refuses %j", (answer, message) => {
    const changed = answerGap(document, { ...answer, ...said });
    expect(changed.ok ? "" : changed.error.message).toContain(message);
  });

  test("of an adapter makes the points of its connector touchable, once it is known that the connector may be opened", () => {
    const answer = { about: "PLUG", what: "adapter", value: "t-lead" };
    expect(answerGap(document, { ...answer, ...said }).ok).toBe(false);
    const opened = taken({ about: "PLUG", what: "permits", value: "unplug" });
    const changed = taken(answer, opened);
    expect(changed.adapters).toEqual([
      { id: "PLUG-t-lead", label: "T-lead", method: "in-line", minutes: 3, fits: ["PLUG"], points: "all" },
    ]);
    expect(changed.connectors.find(({ id }) => id === "PLUG")?.permits).toEqual(["unplug", "adapter"]);
  });

  test("refuses an answer without a name or with no date", () => {
    const answer = { about: "PLUG", what: "sealed", value: "no" };
    expect(answerGap(document, { ...answer, ...said, by: " " }).ok).toBe(false);
    expect(answerGap(document, { ...answer, ...said, on: "yesterday" }).ok).toBe(false);
  });
});

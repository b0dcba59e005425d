import { describe, expect, test } from "vitest";
import { ask, chooseBuild } from "ohmward/application";
import { askChecked, askDemo, demo, ofKind } from "./demo-machine.ts";
import { smallMachine } from "./small-machine.ts";

const bare = { id: "bare", label: "Bare", options: [] };
const withA = { id: "with-a", label: "With A", options: ["OPT-A"] };

describe("chooseBuild()", () => {
  test("takes the build asked for, in any case of letters", () => {
    const chosen = chooseBuild(demo, "Cold-TILLER");
    expect(chosen.ok && chosen.value.build.id).toBe("cold-tiller");
    expect(chosen.ok && chosen.value.assumptions).toEqual([]);
  });

  test("takes the only build without a word", () => {
    const chosen = chooseBuild(smallMachine([withA]), undefined);
    expect(chosen.ok && [chosen.value.build.id, chosen.value.assumptions]).toEqual(["with-a", []]);
  });

  test("takes the only build without options and says so", () => {
    const chosen = chooseBuild(smallMachine([withA, bare]), undefined);
    expect(chosen.ok && chosen.value.build.id).toBe("bare");
    expect(chosen.ok && chosen.value.assumptions.join(" ")).toMatch(/No build was given\. Assumed: "bare"/u);
    const answer = askDemo("circuit", { kind: "circuit", point: "B3" }, {});
    expect(answer.build).toBe("base");
    expect(answer.assumptions[0]).toMatch(/No build was given\. Assumed: "base"/u);
  });

  test.each([
    ["no build is without options", [withA, { ...withA, id: "again" }]],
    ["two builds are without options", [bare, { ...bare, id: "again" }]],
  ])("asks where %s", (_label, builds) => {
    const machine = smallMachine(builds);
    const answer = ofKind("choose-build", askChecked(machine, {}, { kind: "circuit", point: "E1" }));
    expect(answer.choices.map((choice) => choice.id)).toEqual(builds.map((build) => build.id));
    expect(answer.text).toMatch(/several builds/u);
  });

  test("asks where the build does not exist, never taking another", () => {
    const answer = askDemo("choose-build", { kind: "circuit", point: "B3" }, { build: "Base " + "x" });
    expect(answer).toMatchObject({ asked: "Base x" });
    expect(answer.choices.map((choice) => choice.id)).toEqual(["base", "cold", "tiller", "cold-tiller"]);
  });
});

describe("ask() in a state", () => {
  test("takes the first state of the document, or the one asked for", () => {
    expect(ask(demo, { build: "base" }, { kind: "circuit", point: "B3" })).toMatchObject({ state: "OFF" });
    expect(ask(demo, { build: "base", state: "crank" }, { kind: "circuit", point: "B3" })).toMatchObject({
      state: "CRANK",
    });
  });

  test("asks where the state does not exist", () => {
    const answer = askDemo("choose-state", { kind: "circuit", point: "B3" }, { build: "base", state: "SLEEP" });
    expect(answer.choices.map((choice) => choice.id)).toEqual(["OFF", "KOEO", "PRIME", "HEAT", "CRANK", "RUN"]);
  });

  test("a document without states answers all but where to probe", () => {
    const machine = smallMachine([bare], { states: [], cautions: [] });
    const answer = ofKind("circuit", askChecked(machine, {}, { kind: "circuit", point: "E1" }));
    expect(answer.state).toBeUndefined();
    expect(ofKind("choose-state", askChecked(machine, {}, { kind: "test-points", item: "E1" })).choices).toEqual([]);
  });
});

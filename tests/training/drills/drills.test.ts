import { naturalOrder, seededRandom } from "ohmward/base";
import type { Harness } from "ohmward/harness-model";
import { DRILL_KINDS, drawDrills, gradeDrill, makeDrill, type Drill } from "ohmward/training";
import { describe, expect, test } from "vitest";
import { demoDocument, demoIn, generatedMachine } from "../support/machines.ts";
import { plainAnswers } from "../support/plain-answers.ts";

function sorted(answers: readonly (readonly string[])[]): readonly (readonly string[])[] {
  return answers
    .map((answer) => [...new Set(answer)].sort(naturalOrder))
    .sort((a, b) => naturalOrder(a.join(" "), b.join(" ")));
}

function drillsOf(harness: Harness, number: number, each: number): readonly Drill[] {
  return ([1, 2, 3] as const).flatMap((level) =>
    drawDrills(harness, { kinds: DRILL_KINDS, level, count: each * DRILL_KINDS.length }, seededRandom(number + level)),
  );
}

/** Every accepted answer is right, and every right answer is accepted, one picked from all there is. */
function checkDrill(harness: Harness, drill: Drill): void {
  expect([drill.id, sorted(drill.accepted)]).toEqual([drill.id, sorted(plainAnswers(harness, drill))]);
  expect(makeDrill(harness, drill.id)).toEqual(drill);
  for (const answer of drill.accepted) {
    expect(gradeDrill(drill, answer).isRight).toBe(true);
    expect(drill.pick.choices).toEqual(expect.arrayContaining([...answer]));
    expect(gradeDrill(drill, [...answer, "X-NOT-THERE"]).isRight).toBe(false);
    expect(gradeDrill(drill, answer.slice(1)).isRight).toBe(false);
  }
  const single = new Set(drill.accepted.map((answer) => answer.join(" ")));
  for (const choice of drill.pick.choices) expect(gradeDrill(drill, [choice]).isRight).toBe(single.has(choice));
  for (const trap of drill.traps) expect(gradeDrill(drill, [trap.answer]).reasons[0]).toBe(trap.why);
}

describe("drills of the demo machine", () => {
  test.each(demoDocument.builds.map((build) => build.id))("accept exactly the right answers, build %s", (build) => {
    const harness = demoIn(build);
    const drills = drillsOf(harness, 45, 10);
    expect(new Set(drills.map((drill) => drill.kind))).toEqual(new Set(DRILL_KINDS));
    for (const drill of drills) checkDrill(harness, drill);
  });
});

describe("drills of generated machines", () => {
  test.each([0, 10, 20, 30, 40])("accept exactly the right answers in ten machines after machine %i", (first) => {
    const kinds = new Map<string, number>();
    for (let number = first + 1; number <= first + 10; number++) {
      const harness = generatedMachine(number, 25 + 3 * number);
      for (const drill of drillsOf(harness, number, 1)) {
        checkDrill(harness, drill);
        kinds.set(drill.kind, (kinds.get(drill.kind) ?? 0) + 1);
      }
    }
    for (const kind of DRILL_KINDS) expect([kind, (kinds.get(kind) ?? 0) >= 10]).toEqual([kind, true]);
  });
});

test("drawDrills gives levels in the order of their points", () => {
  const harness = demoIn("base");
  for (const drill of drillsOf(harness, 7, 5)) {
    expect(drill.level).toBe(drill.points <= 3 ? 1 : drill.points <= 6 ? 2 : 3);
  }
});

test("the mirror trap is named where a face is read from the wrong side", () => {
  const drill = makeDrill(demoIn("base"), "cavity XC1 m mating-side name 1");
  expect(drill?.accepted).toEqual([["1"]]);
  // Two rows of eight from the wire side of half m: seen from its mating side cavity 1 stands where 8 would be.
  expect(drill?.traps.map((trap) => trap.answer)).toEqual(["8"]);
  expect(drill && gradeDrill(drill, ["8"]).reasons[0]).toContain("left and right are exchanged");
});

test("a wire that ends twice in one half has two right cavities", () => {
  const drill = makeDrill(demoIn("base"), "cavity XT1 j wire-side wire W24");
  expect(drill?.accepted).toEqual([["1"], ["2"]]);
});

test("a splice at the very end of a segment is accepted in every segment that meets there", () => {
  const document = structuredClone(demoDocument);
  const splice = document.splices.find((each) => each.id === "SP13");
  if (splice?.at) splice.at.offsetMm = 0;
  const harness = { ...demoIn("base"), document };
  const moved = {
    ...harness,
    fitted: { ...harness.fitted, splices: new Map(document.splices.map((each) => [each.id, each])) },
  };
  const drill = makeDrill(moved, "splice SP13");
  expect(drill?.accepted.map(([id]) => id)).toEqual(["SG02", "SG03", "SG04", "SG08", "SG09"]);
});

test("makeDrill gives nothing for what the build does not have", () => {
  expect(makeDrill(demoIn("base"), "route W25")).toBeUndefined();
  expect(makeDrill(demoIn("tiller"), "route W25")).toBeDefined();
  expect(makeDrill(demoIn("base"), "nonsense W1")).toBeUndefined();
});

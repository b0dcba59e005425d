import { expect, test } from "vitest";
import { fitBuild, type Harness, type HarnessDocument, type State } from "ohmward/harness-model";
import { openDemo } from "../demo-harness/open-demo.ts";
import { ask } from "./ask.ts";

const document = openDemo();

/** Studs at which an ohmmeter is refused in the isolated state because they stay on the battery. */
function studsOnBattery(changed: HarnessDocument): readonly string[] {
  const harness: Harness | undefined = fitBuild(changed, "base");
  if (!harness) throw new Error("no build");
  return [...harness.fitted.terminalStuds.keys()].filter((stud) =>
    ask(harness, stud, "OFF")
      .points.find((point) => point.id === `tip@${stud}`)
      ?.notFor.some((each) => each.rule === "ohms-on-battery"),
  );
}

function withStates(change: (state: State) => State): HarnessDocument {
  return { ...document, states: document.states.map(change) };
}

test("the battery side of the isolator stays on the battery", () => {
  expect(studsOnBattery(document)).toEqual(["G2+", "S10.1"]);
});

test("an isolator counts as open in an isolated state even where the state says nothing of it", () => {
  expect(studsOnBattery(withStates(({ settings: _, ...state }) => state))).toEqual(["G2+", "S10.1"]);
});

test("without an isolator only the positive post counts: a clamp is taken off", () => {
  const { components, ...rest } = withStates(({ settings: _, ...state }) => state);
  const closed = components.map((component) =>
    component.id === "S10"
      ? {
          ...component,
          kind: "other" as const,
          elements: component.elements.map((each) =>
            each.kind === "switch" ? { ...each, rest: "closed" as const } : each,
          ),
        }
      : component,
  );
  expect(studsOnBattery({ ...rest, components: closed })).toEqual(["G2+"]);
});

import { expect, test } from "vitest";
import { makeFitting } from "ohmward/harness-model";
import { baseDocument, opened } from "./support.ts";

const [base, cold] = opened(baseDocument()).builds;

test.each([
  [undefined, true, true],
  ["OPT-COLD", false, true],
  ["!OPT-COLD", true, false],
  ["OPT-COLD | !OPT-COLD", true, true],
  ["opt-cold", false, false],
  ["constructor", false, false],
  ["this does not parse", true, true],
])("makeFitting() says of %j: %s on the base build, %s with the option", (when, onBase, onCold) => {
  if (!base || !cold) throw new Error("The base document has two builds");
  const [isOnBase, isOnCold] = [makeFitting(base), makeFitting(cold)];
  expect([isOnBase(when), isOnCold(when)]).toEqual([onBase, onCold]);
  expect([isOnBase(when), isOnCold(when)]).toEqual([onBase, onCold]);
});

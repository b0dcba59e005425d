import { parseWantedBuild } from "ohmward/application";
import { expect, test } from "vitest";

test.each([
  ["winter=COLD,TILLER", { id: "winter", options: ["COLD", "TILLER"] }],
  ["  winter = COLD , , TILLER ", { id: "winter", options: ["COLD", "TILLER"] }],
  ["plain=", { id: "plain", options: [] }],
  // A name of an option may hold an equals sign; that of a build may not.
  ["a=B=C", { id: "a", options: ["B=C"] }],
])("parseWantedBuild() reads %j", (text, build) => {
  expect(parseWantedBuild(text)).toEqual(build);
});

test.each(["", "winter", "=COLD", "   =COLD"])("parseWantedBuild() refuses %j", (text) => {
  expect(parseWantedBuild(text)).toBeUndefined();
});

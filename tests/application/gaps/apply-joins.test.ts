import { expect, test } from "vitest";
import { openHarness } from "ohmward/harness-model";
import { applyJoins, ask, machineOf, proposeJoins } from "ohmward/application";
import { pins } from "./trailer.ts";

const document = pins();
const said = { by: "A. Fitter", on: "2026-11-30" };

test("wires of the same signal and colour are proposed, and nothing else", () => {
  expect(proposeJoins(document).map(({ points, as }) => [points, as])).toEqual([
    [["ECU:1", "TANK:A"], "wire"],
    [["ECU:3", "TANK:C", "PUMP:1"], "splice"],
    [["ECU:2", "TANK:B"], "wire"],
  ]);
});

test("only what is confirmed is joined, with the name of who confirmed it", () => {
  const joined = applyJoins(document, ["J2", "J3"], said);
  if (!joined.ok) throw new Error(joined.error.join());
  expect(openHarness(JSON.stringify(joined.value)).ok).toBe(true);
  const machine = machineOf(joined.value);
  const between = (from: string, to: string): string =>
    ask(machine, { build: "base" }, { kind: "path", from, to, through: "conductors" }).kind;
  expect(between("ECU:2", "TANK:B")).toBe("path");
  expect(between("TANK:C", "PUMP:1")).toBe("path");
  expect(between("ECU:1", "TANK:A")).toBe("no-path");
  const wire = joined.value.wires.find(({ ends }) => ends[1] === "TANK:B");
  expect(wire).toMatchObject({
    ends: ["ECU:2", "TANK:B"],
    origin: { checkedBy: "A. Fitter", checkedOn: "2026-11-30" },
  });
  expect(document.wires.every(({ ends }) => ends[1] === undefined)).toBe(true);
});

test("a name that is no proposal is refused, and nothing is joined", () => {
  expect(applyJoins(document, ["J1", "J9"], said)).toEqual({ ok: false, error: ["J9"] });
});

test("a joint that is possible and not made is told as such", () => {
  const answer = ask(machineOf(document), { build: "base" }, { kind: "path", from: "ECU:1", to: "TANK:A" });
  expect(answer.kind === "no-path" ? answer.notKnown?.[0] : "").toMatch(
    /^No far end in the data: wires W1 \(VT 5V\), /u,
  );
});

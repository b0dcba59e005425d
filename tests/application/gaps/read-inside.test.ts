import { describe, expect, test } from "vitest";
import { fitBuild, openHarness, type Harness, type HarnessDocument } from "ohmward/harness-model";
import { answerGap, findGaps } from "ohmward/application";
import { findCircuits } from "ohmward/connectivity";
import { readMeter } from "ohmward/simulation";
import { readGood } from "../../import-export/support/read-file.ts";

/** A wire list of an invented pump board: battery, fuse, relay with its switch, pump, heater, sensors. */
const list = [
  "Wire;From;To;Colour;Size (mm²);Signal",
  "1;Battery:1;Pump fuse 15 A:1;RD;4;BAT",
  "2;Pump fuse 15 A:2;Pump relay:30;RD;4;BAT FUSED",
  "3;Pump relay:87;Lift pump:1;OG;4;PUMP",
  "4;Lift pump:2;GND-1;BK;4;GND",
  "5;Battery:2;GND-1;BK;10;GND",
  "6;Pump relay:85;GND-1;BK;0.75;GND",
  "7;Pump relay:86;Pump switch:1;BU;0.75;PUMP ON",
  "8;Pump switch:2;Pump fuse 15 A:2;RD;0.75;BAT FUSED",
  "9;Gauge:1;Water temperature:1;GN;0.75;TEMP",
  "10;Gauge:2;Water temperature:2;BK;0.75;GND",
].join("\n");

const before = readGood(list, "board.csv", { table: { accept: new Set(["ground-studs"]) } }).document;
const said = { by: "A. Fitter", on: "2026-11-30" };

function taken(answers: readonly (readonly [about: string, inside: string])[], document = before): HarnessDocument {
  return answers.reduce((changed, [about, value]) => {
    const answer = answerGap(changed, { about, what: "inside", value, ...said });
    if (!answer.ok) throw new Error(`${answer.error.message} ${answer.error.hint}`);
    const opened = openHarness(JSON.stringify(answer.value));
    expect(opened.ok).toBe(true);
    return answer.value;
  }, document);
}

function guessOf(document: HarnessDocument, about: string): readonly string[] {
  const gap = findGaps(document)
    .find((item) => item.about === about)
    ?.gaps.find(({ what }) => what === "inside");
  return gap?.choices.map(({ value }) => value) ?? [];
}

describe("the inside of a component", () => {
  const idOf = (label: string): string =>
    before.connectors.find((connector) => connector.label === label)?.component ?? label;

  test("is guessed from its name, its terminals and its ground, for a person to confirm", () => {
    const guesses = before.components.map(({ id }) => [id, guessOf(before, id)]);
    expect(Object.fromEntries(guesses)).toEqual({
      [idOf("Battery")]: ["battery 1 2"],
      [idOf("Pump fuse 15 A")]: ["fuse 15 A"],
      [idOf("Pump relay")]: ["relay 86 85 30 87"],
      [idOf("Lift pump")]: ["motor 1 2"],
      [idOf("Pump switch")]: ["switch"],
      [idOf("Gauge")]: [],
      [idOf("Water temperature")]: ["temperature-sensor 1 2"],
    });
  });

  // Ohm's law by hand: 12 V across 2.4 ohm are 5 A; what wires and contacts take off is less than a tenth.
  test("makes circuits and readings work once it is confirmed", () => {
    const all = before.components.flatMap(({ id }) => guessOf(before, id).map((guess) => [id, guess] as const));
    const document = taken(all);
    expect(document.system.supply).toEqual({ positive: "Battery:1", negative: "Battery:2" });
    const harness = fitted(document);
    const pump = findCircuits(harness).all.find(({ component }) => component === idOf("Lift pump"));
    expect(pump?.sides.map(({ role }) => role)).toEqual(["supply", "ground"]);
    const read = (state: string): number => {
      const reading = readMeter(harness, {
        operatingConditions: { state },
        probe: { kind: "dc-voltage", red: "Lift-pump:1", black: "Lift-pump:2" },
      });
      return reading.kind === "value" ? reading.value : NaN;
    };
    expect(read("ON")).toBeGreaterThan(11.4);
    expect(read("ON")).toBeLessThan(12.65);
    expect(Math.abs(read("OFF"))).toBeLessThan(0.01);
  });

  test.each([
    ["lamp 21 W 1 2", [{ kind: "lamp", powerWatt: 21, voltageVolt: 12 }]],
    ["lamp 21W 1 2", [{ kind: "lamp", powerWatt: 21 }]],
    ["motor 5 A", [{ kind: "load", resistanceOhm: 2.4 }]],
    ["motor 60 W 2 1", [{ kind: "load", resistanceOhm: 2.4, between: ["Lift-pump:2", "Lift-pump:1"] }]],
    ["heater 0,6 Ω", [{ kind: "load", resistanceOhm: 0.6 }]],
    ["resistor 4k7", [{ kind: "resistor", resistanceOhm: 4700 }]],
    ["resistor 4.7 kOhm", [{ kind: "resistor", resistanceOhm: 4700 }]],
    ["led-lamp 3 W", [{ kind: "diode" }, { kind: "load", resistanceOhm: 48 }]],
    ["terminator", [{ kind: "resistor", resistanceOhm: 120 }]],
    ["valve", [{ kind: "load", resistanceOhm: 15 }]],
    ["joined", [{ kind: "bar" }]],
  ])("%s", (text, elements) => {
    const id = idOf("Lift pump");
    const document = taken([[id, text]]);
    expect(document.components.find((each) => each.id === id)?.elements).toMatchObject(elements);
  });

  // Wire lists of vehicles leave out that the battery stands on the frame, and the end of a coil that another list has.
  test("may end at a stud, or at a terminal that is not in the data", () => {
    const rows = ["1;Battery +:1;Pump:1", "2;Pump:2;GND-1", "3;Battery +;Main relay 30", "4;Main relay 87;Lamp:1"];
    const text = ["Wire;From;To", ...rows, "5;Lamp:2;GND-1", "6;Main relay 85;GND-1"].join("\n").replace("+:1", "+");
    const document = readGood(text, "car.csv", { table: { accept: new Set(["ground-studs"]) } }).document;
    expect(guessOf(document, "Battery-unit")).toEqual(["battery positive GND-1"]);
    expect(guessOf(document, "Main-relay-unit")).toEqual(["relay ? 85 30 87"]);
    const fed = taken(
      ["Battery-unit", "Main-relay-unit", "Pump-unit", "Lamp-unit"].map((id) => [id, guessOf(document, id)[0] ?? ""]),
      document,
    );
    expect(fed.system.supply).toEqual({ positive: "Battery:positive", negative: "GND-1" });
    const circuits = findCircuits(fitted(fed)).all.filter(({ component }) => component === "Lamp-unit");
    expect(circuits.map(({ sides }) => sides.map(({ role }) => role))).toEqual([["supply", "ground"]]);
  });

  test("says which of its values are typical", () => {
    const document = taken([
      [idOf("Lift pump"), "motor"],
      [idOf("Water temperature"), "resistor 400"],
    ]);
    expect(document.statements?.map(({ reason }) => reason)).toEqual(["Typical values: motor 5 A", undefined]);
  });

  test("may be corrected, but not what the data itself says", () => {
    const id = idOf("Lift pump");
    const once = taken([[id, "motor 5 A"]]);
    expect(taken([[id, "motor 10 A"]], once).components.find((each) => each.id === id)?.elements).toHaveLength(1);
    const { statements: _, ...ofData } = once;
    const refused = answerGap(ofData, { about: id, what: "inside", value: "motor", ...said });
    expect(refused.ok ? "" : refused.error.message).toContain("has the inside");
  });

  test.each([
    ["flux-capacitor 1 2", "no part of the library"],
    ["motor 5 A 1 7", "has 2 terminals (feed, ground)"],
    ["motor 5 A 1 1", "have to differ"],
    ["motor 5 bar 1 2", '"5 bar" is no value in A or W or Ω'],
    ["motor 0 A", "is no value"],
    ["resistor 1,200", "can be taken in two ways; write 1.2 Ω or 1200 Ω"],
    ["fuse 1 2", "there is no usual value; give it in A"],
    ["switch 3 V 1 2", "is not needed here"],
    ["", "No part is named"],
    ["lamp 1 2; resistor 1 2; relay", "resistor 1 2: there is no usual value"],
  ])("refuses %j with every problem", (value, message) => {
    const refused = answerGap(before, { about: idOf("Lift pump"), what: "inside", value, ...said });
    expect(refused.ok ? "" : refused.error.message).toContain(message);
  });
});

function fitted(document: HarnessDocument): Harness {
  const harness = fitBuild(document, "base");
  if (!harness) throw new Error("The build cannot be fitted");
  return harness;
}

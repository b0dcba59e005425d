import { describe, expect, test } from "vitest";
import { todaysWords } from "../../src/cli/old-words.ts";

const words = (line: string): readonly string[] => line.split(" ");

describe("todaysWords()", () => {
  test.each([
    ["trace demo B3", "circuit demo B3"],
    [
      "between demo B3 A1 --through=series -t everything",
      "path demo B3 A1 --include=switches-and-fuses -t control-units",
    ],
    ["shared demo B3 B4 --good B5", "common demo B3 B4 --works B5"],
    ["without demo XT1 --build base", "effect demo XT1 --build base"],
    ["probe demo B3.X:3", "test-points demo B3.X:3"],
    [
      "expect demo --red A --meter ohms -m volts --unplugged X",
      "expected demo --red A --function resistance -m dc-voltage --disconnected X",
    ],
    ["export demo --as csv-wires", "export demo --format wire-list-csv"],
    ["import a.csv --map m.json --new-build w=A", "import a.csv --columns m.json --variant w=A"],
    ["practise class demo a.json", "training results demo a.json"],
    ["job reading a.json over range --doubtful", "job record a.json over range --uncertain"],
    ["job close a.json --as not-found", "job close a.json --outcome no-fault-found"],
    ["job new demo --bad M1 --shows comes-and-goes", "job new demo --fails M1 --occurrence intermittent"],
  ])("%s is %s", (typed, today) => {
    const { args, told } = todaysWords(words(typed));
    expect(args).toEqual(words(today));
    expect(told.length).toBeGreaterThan(0);
    expect(told[0]).toMatch(/^".+" is now ".+"$/u);
  });

  test.each([
    "circuit demo trace",
    "job record a.json as-expected",
    "find demo --as",
    "job note -- --bad",
    "--help",
    "",
  ])("%s is left as it is: the words are of today, or stand where another thing is named", (typed) => {
    expect(todaysWords(words(typed))).toEqual({ args: words(typed), told: [] });
  });
});

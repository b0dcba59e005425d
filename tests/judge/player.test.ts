import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { readCases } from "./cases.ts";
import { Bench, MOST_CHECKS, playCase } from "./player.ts";
import { readDemoMachine } from "./truth/harness-file.ts";
import { haveNgspice, Ngspice } from "./truth/ngspice.ts";

describe.skipIf(!haveNgspice())("the player (needs ngspice)", () => {
  let bench: Bench;
  beforeAll(() => {
    bench = new Bench(readDemoMachine(), new Ngspice());
  });
  afterAll(() => {
    bench.ngspice.close();
  });

  test.each(["J15", "J53"])(
    "%s is played to an end, each check with an answer, the same each time (needs ngspice)",
    (id) => {
      const each = readCases().find((row) => row.id === id);
      if (each === undefined) throw new Error(`No case ${id}`);
      const played = playCase(bench, each);
      expect(played.checks.length).toBeLessThan(MOST_CHECKS);
      expect(played.end).toBeDefined();
      expect(played.checks.filter(({ answer }) => answer === "")).toEqual([]);
      expect(playCase(bench, each)).toEqual(played);
    },
    120_000,
  );
});

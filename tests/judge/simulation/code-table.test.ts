import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { readCases } from "../cases.ts";
import { readDemoMachine } from "../truth/harness-file.ts";
import { TrueMachine } from "../truth/machine.ts";
import { haveNgspice, Ngspice } from "../truth/ngspice.ts";
import { codesOf } from "./code-table.ts";

// Source: the codes of the workshop cases, which were thought through apart from this project. OHMWARD_WHOLE=1 takes every case.

const isWhole = process.env["OHMWARD_WHOLE"] === "1";
/** Codes that are stored from earlier, or of a fault that is away most of the time. */
const isActive = (code: string): boolean => !code.includes("=stored");

describe.skipIf(!haveNgspice())("codes as the control units see them (needs ngspice)", () => {
  let ngspice: Ngspice;
  beforeAll(() => {
    ngspice = new Ngspice();
  });
  afterAll(() => {
    ngspice.close();
  });

  test.each(
    readCases()
      .filter(
        ({ codes, build, id }, at) =>
          build !== "cold" && id !== "J62" && (isWhole || (codes.length > 0 && at % 4 === 1)),
      )
      .map((each) => [each.id, each] as const),
  )("%s sets the codes of the case (needs ngspice)", (_, each) => {
    const truth = new TrueMachine(readDemoMachine(), each, ngspice);
    expect(codesOf(truth).toSorted()).toEqual(each.codes.filter(isActive).toSorted());
  });
});

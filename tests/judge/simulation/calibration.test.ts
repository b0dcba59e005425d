import { expect, test } from "vitest";
import { calibrationTable } from "./calibration.ts";

test("claims are sorted by their share, certainty apart; what nobody claimed has no row", () => {
  const claims = [
    { share: 0.1, isRight: false },
    { share: 0.5, isRight: true },
    { share: 0.5, isRight: false },
    { share: 1, isRight: true },
  ];
  expect(calibrationTable(claims).split("\n").slice(2)).toEqual([
    "| 0 % to 20 % | 1 | 10 % | 0 % |",
    "| 40 % to 60 % | 2 | 50 % | 50 % |",
    "| 99 % to 100 % | 1 | 100 % | 100 % |",
  ]);
});

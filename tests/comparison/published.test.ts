import { compareHarnesses } from "ohmward/comparison";
import { naturalOrder } from "ohmward/base";
import { expect, test } from "vitest";
import { NEEDS_FILES, publishedFile, publishedPath, readDocument } from "../import-export/xml/support/harness-files.ts";

// 4Soft-de/harness-model, commit a3672459, MIT: one wiring group in two revisions. What differs was read in the two XML files by hand.
const AFTER = "vec/change-after.vec";

test.skipIf(publishedPath(AFTER) === undefined)(`explains the published pair of revisions ${NEEDS_FILES}`, () => {
  const [before, after] = ["vec/change-before.vec", AFTER].map((path) => readDocument(publishedFile(path)));
  if (!before || !after) throw new Error("They are not there");
  const { changes } = compareHarnesses({ document: before }, { document: after });
  const told = changes
    .toSorted((one, two) => naturalOrder(one.after ?? "", two.after ?? ""))
    .map(({ item, what, after: id, fields }) => [
      item,
      what,
      id,
      ...fields.map(({ field, before: was, after: is }) => `${field}: ${was ?? "none"} > ${is ?? "none"}`),
    ]);
  // WireLength 503.0 becomes 1503.0; a second one, 1077.0, is new to the other core; group SL1 becomes SL3; Part id_00099 becomes id_00100;
  // the cores SW and BR of 0.5 mm² become B/RD and B/K of 0.3 mm², which are no letter codes of IEC 60757.
  const shared = ["crossSectionMm2: 0.5 > 0.3", "group: SL1 > SL3", "part.number: N_018_886_1 > 3C0_972_100"];
  expect(told.map(([item, what, id]) => [item, what, id])).toEqual([
    ["wire", "changed", "264001"],
    ["wire", "changed", "264002"],
  ]);
  expect(told[0]).toEqual(
    expect.arrayContaining([
      "lengthMm: 503 > 1503",
      "colour: BK > none",
      ...shared,
      expect.stringMatching(/^note: .*SW > .*B\/RD$/u),
    ]),
  );
  expect(told[1]).toEqual(
    expect.arrayContaining([
      expect.stringMatching(/^lengthMm: .* > 1077$/u),
      "colour: BN > none",
      ...shared,
      expect.stringMatching(/^note: .*BR > .*B\/K$/u),
    ]),
  );
});

import { strFromU8, unzipSync } from "fflate";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fitBuild, openHarness, type HarnessDocument } from "ohmward/harness-model";
import {
  csvBytes,
  fillTableSet,
  writeCsv,
  writeTableSetXlsx,
  writeTableSetZip,
  writeWorkbook,
  type FilledTable,
} from "ohmward/import-export";
import { zipSync } from "fflate";
import { demoText, openDemo } from "../../demo-harness/open-demo.ts";
import { harnessText } from "../../generate/harness-text.ts";
import { askAll } from "../support/ask-all.ts";
import { errorCodes, problemsOf, readGood, warningCodes } from "../support/read-file.ts";

const demo = openDemo();
const kinds = [
  ["zip of CSV files", "machine.zip", writeTableSetZip],
  ["workbook", "machine.xlsx", writeTableSetXlsx],
] as const;

const { traces } = JSON.parse(demoText("expected.json")) as {
  readonly traces: readonly {
    readonly id: string;
    readonly builds: readonly string[];
    readonly between: readonly [string, string];
  }[];
};

describe.each(kinds)("a full set of tables as %s", (_name, fileName, write) => {
  const read = readGood(write(demo), fileName);

  test("gives the same document again, without a warning", () => {
    expect(read.document).toEqual(demo);
    expect(read.warnings).toEqual([]);
  });

  test.each(traces)("answers every question about $id as before", ({ builds, between }) => {
    for (const build of builds) {
      const [before, after] = [fitBuild(demo, build), fitBuild(read.document, build)];
      if (!before || !after) throw new Error(`There is no build "${build}"`);
      expect(askAll(after, ...between)).toEqual(askAll(before, ...between));
    }
  });

  test("has the same bytes at every writing", () => {
    expect(write(demo)).toEqual(write(read.document));
  });

  test("gives generated machines again", () => {
    for (const seed of [1, 2]) {
      const opened = openHarness(harnessText({ seed, wires: 150 }));
      if (!opened.ok) throw new Error("The generated machine has problems");
      expect(readGood(write(opened.value.document), fileName).document).toEqual(opened.value.document);
    }
  });

  test("gives any text again, whatever a spreadsheet might make of it", () => {
    const text = fc.oneof(
      fc.constantFrom(
        "",
        "'",
        "''",
        "=1+1",
        "'=1",
        "-",
        "+x",
        "@a",
        "\ta",
        "\ra",
        "_x000D_",
        "[]",
        "yes",
        "1,5",
        ' "',
        "a\r\nb",
        "\u0001",
      ),
      fc.string({ unit: "grapheme", maxLength: 30 }),
    );
    fc.assert(
      fc.property(fc.array(text, { minLength: 1, maxLength: 4 }), text, (notes, label) => {
        const [build, ...builds] = demo.builds;
        if (!build) throw new Error("The demo machine has no build");
        const changed: HarnessDocument = {
          ...demo,
          about: { ...demo.about, notes, revision: label },
          builds: [{ ...build, label }, ...builds],
        };
        expect(readGood(write(changed), fileName).document).toEqual(changed);
      }),
      { seed: 20, numRuns: 12 },
    );
  });
});

test("a full set holds a table for every list of the document and no other", () => {
  const names = fillTableSet(demo).map((table) => table.name);
  const lists = Object.entries(demo).flatMap(([name, value]) => (Array.isArray(value) ? [name] : []));
  expect(names).toEqual(
    expect.arrayContaining(["about", ...lists, "connectors-sides", "connectors-cavities", "components-elements"]),
  );
  expect(names).toEqual(
    expect.arrayContaining(["states-settings", "states-quantities", "zones-hazards", "segments-hazards"]),
  );
  expect(Object.keys(unzipSync(writeTableSetZip(demo)))).toEqual(names.map((name) => `${name}.csv`));
});

test("the wires of a full set read well in a spreadsheet", () => {
  const wires = strFromU8(unzipSync(writeTableSetZip(demo))["wires.csv"] ?? new Uint8Array());
  const [headings, , ...rows] = wires.split("\r\n");
  expect(headings).toBe("id,ends,colour,crossSectionMm2,lengthMm,net,harness,group,route,when");
  expect(rows).toContain("W89,A1.X1:36 B3.X:3,WH/RD,0.5,1060,RAIL-P,engine,,SG01 SG02 SG04 SG07,");
});

/** The demo machine as tables, with some of them changed, packed again. */
function changed(change: (table: FilledTable) => FilledTable | undefined): Uint8Array {
  const files = fillTableSet(demo).flatMap((table) => change(table) ?? []);
  return zipSync(Object.fromEntries(files.map(({ name, rows }) => [`${name}.csv`, csvBytes(writeCsv(rows))])));
}

describe("a full set with faults", () => {
  const cell = (name: string, row: number, column: number, value: string) =>
    changed((table) => {
      if (table.name !== name) return table;
      return {
        name,
        rows: table.rows.map((cells, at) =>
          at === row ? cells.map((old, place) => (place === column ? value : old)) : cells,
        ),
      };
    });

  test.each([
    ["a number that is none", cell("wires", 1, 3, "thick"), ["set-value-wrong"], []],
    ["a flag that is none", cell("connectors-cavities", 1, 5, "perhaps"), ["set-value-wrong"], []],
    ["an owner that is nowhere", cell("connectors-sides", 1, 0, "A99.X1"), ["set-owner-unknown"], []],
    ["a heading nobody knows", cell("wires", 0, 7, "__proto__"), [], ["set-column-unknown"]],
    ["a wire that ends nowhere", cell("wires", 1, 1, "A1.X1:999 SP1"), ["dangling-end"], []],
    ["a kind of component nobody knows", cell("components", 1, 2, "wormhole"), ["shape"], []],
  ] as const)("tells of %s", (_name, bytes, errors, warnings) => {
    const problems = problemsOf(bytes, "machine.zip");
    expect(errorCodes(problems)).toEqual(expect.arrayContaining([...errors]));
    expect(errorCodes(problems).length === 0).toBe(errors.length === 0);
    expect(warningCodes(problems)).toEqual(expect.arrayContaining([...warnings]));
  });

  test("names the row of what does not fit together", () => {
    const [found] = problemsOf(cell("wires", 5, 1, "A1.X1:999 SP1"), "machine.zip");
    expect(found).toMatchObject({ code: "dangling-end", at: { file: "machine.zip", sheet: "wires", row: 6 } });
  });

  test("tells of a table that is missing or not known", () => {
    const without = changed((table) => (table.name === "connectors" ? undefined : table));
    expect(errorCodes(problemsOf(without, "machine.zip"))).toContain("set-table-missing");
    const workbook = writeWorkbook([...fillTableSet(demo), { name: "prices", rows: [["id"], ["W1"]] }]);
    expect(warningCodes(problemsOf(workbook, "machine.xlsx"))).toEqual(["set-table-unknown"]);
  });

  test("reads a set that a spreadsheet saved with semicolons and decimal commas", () => {
    const files = fillTableSet(demo).map(({ name, rows }) => {
      const text = rows
        .map((row) =>
          row
            .map((value) =>
              typeof value === "number" ? String(value).replace(".", ",") : `"${(value ?? "").replaceAll('"', '""')}"`,
            )
            .join(";"),
        )
        .join("\r\n");
      return [`${name}.csv`, csvBytes(text)] as const;
    });
    expect(readGood(zipSync(Object.fromEntries(files)), "machine.zip").document).toEqual(demo);
  });
});

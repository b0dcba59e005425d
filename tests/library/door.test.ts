import { join } from "node:path";
import ts from "typescript";
import { describe, expect, test } from "vitest";
import { root } from "../structure/support/project-files.ts";

/** What a program may import, by entry. A name that goes or changes its meaning breaks programs: it needs a line in the changelog. */
const names = {
  index: [
    ["circuit", "common", "expectedReading", "find", "fitBuild", "harnessGraph", "openEffect", "openMachine"],
    ["path", "testPoints", "writeAnswer"],
    ["ChooseAnswer", "CircuitAnswer", "CommonAnswer", "ExpectedReadingAnswer"],
    ["FindAnswer", "Harness", "HarnessDocument", "HarnessGraph", "Machine"],
    ["NoPathAnswer", "OpenEffectAnswer", "PathAnswer", "Problem", "Result"],
    ["TestPointsAnswer", "UnresolvedAnswer", "Where", "WrongQuestionAnswer"],
  ],
  formats: [
    ["EXPORT_FORMATS", "exportMachine", "importMachine"],
    ["ExportedFile", "ImportOptions", "ImportProblem"],
  ],
  diagnosis: [
    ["nextCheck", "readRecord", "resumeJob", "startJob", "takeStep", "writeRecord"],
    ["JobRecord", "JobStep", "NextCheckAnswer", "OpenJob", "StepTaken"],
  ],
} as const;

const folder = join(root, "src", "library");
const read = ts.readConfigFile(join(folder, "tsconfig.json"), (path) => ts.sys.readFile(path));
const config = ts.parseJsonConfigFileContent(read.config, ts.sys, folder);
const program = ts.createProgram(config.fileNames, config.options);
const checker = program.getTypeChecker();

function exportsOf(entry: string): readonly ts.Symbol[] {
  const source = program.getSourceFile(join(folder, `${entry}.ts`));
  const module = source && checker.getSymbolAtLocation(source);
  return module ? checker.getExportsOfModule(module) : [];
}

/** Words of the doc comment of an export, wherever it is written. */
function wordsOf(symbol: ts.Symbol): string {
  const meant = symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol;
  return ts.displayPartsToString(meant.getDocumentationComment(checker)).trim();
}

describe.each(Object.entries(names))("the entry %s", (entry, groups) => {
  test("exports these names and no others", () => {
    expect(
      exportsOf(entry)
        .map(({ name }) => name)
        .sort(),
    ).toEqual(groups.flat().map(String).sort());
  });

  test("has a doc comment on each", () => {
    expect(exportsOf(entry).flatMap((symbol) => (wordsOf(symbol) === "" ? [symbol.name] : []))).toEqual([]);
  });
});

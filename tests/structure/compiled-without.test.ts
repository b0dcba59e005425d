import { dirname, join } from "node:path";
import ts from "typescript";
import { describe, expect, test } from "vitest";
import { root } from "./support/project-files.ts";

/**
 * Lines of a file that a tsconfig refuses. The file exists only in memory and is compiled together with all files of that
 * tsconfig, so that names which an outside package brings in count as well.
 */
function refusedLines(tsconfig: string, folder: string, lines: readonly string[]): readonly string[] {
  const configPath = join(root, tsconfig);
  const read = ts.readConfigFile(configPath, (path) => ts.sys.readFile(path));
  expect(read.error).toBeUndefined();
  const config = ts.parseJsonConfigFileContent(read.config, ts.sys, dirname(configPath));
  // Other options are at fault when there is nothing to compile; it is not the point here.
  const options = { ...config.options, incremental: false, noUnusedLocals: false };
  delete options.tsBuildInfoFile;

  const planted = join(root, folder, "planted-in-memory.ts");
  const host = ts.createCompilerHost(options);
  const { getSourceFile, fileExists, readFile } = host;
  const text = `${lines.join("\n")}\nexport {};\n`;
  host.fileExists = (path) => path === planted || fileExists(path);
  host.readFile = (path) => (path === planted ? text : readFile(path));
  host.getSourceFile = (path, target) =>
    path === planted ? ts.createSourceFile(path, text, target, true) : getSourceFile(path, target);

  const program = ts.createProgram([...config.fileNames, planted], options, host);
  const source = program.getSourceFile(planted);
  const faults = [...program.getSemanticDiagnostics(source), ...program.getSyntacticDiagnostics(source)];
  const refused = new Set(faults.map(({ start }) => source?.getLineAndCharacterOfPosition(start ?? 0).line));
  return lines.filter((_, index) => refused.has(index));
}

const ofBrowser = ["void document.title;", "void window;", "localStorage.clear();", "const a: HTMLElement[] = [];"];
const ofNode = [
  "process.cwd();",
  "void Buffer;",
  "void __dirname;",
  `void import("node:fs");`,
  "const b: NodeJS.Timeout[] = [];",
];
const ofBoth = [
  "console.log(1);",
  "setTimeout(() => 1, 1);",
  "performance.now();",
  "new TextDecoder();",
  `void fetch("x");`,
];
const ofLanguage = ["new Map([[1, 2]]).get(1);", "[2, 1].toSorted();", "JSON.stringify({});", "Math.hypot(3, 4);"];
const ofStrictness = ["const c: number = [1, 2][0];", "const d: { e?: number } = { e: undefined };", "enum F { G }"];

// Each is held to the strict base besides.
describe("a planted file", () => {
  const lines = [...ofBrowser, ...ofNode, ...ofBoth, ...ofStrictness, ...ofLanguage];

  test("of the core may name neither the browser nor Node", () => {
    const wrong = [...ofBrowser, ...ofNode, ...ofBoth, ...ofStrictness];
    expect(refusedLines("src/tsconfig.core.json", "src/base", lines)).toEqual(wrong);
  });

  test("of the command may name Node and not the browser", () => {
    // Node has a fetch, timers and a console of its own; of the DOM it must have nothing.
    expect(refusedLines("src/cli/tsconfig.json", "src/cli", lines)).toEqual([...ofBrowser, ...ofStrictness]);
  });

  test("of the screen may name the browser and not Node", () => {
    expect(refusedLines("src/ui/tsconfig.json", "src/ui", lines)).toEqual([...ofNode, ...ofStrictness]);
  });

  test("of the tests is held to the strict base", () => {
    expect(refusedLines("tests/tsconfig.json", "tests", [...ofStrictness, ...ofLanguage])).toEqual(ofStrictness);
  });
});

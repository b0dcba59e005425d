import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { naturalOrder } from "ohmward/base";
import { pinTableTemplate, writeHarnessJson } from "ohmward/import-export";
import { readGood } from "../import-export/support/read-file.ts";
import { demoText } from "../demo-harness/open-demo.ts";
import { root, run } from "./fake-io.ts";
import { pattern, words } from "./page-examples.ts";
import { trainingFiles } from "./training-files.ts";

const page = readFileSync(join(root, "docs", "using", "command-line.md"), "utf8");

/** Files of the page's examples: the demo machine with one wire that leads nowhere, a table, two cables that belong together. */
const files = {
  "list.csv": pinTableTemplate("wire"),
  "pins.ohm.json": writeHarnessJson(
    readGood("Connector,Pin,Signal,Colour\nECU,1,5V,VT\nTANK,A,5V,VT\n", "pins.csv").document,
  ),
  "cab.csv": "Wire;From;To;Colour;Signal\nW1;XT.1:1;S1.X:1;RD;FEED\nW2;XT.1:2;S1.X:2;BK;BACK\n",
  "tiller.csv": "Wire;From;To;Colour;Signal\nW1;XT.2:1;M1.X:1;RD;FEED\nW2;XT.2:2;M1.X:2;BK;BACK\n",
  "faults.csv": "Title,Fault,Level\nStart,high-resistance:XE1:1=0.25,2\nFog lamp,open:W999,1\nHeater,blown:FB1.FL2,7\n",
  ...trainingFiles(),
  "mine.ohm.json": demoText("firnlark-45.ohm.json").replace('["A1.X1:36", "B3.X:3"]', '["A1.X1:36", "B3.X:7"]'),
};

const examples = [...page.matchAll(/```console\n\$ ohmward (.+)\n([^]*?)```/gu)].map(([, line = "", shown = ""]) => ({
  line,
  shown,
}));

describe("docs/using/command-line.md", () => {
  test("shows every command but the one that never ends", () => {
    const shown = new Set(examples.map(({ line }) => line.split(" ")[0] ?? ""));
    expect([...shown].toSorted(naturalOrder)).toEqual([
      "answer",
      "circuit",
      "common",
      "compare",
      "effect",
      "expected",
      "export",
      "find",
      "gaps",
      "import",
      "join",
      "path",
      "test-points",
      "training",
      "validate",
    ]);
    expect(page).toContain("ohmward serve");
  });

  test.each(examples)("$line prints what the page shows", async ({ line, shown }) => {
    const { out, err } = await run(words(line), { files });
    expect(out === "" ? err : out).toMatch(pattern(shown));
  });

  test("the check tells a wrong example from a right one", () => {
    expect("a\nb\nc\nd\n").toMatch(pattern("a\n...\nd\n"));
    expect("a\nb\nc\nd\n").not.toMatch(pattern("a\n...\nc\n"));
    expect("a\nb\n").not.toMatch(pattern("a\n"));
  });
});

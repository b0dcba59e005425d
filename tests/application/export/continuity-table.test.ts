import { expect, test } from "vitest";
import { exportMachine, openMachine } from "ohmward/application";
import { writeHarnessJson } from "ohmward/import-export";
import { demoText } from "../../demo-harness/open-demo.ts";
import { readGood } from "../../import-export/support/read-file.ts";

function rows(text: string, build?: string): readonly string[] {
  const machine = openMachine(text);
  if (!machine.ok) throw new Error("The machine does not open");
  const file = exportMachine(machine.value, { format: "continuity", ...(build === undefined ? {} : { build }) });
  if (!file.ok) throw new Error("Nothing is written");
  return new TextDecoder().decode(file.value.bytes).trim().split("\r\n");
}

test("a test sheet has each net with the wires at both ends, a limit, and room for what is found", () => {
  const sheet = rows(demoText("firnlark-45.ohm.json"), "base");
  expect(sheet[0]).toBe("No.,From,Wires at,To,Wires there,Must show,Limit,Found,Pass or fail");
  expect(sheet[1]).toBe("1,A1.X1:1,W71 PK 0.75 mm²,B3.X:1,W72 PK 0.5 mm²,Joined,up to 0.3 Ω,,");
  expect(sheet.at(-1)).toMatch(/,OL: not joined,,,$/u);
});

test("says where no limit is known, and leaves a line out that may belong to an airbag", () => {
  const list = "Wire;From;To;Colour;Signal\nW1;X1:1;X2:1;RD;lamp\nW2;X1:2;X2:2;YE;airbag driver\n";
  const sheet = rows(writeHarnessJson(readGood(list, "a.csv").document));
  expect(sheet.slice(1)).toEqual([
    "1,X1:1,W1 RD,X2:1,W1 RD,Joined,not known: a length or conductor size is missing,,",
    '2,X1:2,W2 YE,X2:2,W2 YE,"Do not test: airbag or high voltage, maker\'s procedure",,,',
    '3,X1:1,W1 RD,X1:2,W2 YE,"Do not test: airbag or high voltage, maker\'s procedure",,,',
    '4,X2:1,W1 RD,X2:2,W2 YE,"Do not test: airbag or high voltage, maker\'s procedure",,,',
  ]);
});

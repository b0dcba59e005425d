import { describe, expect, test } from "vitest";
import { importMachine } from "../../src/library/formats.ts";

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

describe("importMachine()", () => {
  test("reads a file to its end and gives a machine that can be asked, with what is odd about it", () => {
    const read = importMachine(bytes("Wire;From;To\nW1;X1:1;X2:1\n"), { fileName: "list.csv" });
    if (!read.ok) throw new Error(read.error.map((problem) => problem.message).join("\n"));
    const { machine, warnings, ledgers } = read.value;
    expect(machine.document.wires.map((wire) => wire.ends)).toEqual([["X1:1", "X2:1"]]);
    // The file gives no voltage, so 12 V is taken and said.
    expect(warnings.length).toBeGreaterThan(0);
    expect(ledgers).toEqual([]);
    const [build] = machine.document.builds;
    expect(machine.harness(build?.id ?? "")?.edgeNumbers.has("W1")).toBe(true);
  });

  test("lists every problem of a file that cannot be read", () => {
    const read = importMachine(new Uint8Array(), { fileName: "empty.csv" });
    expect(read.ok ? [] : read.error.map((problem) => problem.code)).toEqual(["file-empty"]);
  });
});

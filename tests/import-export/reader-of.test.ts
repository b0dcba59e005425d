import { strToU8, zipSync } from "fflate";
import { expect, test } from "vitest";
import {
  harnessJsonBytes,
  readerOf,
  readers,
  recogniseFile,
  writeTableSetXlsx,
  writeTableSetZip,
  writeTableXlsx,
} from "ohmward/import-export";
import { openDemo } from "../demo-harness/open-demo.ts";

const demo = openDemo();

test.each([
  ["json", harnessJsonBytes(demo), "a.csv"],
  ["json", strToU8("{}"), "a.txt"],
  ["csv", strToU8("a;b\n1;2"), "a.json.csv"],
  ["csv", strToU8("a;b\n1;2"), "a.kbl"],
  ["csv", strToU8(`${"ä".repeat(40_000)};b`), "a.csv"],
  ["xlsx", writeTableXlsx(demo, { shape: "pin" }).content, "a.csv"],
  ["table-set-xlsx", writeTableSetXlsx(demo), "a.xlsx"],
  ["table-set-zip", writeTableSetZip(demo), "a.zip"],
  ["kbl", strToU8('<?xml version="1.0"?><!-- <a> --><kbl:KBL_container xmlns:kbl="x"/>'), "a.xml"],
  ["vec", strToU8('\uFEFF<ns:VecContent xmlns:ns="x"/>'), "a.xml"],
  ["vec-package", zipSync({ "index.vec": strToU8("x") }), "a.zip"],
])("recogniseFile() finds %s by its content", (kind, bytes, name) => {
  expect(recogniseFile(bytes, name).kind).toBe(kind);
  const reader = readerOf(bytes, name);
  expect(reader.ok ? reader.value.id : reader.error.code).toBe(kind === "vec-package" ? "format-unknown" : kind);
  expect(readers.filter((each) => each.recognises(bytes, name)).map((each) => each.id)).toEqual(
    kind === "vec-package" ? [] : [kind],
  );
});

test.each([
  ["%PDF-1.7", "a.csv"],
  ["\u001f\u008b", "a.csv.gz"],
  ["<svg/>", "a.svg"],
])("recogniseFile() knows that %j is none of its formats", (text, name) => {
  expect(recogniseFile(strToU8(text, true), name).kind).toBe("unknown");
});

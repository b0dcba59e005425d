import { mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { writeBytes } from "../../src/cli/write-bytes.ts";

const folder = mkdtempSync(join(tmpdir(), "ohmward-"));
afterAll(() => rmSync(folder, { recursive: true }));
const bytes = new Uint8Array([1, 2, 3]);
const path = (name: string): string => join(folder, name);

test("writeBytes() writes a new file, refuses one that is there, and replaces it if told to, leaving nothing beside it", async () => {
  expect((await writeBytes(path("a"), bytes, false)).ok).toBe(true);
  expect(await writeBytes(path("a"), new Uint8Array([4]), false)).toEqual({
    ok: false,
    error: "it is there already",
  });
  expect([...readFileSync(path("a"))]).toEqual([1, 2, 3]);
  expect((await writeBytes(path("a"), new Uint8Array([4]), true)).ok).toBe(true);
  expect([...readFileSync(path("a"))]).toEqual([4]);
  expect(readdirSync(folder)).toEqual(["a"]);
});

test("writeBytes() writes through a link in place of replacing it", async () => {
  writeFileSync(path("b"), "old");
  symlinkSync(path("b"), path("link"));
  expect((await writeBytes(path("link"), bytes, true)).ok).toBe(true);
  expect([...readFileSync(path("b"))]).toEqual([1, 2, 3]);
});

test("writeBytes() says why it cannot write", async () => {
  expect(await writeBytes(path("no/such"), bytes, false)).toEqual({ ok: false, error: "there is no such folder" });
  expect(await writeBytes(folder, bytes, true)).toEqual({ ok: false, error: "it is a folder" });
});

import { execFileSync } from "node:child_process";
import { appendFileSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { open } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test, vi } from "vitest";
import { readFileBytes, readStreamBytes } from "../../src/cli/read-bytes.ts";

const folder = mkdtempSync(join(tmpdir(), "ohmward-read-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const path = (name: string): string => join(folder, name);
const isPosix = process.platform !== "win32";

async function said(name: string, most?: number): Promise<string> {
  const read = await readFileBytes(name, most);
  return read.ok ? Buffer.from(read.value).toString() : read.error;
}

describe("readFileBytes()", () => {
  test("reads a file, and says why it cannot", async () => {
    writeFileSync(path("a"), "text");
    symlinkSync(path("loop"), path("loop"));
    expect(await said(path("a"))).toBe("text");
    expect(await said(folder)).toBe("it is a folder");
    expect(await said(path("none"))).toMatch(/^there is no such file/u);
    expect(await said(path("x".repeat(5000)))).toBe("its name is too long for a file");
    expect(await said(path("loop"))).toBe("it is a link to itself");
    expect(await said(path("a"), 3)).toMatch(/^it has more than/u);
  });

  test.runIf(isPosix && process.getuid?.() !== 0)(
    "says that it may not be read (needs a user who is not root)",
    async () => {
      writeFileSync(path("shut"), "text", { mode: 0 });
      expect(await said(path("shut"))).toBe("it may not be read");
    },
  );

  test.runIf(isPosix)("reads a pipe to its end", async () => {
    execFileSync("mkfifo", [path("pipe")]);
    const writing = open(path("pipe"), "w").then(async (file) => {
      await file.writeFile("through a pipe");
      await file.close();
    });
    expect(await said(path("pipe"))).toBe("through a pipe");
    await writing;
  });

  test.runIf(isPosix)("does not read a device that never ends", async () => {
    expect(await said("/dev/zero", 1024 * 1024)).toBe("it has more than 1 MiB");
  });

  test("reads again what is changed while it is read, and gives up on what never rests", async () => {
    writeFileSync(path("log"), "a");
    const probe = await open(path("log"), "r");
    const handle = Object.getPrototypeOf(probe) as typeof probe;
    await probe.close();
    const real = handle.readFile;
    let changes = 1;
    const spy = vi.spyOn(handle, "readFile").mockImplementation(async function (this: typeof probe) {
      const bytes = (await real.call(this)) as Buffer;
      if (changes-- > 0) appendFileSync(path("log"), "b");
      return bytes;
    } as typeof real);
    expect(await said(path("log"))).toBe("ab");
    changes = 9;
    expect(await said(path("log"))).toMatch(/^it changed while it was read/u);
    spy.mockRestore();
  });
});

test("readStreamBytes() ends where there is too much", async () => {
  async function* endless(): AsyncGenerator<Uint8Array> {
    for (;;) yield await Promise.resolve(new Uint8Array(1000));
  }
  expect(await readStreamBytes(endless(), 5000)).toMatchObject({ ok: false });
});

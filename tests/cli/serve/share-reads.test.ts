import { expect, test } from "vitest";
import { shareReads } from "../../../src/cli/serve/share-reads.ts";

/** A file that is read when it is told to, with a count of its readings. */
function file(): {
  text: string | undefined;
  count: number;
  finish: () => void;
  read: () => Promise<Uint8Array | undefined>;
} {
  const waiting: (() => void)[] = [];
  const it = {
    text: "a" as string | undefined,
    count: 0,
    finish: () => waiting.splice(0).forEach((go) => go()),
    read: async () => {
      it.count += 1;
      await new Promise<void>((go) => waiting.push(go));
      return it.text === undefined ? undefined : Buffer.from(it.text);
    },
  };
  return it;
}

test("shareReads() reads once for all who ask at the same time", async () => {
  const it = file();
  const read = shareReads(it.read);
  const asked = Array.from({ length: 60 }, () => read());
  it.finish();
  const got = await Promise.all(asked);
  expect([it.count, new Set(got).size]).toEqual([1, 1]);
});

test("shareReads() reads again for those who ask later, and holds the same bytes once", async () => {
  const it = file();
  const read = shareReads(it.read);
  const next = (): Promise<Uint8Array | undefined> => {
    const asked = read();
    it.finish();
    return asked;
  };
  const first = await next();
  expect(await next()).toBe(first);
  it.text = "b";
  expect(String(await next())).toBe("b");
  it.text = undefined;
  expect(await next()).toBeUndefined();
  it.text = "c";
  expect(String(await next())).toBe("c");
  expect(it.count).toBe(5);
});

test("shareReads() reads again after a reading that failed", async () => {
  let isBroken = true;
  const read = shareReads(() => (isBroken ? Promise.reject(new Error("x")) : Promise.resolve(Buffer.from("a"))));
  await expect(read()).rejects.toThrow("x");
  isBroken = false;
  expect(String(await read())).toBe("a");
});

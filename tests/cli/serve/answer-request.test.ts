import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { answerRequest, type Request, type Site } from "../../../src/cli/serve/answer-request.ts";
import { contentType } from "../../../src/cli/serve/content-type.ts";
import { shareReads } from "../../../src/cli/serve/share-reads.ts";
import { startServer } from "../../../src/cli/serve/start-server.ts";

const parent = mkdtempSync(join(tmpdir(), "ohmward-serve-"));
const folder = join(parent, "app");
let machine: string | undefined = '{"format":"ohmward-harness"}';
const site: Site = { folder, machine: () => Promise.resolve(machine === undefined ? undefined : Buffer.from(machine)) };

beforeAll(() => {
  mkdirSync(join(folder, "assets"), { recursive: true });
  writeFileSync(join(folder, "index.html"), "<!doctype html><title>Screen</title>");
  writeFileSync(join(folder, "assets", "a.js"), "export {};");
  writeFileSync(join(parent, "secret.txt"), "secret");
  symlinkSync(join(parent, "secret.txt"), join(folder, "link.txt"));
  symlinkSync(parent, join(folder, "out"));
});
afterAll(() => rmSync(parent, { recursive: true, force: true }));

const ask = (target: string, more: Partial<Request> = {}): ReturnType<typeof answerRequest> =>
  answerRequest(site, { method: "GET", target, host: "127.0.0.1:4750", ...more });

describe("answerRequest()", () => {
  test("gives files with their types", async () => {
    const index = await ask("/");
    expect([index.status, index.headers["content-type"]]).toEqual([200, "text/html; charset=utf-8"]);
    expect(Buffer.from(index.body).toString()).toContain("Screen");
    expect((await ask("/assets/a.js")).headers["content-type"]).toBe("text/javascript; charset=utf-8");
  });

  test("gives the machine where the screen asks for it, as it is at that moment", async () => {
    expect(await ask("/machine.ohm.json")).toMatchObject({ status: 200, body: Buffer.from(machine ?? "") });
    machine = undefined;
    expect((await ask("/machine.ohm.json")).status).toBe(500);
    machine = "{}";
    expect(String((await ask("/machine.ohm.json")).body)).toBe("{}");
  });

  test.each([
    ["/nothing.html", 404],
    ["/assets", 404],
    ["/../secret.txt", 400],
    ["/%2e%2e/secret.txt", 400],
    ["/link.txt", 404],
    ["/out/secret.txt", 404],
  ])("%s is answered with %i and gives nothing away", async (target, status) => {
    const reply = await ask(target);
    expect(reply.status).toBe(status);
    expect(Buffer.from(reply.body).toString()).not.toContain("secret");
  });

  test.each(["POST", "PUT", "DELETE", "OPTIONS", undefined])("method %s is refused", async (method) => {
    expect((await ask("/", { method })).status).toBe(405);
  });

  test.each([undefined, "", "evil.example", "127.0.0.1.evil.example", "localhost.evil.example:4750", "10.0.0.1"])(
    "host %s is refused",
    async (host) => {
      expect((await ask("/", { host })).status).toBe(403);
    },
  );

  test("every reply keeps pages of others out and scripts of others away", async () => {
    for (const reply of [await ask("/"), await ask("/nothing"), await ask("/", { host: "evil.example" })]) {
      const policy = reply.headers["content-security-policy"] ?? "";
      expect(policy.split("; ")).toEqual(
        expect.arrayContaining([
          "default-src 'self'",
          "style-src 'self' 'unsafe-inline'",
          "img-src 'self' data: blob:",
          "worker-src 'self' blob:",
          "frame-ancestors 'none'",
        ]),
      );
      expect(policy).not.toMatch(/script-src|unsafe-eval|\*/u);
      expect(reply.headers).toMatchObject({ "x-content-type-options": "nosniff", "referrer-policy": "no-referrer" });
    }
  });
});

test("contentType() is bytes for what it does not know", () => {
  expect(contentType("a.SVG")).toBe("image/svg+xml; charset=utf-8");
  expect(contentType("a.exe")).toBe("application/octet-stream");
  expect(contentType("html")).toBe("text/html; charset=utf-8");
});

describe("startServer()", () => {
  test("serves on this computer, takes the next port where the usual one is taken, and stops", async () => {
    const first = await startServer(site, undefined, 42_750);
    const second = await startServer(site, undefined, 42_750);
    if (!first.ok || !second.ok) throw new Error("no server");
    expect(second.value.port).toBeGreaterThan(first.value.port);
    const address = `http://127.0.0.1:${second.value.port}/`;
    const reply = await fetch(address);
    expect([reply.status, reply.headers.get("content-length")]).toEqual([200, "36"]);
    expect(await reply.text()).toContain("Screen");
    expect(await (await fetch(address, { method: "HEAD" })).text()).toBe("");
    await first.value.stop();
    await second.value.stop();
    await expect(fetch(address)).rejects.toThrow();
  });

  test("reads a machine once for sixty who ask at the same time", async () => {
    let [readings, finish] = [0, (): void => undefined];
    const body = Buffer.alloc(300_000, "x");
    const read = async (): Promise<Uint8Array> => {
      readings += 1;
      await new Promise<void>((resolve) => (finish = resolve));
      return Buffer.from(body);
    };
    let asked = 0;
    const shared = shareReads(read);
    const machine = (): ReturnType<typeof shared> => {
      asked += 1;
      const bytes = shared();
      if (asked === 60) finish();
      return bytes;
    };
    const server = await startServer({ folder, machine }, undefined, 42_820);
    if (!server.ok) throw new Error("no server");
    const address = `http://127.0.0.1:${server.value.port}/machine.ohm.json`;
    const got = await Promise.all(
      Array.from({ length: 60 }, async () => (await (await fetch(address)).arrayBuffer()).byteLength),
    );
    expect([readings, new Set(got)]).toEqual([1, new Set([body.length])]);
    await server.value.stop();
  });

  test("says that a port that must be used is in use", async () => {
    const first = await startServer(site, undefined, 42_790);
    if (!first.ok) throw new Error("no server");
    const second = await startServer(site, first.value.port, 42_790);
    expect(second).toEqual({ ok: false, error: `port ${first.value.port} is in use` });
    await first.value.stop();
  });
});

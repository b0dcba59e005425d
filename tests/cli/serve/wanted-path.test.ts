import fc from "fast-check";
import { expect, test } from "vitest";
import { wantedPath } from "../../../src/cli/serve/wanted-path.ts";

test.each([
  ["/", "index.html"],
  ["/?machine=1#top", "index.html"],
  ["/assets/a-1.js", "assets/a-1.js"],
  ["/assets/", "assets/index.html"],
  ["/a%20b.svg", "a b.svg"],
  ["/machine.ohm.json", "machine.ohm.json"],
])("wantedPath() of %s is %s", (target, path) => {
  expect(wantedPath(target)).toBe(path);
});

// Source: the traversal forms that CWE-22 to CWE-42 describe.
test.each([
  "/../package.json",
  "/..%2fpackage.json",
  "/%2e%2e/package.json",
  "/assets/../../package.json",
  "/assets/%2e%2e%2f%2e%2e%2fpackage.json",
  "/..\\package.json",
  "/..%5cpackage.json",
  "//etc/passwd",
  "/./a",
  "/.git/config",
  "/a/.hidden",
  "/c:/windows/win.ini",
  "/index.html%00.png",
  "/a%0d%0ab",
  "/%E0%A4%A",
  "http://other.example/",
  "a",
  "",
])("wantedPath() refuses %j", (target) => {
  expect(wantedPath(target)).toBeUndefined();
});

test("wantedPath() never leaves the folder (law)", () => {
  const piece = fc.oneof(
    fc.constantFrom("..", ".", "%2e", "%2f", "%5c", "\\", "//", "a", "%2e%2e%2f"),
    fc.string({ maxLength: 4 }),
  );
  fc.assert(
    fc.property(fc.array(piece, { maxLength: 8 }), (pieces) => {
      const path = wantedPath(`/${pieces.join("/")}`);
      if (path === undefined) return;
      expect(new URL(encodeURI(path), "file:///folder/").pathname.startsWith("/folder/")).toBe(true);
      expect(path.split("/").some((part) => part === "" || part.startsWith("."))).toBe(false);
    }),
    { seed: 4505, numRuns: 500 },
  );
});

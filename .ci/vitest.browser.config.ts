import { join } from "node:path";
import { defineConfig } from "vitest/config";
import { cacheFolder, roomAliases, root } from "./paths.mjs";
import { findChromium } from "./ready.mjs";

// Left to the long run: OHMWARD_WHOLE=1 npm run test:browser.
const long = process.env["OHMWARD_WHOLE"] === "1" ? [] : ["tests/browser/training-accessible.test.ts"];

// Tests that drive a real Chromium from Node: two at a time, with patience.
export default defineConfig({
  root,
  cacheDir: join(cacheFolder, "vite-browser"),
  resolve: { alias: roomAliases },
  test: {
    environment: "node",
    include: ["tests/browser/**/*.test.ts"],
    exclude: ["**/node_modules/**", ...long],
    // Where the tests find their browser.
    env: { OHMWARD_CHROMIUM: findChromium() ?? "" },
    maxWorkers: 2,
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
});

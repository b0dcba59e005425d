import { join } from "node:path";
import { defineConfig } from "vitest/config";
import { cacheFolder, roomAliases, root } from "./paths.mjs";
import { findChromium } from "./ready.mjs";

// Tests that drive a real Chromium from Node: two at a time, with patience.
export default defineConfig({
  root,
  cacheDir: join(cacheFolder, "vite-browser"),
  resolve: { alias: roomAliases },
  test: {
    environment: "node",
    include: ["tests/browser/**/*.test.ts"],
    // Where the tests find their browser.
    env: { OHMWARD_CHROMIUM: findChromium() ?? "" },
    maxWorkers: 2,
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
});

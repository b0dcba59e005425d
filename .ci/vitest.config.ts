import { join } from "node:path";
import { defineConfig } from "vitest/config";
import { cacheFolder, roomAliases, root } from "./paths.mjs";

// Unit, law, reference and structure tests: plain Node, no browser.
export default defineConfig({
  root,
  cacheDir: join(cacheFolder, "vite-unit"),
  resolve: { alias: roomAliases },
  test: {
    environment: "node",
    include: ["tests/**/*.test.ts"],
    exclude: ["tests/browser/**", "tests/bench/**", "**/node_modules/**"],
    testTimeout: 120_000,
    // The examples of doc comments are written there and must be compiled like own code.
    server: { deps: { inline: [/\.cache\/doc-examples\//] } },
  },
});

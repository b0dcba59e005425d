import { readFileSync } from "node:fs";
import { join } from "node:path";
import { svelte } from "@sveltejs/vite-plugin-svelte";
import { defineConfig } from "vite";
import { licenceTexts } from "./licences.mjs";
import { cacheFolder, root } from "./paths.mjs";

// Every case that is saved of a fault names the version.
const manifest: unknown = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
const isRecord = typeof manifest === "object" && manifest !== null && "version" in manifest;
process.env["VITE_OHMWARD_VERSION"] = isRecord ? String(manifest.version) : "unknown";

// The screen: a folder of static files that works from any path and without a network.
export default defineConfig({
  root: join(root, "src", "ui"),
  base: "./",
  cacheDir: join(cacheFolder, "vite-app"),
  plugins: [
    svelte({ configFile: false }),
    {
      name: "licences",
      generateBundle() {
        this.emitFile({ type: "asset", fileName: "licences.txt", source: licenceTexts() });
      },
    },
  ],
  // The demo machine is read from demo-harness/, beside src/.
  server: { fs: { allow: [root] } },
  worker: { format: "es" },
  build: {
    outDir: join(root, "dist", "app"),
    emptyOutDir: true,
    sourcemap: false,
    target: "es2022",
    // One script of this size is fine: it comes from the same machine or from the cache.
    chunkSizeWarningLimit: 2000,
  },
});

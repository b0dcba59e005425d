import { chmodSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { defineConfig } from "vite";
import { cacheFolder, root } from "./paths.mjs";

const manifest = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as {
  readonly dependencies: Readonly<Record<string, string>>;
};
const entry = "ohmward.js";
const outDir = join(root, "dist", "cli");

// The command: one program for Node. What package.json lists as a dependency is left outside, all else is built in.
export default defineConfig({
  root,
  cacheDir: join(cacheFolder, "vite-cli"),
  publicDir: false,
  ssr: { target: "node", noExternal: true, external: Object.keys(manifest.dependencies) },
  build: {
    ssr: join(root, "src", "cli", "main.ts"),
    outDir,
    emptyOutDir: true,
    sourcemap: false,
    minify: false,
    target: "node20",
    rolldownOptions: {
      output: { format: "es", entryFileNames: entry, chunkFileNames: "[name]-[hash].js", banner: firstLine },
    },
  },
  plugins: [{ name: "make-executable", closeBundle: () => chmodSync(join(outDir, entry), 0o755) }],
});

function firstLine(chunk: { readonly isEntry: boolean }): string {
  return chunk.isEntry ? "#!/usr/bin/env node" : "";
}

import { readFileSync } from "node:fs";
import { join } from "node:path";
import { defineConfig } from "vite";
import { cacheFolder, root } from "./paths.mjs";

const manifest = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as {
  readonly dependencies: Readonly<Record<string, string>>;
};
const outside = Object.keys(manifest.dependencies);
const entry = Object.fromEntries(
  ["index", "formats", "diagnosis"].map((name) => [name, join(root, "src", "library", `${name}.ts`)]),
);

// The door for programs: ES modules for Node and browsers. What package.json lists as a dependency is left outside.
export default defineConfig({
  root,
  cacheDir: join(cacheFolder, "vite-library"),
  publicDir: false,
  build: {
    lib: { entry, formats: ["es"] },
    outDir: join(root, "dist", "library"),
    emptyOutDir: true,
    sourcemap: false,
    minify: false,
    target: "es2023",
    rolldownOptions: {
      external: (id) => outside.some((name) => id === name || id.startsWith(`${name}/`)),
      output: { entryFileNames: "[name].js", chunkFileNames: "shared-[hash].js" },
    },
  },
});

// node .ci/run-ts.mjs [flags of node] <script.ts> [arguments]
// Bundles one TypeScript script and runs it in Node, in the top folder. Packages stay outside the bundle.
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { join, relative, resolve } from "node:path";
import { cacheFolder, roomAliases, root } from "./paths.mjs";
import { ensurePackages } from "./ready.mjs";

const args = process.argv.slice(2);
const at = args.findIndex((arg) => !arg.startsWith("-"));
if (at < 0) {
  console.error("Usage: node .ci/run-ts.mjs [flags of node] <script.ts> [arguments]");
  process.exit(2);
}
const nodeFlags = args.slice(0, at);
const entry = resolve(args[at]);

ensurePackages();
const { build } = await import("vite");
const key = createHash("sha256").update(relative(root, entry)).digest("hex").slice(0, 12);
const outDir = join(cacheFolder, "run-ts", key);
await build({
  configFile: false,
  root,
  logLevel: "warn",
  publicDir: false,
  cacheDir: join(cacheFolder, "vite-run-ts"),
  resolve: { alias: roomAliases },
  build: {
    ssr: entry,
    outDir,
    emptyOutDir: true,
    minify: false,
    target: "node20",
    sourcemap: "inline",
    rolldownOptions: { output: { format: "es", entryFileNames: "script.mjs", chunkFileNames: "[name]-[hash].mjs" } },
  },
});
const command = [...nodeFlags, "--enable-source-maps", join(outDir, "script.mjs"), ...args.slice(at + 1)];
const run = spawnSync(process.execPath, command, { cwd: root, stdio: "inherit" });
process.exitCode = run.status ?? 1;

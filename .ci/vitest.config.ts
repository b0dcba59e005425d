import { join } from "node:path";
import { defineConfig } from "vitest/config";
import { cacheFolder, roomAliases, root } from "./paths.mjs";

// The long run takes what is too long for every day, and the whole of what is drawn from in `npm test`.
const isLong = process.env["OHMWARD_LONG"] === "1";
const whole = [
  "tests/application/job/one-service.test.ts",
  "tests/application/training/make-tasks.test.ts",
  "tests/cli/built-command.test.ts",
  "tests/cli/job.test.ts",
  "tests/diagnosis/conflicts/digital-circuits.test.ts",
  "tests/diagnosis/job/laws.test.ts",
  "tests/import-export/hostile-tables.test.ts",
  "tests/measurement-safety/forbidden-contacts.test.ts",
  "tests/measurement-safety/missing-data.test.ts",
  "tests/training/exercise/tasks.test.ts",
  "tests/training/score/score-exercise.test.ts",
  "tests/judge/truth/machine.test.ts",
  "tests/judge/simulation/code-table.test.ts",
];

// Unit, law, reference and structure tests: plain Node, no browser.
export default defineConfig({
  root,
  cacheDir: join(cacheFolder, "vite-unit"),
  resolve: { alias: roomAliases },
  test: {
    environment: "node",
    include: isLong ? ["tests/**/*.long.test.ts", ...whole] : ["tests/**/*.test.ts"],
    exclude: [
      "tests/browser/**",
      "tests/bench/**",
      "**/node_modules/**",
      ...(isLong ? [] : ["tests/**/*.long.test.ts"]),
    ],
    testTimeout: 120_000,
    // What one file has read and worked out of the demo machine serves the next one; no test leaves anything behind.
    isolate: false,
    maxWorkers: "100%",
    // The examples of doc comments are written there and must be compiled like own code.
    server: { deps: { inline: [/\.cache\/doc-examples\//] } },
  },
});

import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { findBreaches } from "./support/find-breaches.ts";
import { debts, rooms } from "./support/house.ts";
import { projectFiles, root } from "./support/project-files.ts";

describe("findBreaches() on planted files", () => {
  test.each([
    ["upward", "src/harness-model/a.ts", `import { trace } from "../connectivity/index.ts";`],
    ["upward", "src/application/a.ts", `import App from "../ui/App.svelte";`],
    ["upward", "src/base/a.ts", `export type T = import("../harness-model/index.ts").Harness;`],
    ["upward", "src/connectivity/deep/down/a.ts", `import type { Check } from "../../../diagnosis/index.ts";`],
    ["sideways", "src/connectivity/a.ts", `import type { Net } from "../simulation/index.ts";`],
    ["sideways", "src/ui/a.ts", `import { run } from "../cli/index.ts";`],
    ["sideways", "src/measurement-safety/a.ts", `export * from "../drawing/index.ts";`],
    ["past the door", "src/connectivity/a.ts", `import { ok } from "../base/result.ts";`],
    ["past the door", "src/ui/a.ts", `const later = await import("../harness-model/schema/parts.ts");`],
    ["past the door", "src/ui/a.ts", `new Worker(new URL("../connectivity/worker.ts", import.meta.url));`],
    ["past the door", "src/connectivity/a.ts", `import { ok } from "../base/parts/index.ts";`],
    ["own door", "src/base/a.ts", `import { ok } from "./index.ts";`],
    ["package", "src/connectivity/a.ts", `import { UndirectedGraph } from "graphology";`],
    ["package", "src/harness-model/a.ts", `import { something } from "zodiac";`],
    ["package", "src/harness-model/a.ts", `import { ok } from "ohmward/base";`],
    ["package", "src/base/a.ts", `import fs from "fs";`],
    ["package", "src/base/a.ts", `/// <reference types="node" />`],
    ["node", "src/import-export/a.ts", `import { readFileSync } from "node:fs";`],
    ["node", "src/ui/a.ts", `export { join } from "node:path";`],
    ["outside the house", "src/harness-model/a.ts", `import demo from "../../demo-harness/machine.json";`],
    ["outside the house", "src/cli/a.ts", `import { plan } from "../../tests/plan.ts";`],
    ["outside the house", "src/cli/a.ts", `import { plan } from "../attic/index.ts";`],
    ["extension", "src/base/a.ts", `import { ok } from "./result";`],
    ["extension", "src/base/a.ts", `import { ok } from "./result.js";`],
    ["no room", "src/a.ts", ``],
    ["no room", "src/attic/a.ts", ``],
    ["node", "src/ui/A.svelte", `<script lang="ts">\nimport { join } from "node:path";\n</script>\n<p>{join("a")}</p>`],
    [
      "past the door",
      "src/ui/A.svelte",
      `<p>x</p>\n<script module>\nimport { ok } from "../base/result.ts";\n</script>`,
    ],
    ["value", "src/ui/a.ts", `import { takeStep, type JobRecord } from "../job-records/index.ts";`],
    ["value", "src/cli/a.ts", `export { find } from "../connectivity/index.ts";`],
    ["step", "src/application/a.ts", `import { takeReading } from "../diagnosis/index.ts";`],
    ["past the door", "src/ui/A.svelte", `{#await import("../connectivity/find-net.ts") then m}{m.x}{/await}`],
  ])("catches %s in %s: %s", (rule, path, text) => {
    expect(findBreaches([{ path, text }]).map((breach) => breach.rule)).toEqual([rule]);
  });

  test.each([
    [
      "src/harness-model/a.ts",
      `import { ok } from "../base/index.ts"; import { z } from "zod"; import * as mini from "zod/mini";`,
    ],
    [
      "src/harness-model/schema/a.ts",
      `import { b } from "./b.ts"; import { c } from "../c.ts"; import { d } from "../parts/index.ts";`,
    ],
    [
      "src/cli/a.ts",
      `import fs from "node:fs/promises"; import { Command } from "commander"; import { ok } from "../base/index.ts";`,
    ],
    ["src/ui/a.ts", `import demo from "../../demo-harness/machine.ohm.json?raw"; import "./look.css";`],
    [
      "src/ui/a.ts",
      `import type { JobRecord } from "../job-records/index.ts"; import { ask } from "../application/index.ts";`,
    ],
    ["src/application/job/take-step.ts", `import { takeReading } from "../../diagnosis/index.ts";`],
    [
      "src/ui/A.svelte",
      `<script lang="ts">\nimport B from "./B.svelte";\nimport { onMount } from "svelte";\n</script>`,
    ],
    [
      "src/base/a.ts",
      `// import { x } from "../ui/index.ts";\nexport const text = 'import { x } from "../ui/index.ts"';`,
    ],
  ])("allows what the table allows in %s: %s", (path, text) => {
    expect(findBreaches([{ path, text }])).toEqual([]);
  });

  test("tells the line, also in a component", () => {
    const text = `<p>one</p>\n\n<script lang="ts">\n  import "node:fs";\n</script>\n{#await import("node:os")}{/await}`;
    expect(findBreaches([{ path: "src/ui/A.svelte", text }])).toEqual([
      { rule: "node", debt: "src/ui/A.svelte -> node:fs", line: 4 },
      { rule: "node", debt: "src/ui/A.svelte -> node:os", line: 6 },
    ]);
  });
});

describe("the house", () => {
  const files = projectFiles(/^src\/.*\.(?:ts|svelte)$/u);
  const breaches = findBreaches(files);

  test("imports only from lower floors, through the door, and only listed packages", () => {
    expect(files.length).toBeGreaterThan(0);
    const unknown = breaches.filter((breach) => !debts.includes(breach.debt));
    expect(unknown.map((breach) => `${breach.rule}: ${breach.debt} (line ${breach.line})`)).toEqual([]);
  });

  test("has no debt in its list that is paid already", () => {
    const present = new Set(breaches.map((breach) => breach.debt));
    expect(debts.filter((debt) => !present.has(debt))).toEqual([]);
  });

  test("lists no package that is not installed", () => {
    const manifest: unknown = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
    const { dependencies, devDependencies } = manifest as Readonly<Record<string, Readonly<Record<string, string>>>>;
    const installed = new Set(Object.keys({ ...dependencies, ...devDependencies }));
    expect(rooms.flatMap((room) => room.packages).filter((name) => !installed.has(name))).toEqual([]);
  });
});

import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { pattern, words } from "./page-examples.ts";
import { root, run } from "./fake-io.ts";
import { jobFolder } from "./job-bench.ts";

const page = readFileSync(join(root, "docs", "using", "first-job.md"), "utf8");
const folder = jobFolder();
afterAll(folder.remove);
const table = /```csv\n([^]*?)```/u.exec(page)?.[1] ?? "";
const examples = [...page.matchAll(/\$ ohmward (.+)\n([^]*?)(?=\$ ohmward|```)/gu)].map(
  ([, line = "", shown = ""]) => ({
    line,
    shown,
  }),
);

// The picture is drawn by hand: the table typed from it has to agree with it, wire by wire.
test("the picture shows every wire of the table with its colour, its size and its circuit", () => {
  const picture = readFileSync(join(root, "docs", "using", "first-job.svg"), "utf8");
  const rows = table.trim().split("\n").slice(1);
  expect(rows).toHaveLength(12);
  for (const row of rows) {
    const [wire = "", from = "", , to = "", , colour = "", size = "", circuit = ""] = row.split(",");
    expect(picture).toContain(`>${wire}  ${colour} ${size}  ${circuit}<`);
    for (const name of [from, to]) expect(picture).toContain(`>${name}<`);
  }
});

test("whoever types what the page says finds wire 11", async () => {
  writeFileSync(folder.path("trailer.csv"), table);
  for (const { line, shown } of examples) {
    const named = words(line).map((word) => (word.startsWith("trailer.") ? folder.path(word) : word));
    const { out, err, written } = await run(named);
    expect(out === "" ? err : out, line).toMatch(pattern(shown));
    for (const [path, data] of written) writeFileSync(path, data);
  }
  expect(examples.length).toBeGreaterThan(20);
}, 60_000);

// Writes the decks and, with ngspice, its answers. In the top folder: node .ci/run-ts.mjs tests/references/ngspice/write-reference.ts
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { openHarness } from "ohmward/harness-model";
import { demoDecks } from "./demo-decks.ts";
import { keptText } from "./kept.ts";
import { referenceNetworks } from "./reference-networks.ts";
import { findNgspice, runNgspice } from "./run-ngspice.ts";
import { writeDeck } from "./write-deck.ts";

const folder = join("tests", "references", "ngspice");
const version = findNgspice();
if (version === undefined) throw new Error("ngspice is not installed");
const opened = openHarness(readFileSync(join("demo-harness", "firnlark-45.ohm.json"), "utf8"));
if (!opened.ok) throw new Error("the demo machine has problems");
for (const [file, decks] of [
  ["networks", referenceNetworks()] as const,
  ["demo", demoDecks(opened.value.document)] as const,
]) {
  const deck = writeDeck(`ohmward ${file}`, decks);
  writeFileSync(join(folder, `${file}.cir`), deck);
  const volts = runNgspice(deck);
  writeFileSync(join(folder, `${file}.volts.txt`), keptText(version, volts));
  console.log(`${file}: ${decks.length} networks, ${volts.size} voltages from ${version}`);
}

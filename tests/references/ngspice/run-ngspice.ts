import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** Version line of an installed ngspice, or undefined where there is none. */
export function findNgspice(): string | undefined {
  const run = spawnSync("ngspice", ["--version"], { encoding: "utf8" });
  return run.status === 0 ? (/ngspice-\S+/u.exec(run.stdout)?.[0] ?? "ngspice") : undefined;
}

/** Runs a deck and reads the node voltages it prints, by node name. */
export function runNgspice(deck: string): ReadonlyMap<string, number> {
  const folder = mkdtempSync(join(tmpdir(), "ohmward-ngspice-"));
  try {
    const file = join(folder, "deck.cir");
    writeFileSync(file, deck);
    const run = spawnSync("ngspice", ["-b", file], { encoding: "utf8", maxBuffer: 1 << 28 });
    const volts = new Map<string, number>();
    for (const [, name, value] of run.stdout.matchAll(/^(n\w+) = (\S+)$/gmu)) volts.set(name ?? "", Number(value));
    if (volts.size === 0) throw new Error(`ngspice printed no voltage:\n${run.stdout}\n${run.stderr}`);
    return volts;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

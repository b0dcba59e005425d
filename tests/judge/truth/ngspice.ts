import { spawn, spawnSync } from "node:child_process";
import { closeSync, mkdtempSync, openSync, readSync, rmSync, writeFileSync, writeSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** Whether the circuit simulator is installed. */
export function haveNgspice(): boolean {
  return spawnSync("ngspice", ["--version"], { encoding: "utf8" }).status === 0;
}

/** One ngspice that stays open; decks go in through a named pipe and the node voltages come back through another. */
export class Ngspice {
  readonly #folder = mkdtempSync(join(tmpdir(), "judge-ngspice-"));
  readonly #in: number;
  readonly #out: number;
  readonly #chunk = Buffer.alloc(1 << 16);
  #runs = 0;

  constructor() {
    const names = [join(this.#folder, "in"), join(this.#folder, "out")] as const;
    if (spawnSync("mkfifo", names).status !== 0) throw new Error("No named pipe could be made for ngspice");
    const line = `ngspice -p < "${names[0]}" > "${names[1]}" 2>&1`;
    spawn("sh", ["-c", line], { stdio: "ignore" }).unref();
    this.#in = openSync(names[0], "w");
    this.#out = openSync(names[1], "r");
    writeSync(this.#in, "set numdgt=14\n");
  }

  /** Node voltages of a deck of sources and resistors by node name, and the currents of its sources as `name#branch`. */
  operatingPoint(deck: string): ReadonlyMap<string, number> {
    const file = join(this.#folder, "deck.cir");
    writeFileSync(file, deck);
    const end = `judge-end-${String(++this.#runs)}`;
    writeSync(this.#in, `source ${file}\nop\nprint all\nremcirc\ndestroy all\necho ${end}\n`);
    const text = this.#readTo(end);
    const volts = new Map<string, number>();
    for (const [, name, value] of text.matchAll(/^(\S+) = (\S+)$/gmu)) volts.set(name ?? "", Number(value));
    if (volts.size === 0 || /singular|no convergence|doAnalyses/iu.test(text))
      throw new Error(`ngspice has no answer:\n${text.slice(0, 2000)}\n${deck}`);
    return volts;
  }

  /** Ends the process and takes its folder away. */
  close(): void {
    writeSync(this.#in, "quit\n");
    closeSync(this.#in);
    closeSync(this.#out);
    rmSync(this.#folder, { recursive: true, force: true });
  }

  #readTo(end: string): string {
    let text = "";
    for (;;) {
      const count = readSync(this.#out, this.#chunk);
      if (count === 0) throw new Error(`ngspice ended early:\n${text.slice(-2000)}`);
      text += this.#chunk.toString("latin1", 0, count);
      if (text.includes(`${end}\n`)) return text;
    }
  }
}

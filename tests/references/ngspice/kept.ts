/** Answers of ngspice as they are kept: its version, then one line a network, the voltages by rising node number. */
export function keptText(version: string, volts: ReadonlyMap<string, number>): string {
  const lines = new Map<string, string[]>();
  for (const [name, volt] of volts) {
    const [, network = "", node = ""] = /^n(.+)_(\d+)$/u.exec(name) ?? [];
    const line = lines.get(network) ?? [];
    line.push(`${node}=${volt}`);
    lines.set(network, line);
  }
  const byNode = (a: string, b: string): number => Number.parseInt(a, 10) - Number.parseInt(b, 10);
  return `${version}\n${[...lines].map(([network, line]) => `${network} ${line.toSorted(byNode).join(" ")}`).join("\n")}\n`;
}

/** Reads kept answers back, by node name. */
export function readKept(text: string): ReadonlyMap<string, number> {
  const volts = new Map<string, number>();
  for (const line of text.split("\n").slice(1)) {
    const [network = "", ...entries] = line.split(" ");
    for (const entry of entries) {
      const [node = "", volt = ""] = entry.split("=");
      volts.set(`n${network}_${node}`, Number(volt));
    }
  }
  return volts;
}

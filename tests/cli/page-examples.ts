/** The words of a command line; quotation marks hold several together. */
export function words(line: string): readonly string[] {
  return [...line.matchAll(/(?:[^\s"]|"[^"]*")+/gu)].map(([word]) => word.replaceAll('"', ""));
}

/** A text in which a line of three dots stands for any lines. */
export function pattern(shown: string): RegExp {
  const lines = shown
    .split("\n")
    .map((line) => (line === "..." ? "[^]*" : line.replace(/[.*+?^${}()|[\]\\]/gu, "\\$&")));
  return new RegExp(`^${lines.join("\n").replace(/\n\[\^\]\*\n/gu, "\n[^]*")}$`, "u");
}

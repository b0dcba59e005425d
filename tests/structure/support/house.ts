/** One room of `src/`: how high it lies and which outside packages it may name. */
export interface Room {
  readonly name: string;
  readonly floor: number;
  readonly packages: readonly string[];
  /** Whether the room may use the modules of Node. */
  readonly node?: true;
}

/** The rooms and their floors. A room may import from lower floors only, and only what is listed. */
export const rooms: readonly Room[] = [
  { name: "base", floor: 0, packages: [] },
  { name: "model", floor: 1, packages: ["graphology", "zod"] },
  { name: "formats", floor: 2, packages: ["fflate", "papaparse", "saxes", "zod"] },
  { name: "trace", floor: 2, packages: ["zod"] },
  { name: "electrics", floor: 2, packages: [] },
  { name: "records", floor: 2, packages: ["zod"] },
  { name: "safety", floor: 3, packages: [] },
  { name: "drawing", floor: 3, packages: [] },
  { name: "diagnosis", floor: 4, packages: [] },
  { name: "practice", floor: 5, packages: [] },
  { name: "workbench", floor: 6, packages: ["zod"] },
  { name: "ui", floor: 7, packages: ["svelte", "cytoscape", "idb"] },
  { name: "cli", floor: 7, packages: ["commander"], node: true },
];

/** Folders outside `src/` whose files a room may read as data. */
export const dataFolders: ReadonlyMap<string, readonly string[]> = new Map([["ui", ["demo-harness"]]]);

/**
 * Breaches that are known and not yet mended, each as "file -> import". The list may only get shorter: an entry that no longer
 * occurs fails the test until it is taken out, and a breach that is not listed fails it too.
 */
export const debts: readonly string[] = [];

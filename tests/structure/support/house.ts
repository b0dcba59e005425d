/** One room of `src/`: how high it lies and which outside packages it may name. */
export interface Room {
  readonly name: string;
  readonly floor: number;
  readonly packages: readonly string[];
  /** Whether the room may use the modules of Node. */
  readonly node?: true;
  /** The only rooms whose values it may use; of the others it may name types. Absent: of all below. */
  readonly values?: readonly string[];
}

/** The rooms and their floors. A room may import from lower floors only, and only what is listed. */
export const rooms: readonly Room[] = [
  { name: "base", floor: 0, packages: [] },
  { name: "harness-model", floor: 1, packages: ["graphology", "zod"] },
  { name: "import-export", floor: 2, packages: ["fflate", "papaparse", "saxes", "zod"] },
  { name: "connectivity", floor: 2, packages: ["zod"] },
  { name: "comparison", floor: 2, packages: [] },
  { name: "simulation", floor: 2, packages: [] },
  { name: "job-records", floor: 2, packages: ["zod"] },
  { name: "measurement-safety", floor: 3, packages: [] },
  { name: "drawing", floor: 3, packages: [] },
  { name: "diagnosis", floor: 4, packages: [] },
  { name: "training", floor: 5, packages: [] },
  { name: "application", floor: 6, packages: ["zod"] },
  { name: "library", floor: 7, packages: [] },
  { name: "ui", floor: 7, packages: ["svelte", "cytoscape", "idb"], values: ["application", "drawing", "base"] },
  { name: "cli", floor: 7, packages: ["commander"], node: true, values: ["application", "base"] },
];

/**
 * Functions that take a step of a job, or judge one, and the only files that may call them: screen and command line send their steps to
 * the one service, and practice plays the planner against itself.
 */
export const steps: { readonly names: readonly string[]; readonly allowed: RegExp } = {
  names: ["startJob", "resumeJob", "takeReading", "editReading", "noteEvent", "undo", "verdictOf", "appendEvent"],
  allowed:
    /^src\/(?:job-records|diagnosis|training)\/|^src\/application\/job\/(?:take-step|begin-job|open-job|read-value)\.ts$/u,
};

/** Folders outside `src/` whose files a room may read as data. */
export const dataFolders: ReadonlyMap<string, readonly string[]> = new Map([["ui", ["demo-harness"]]]);

/**
 * Breaches that are known and not yet mended, each as "file -> import". The list may only get shorter: an entry that no longer
 * occurs fails the test until it is taken out, and a breach that is not listed fails it too.
 */
export const debts: readonly string[] = [];

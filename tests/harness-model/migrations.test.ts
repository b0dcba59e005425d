import { describe, expect, test } from "vitest";
import {
  documentMigrations,
  FORMAT_VERSION,
  inWordsOfVersion2,
  migrateDocument,
  type Migration,
} from "ohmward/harness-model";

/** One before/after pair for each migration of the harness document, by its name; a migration without a pair fails the test below. */
const pairs = new Map<string, { readonly before: Record<string, unknown>; readonly after: Record<string, unknown> }>([
  [
    "what is not stated is not known",
    { before: { format: "ohmward-harness", version: 1 }, after: { format: "ohmward-harness", version: 1 } },
  ],
  [
    "words of the trade",
    {
      before: {
        version: 2,
        states: [{ id: "OFF", conditions: ["isolated", "key-off"] }],
        components: [{ id: "A1", kind: "device" }],
        connectors: [
          { id: "X1", kind: "device", halves: [{ id: "harness", contacts: "studs" }], face: { ofHalf: "harness" } },
          { id: "X2", kind: "ring-stack" },
        ],
        ...{ studs: [{ id: "G2+" }], places: [{ id: "P1" }] },
      },
      after: {
        version: 2,
        states: [{ id: "OFF", conditions: ["battery-disconnected", "key-off"] }],
        components: [{ id: "A1", kind: "device" }],
        connectors: [
          { id: "X1", kind: "component", sides: [{ id: "harness", contacts: "studs" }], face: { ofSide: "harness" } },
          { id: "X2", kind: "ring-terminals" },
        ],
        ...{ terminalStuds: [{ id: "G2+" }], topologyNodes: [{ id: "P1" }] },
      },
    },
  ],
]);

describe("documentMigrations", () => {
  test("lead step by step from version 1 to the version this program writes", () => {
    expect(documentMigrations.map(({ from, to }) => [from, to])).toEqual(
      Array.from({ length: FORMAT_VERSION - 1 }, (_, at) => [at + 1, at + 2]),
    );
  });

  test("each have a before/after pair that holds, and leave the document given alone", () => {
    expect(documentMigrations.map(({ name }) => name).sort()).toEqual([...pairs.keys()].sort());
    for (const migration of documentMigrations) {
      const pair = pairs.get(migration.name);
      const before = structuredClone(pair?.before ?? {});
      expect(migration.migrate(before)).toEqual(pair?.after);
      expect(before).toEqual(pair?.before);
    }
  });
});

describe("inWordsOfVersion2()", () => {
  test("is the way back from version 3", () => {
    const { before, after } = pairs.get("words of the trade") ?? {};
    expect(inWordsOfVersion2({ ...after, version: 3 })).toEqual(before);
  });
});

describe("migrateDocument()", () => {
  const trail = (from: number): Migration => {
    const migrate: Migration["migrate"] = (document) => ({
      ...document,
      trail: [...((document["trail"] ?? []) as number[]), from],
    });
    return { name: `step ${from}`, from, to: from + 1, migrate };
  };
  const steps = [trail(1), trail(2), trail(3)];

  test.each([
    [1, [1, 2, 3]],
    [2, [2, 3]],
    [3, [3]],
  ])("carries version %i through the steps from there on, in order", (version, passed) => {
    expect(migrateDocument({ version, kept: "x" }, steps)).toEqual({ version: 4, kept: "x", trail: passed });
  });

  test.each([[4], [5], [0], ["1"], [undefined]])("leaves version %j as it is", (version) => {
    const document = { version };
    expect(migrateDocument(document, steps)).toBe(document);
  });

  test("does not change the document given", () => {
    const document = Object.freeze({ version: 1, list: Object.freeze(["a"]) });
    migrateDocument(document, steps);
    expect(document).toEqual({ version: 1, list: ["a"] });
  });
});

import type { Fault, Part, PartList } from "ohmward/simulation";
import { describe, expect, test } from "vitest";
import { sameReadings } from "../../../src/diagnosis/predict/reading-store.ts";

/** A conductor that nothing controls. */
function part(key: string, more: Partial<Part> = {}): Part {
  const plain = { group: "wire", ohm: 0.01, volt: 0, present: true, tolerance: 0, voltTolerance: 0 } as const;
  const asleep = { control: undefined, module: undefined, worksWhile: "awake", asleepOhm: Infinity } as const;
  return { key, owner: key, ...plain, ...asleep, ...more };
}

/** A chain of parts, each from one node to the next: node 0 - a - 1 - b - 2 - c - 3 ... */
function chain(parts: readonly Part[], more: Partial<PartList> = {}): PartList {
  return {
    shape: {
      nodeCount: parts.length + 1,
      from: Int32Array.from(parts, (_, at) => at),
      to: Int32Array.from(parts, (_, at) => at + 1),
    },
    parts,
    nodeKeys: [0, ...parts].map((_, node) => `n${node}`),
    coils: [],
    modules: [],
    assumptions: [],
    reference: 0,
    ...more,
  };
}

const abcd = ["a", "b", "c", "d"].map((key) => part(key));
const open = (of: string): readonly Fault[] => [{ kind: "open", of }];

/** Things in whose place an open reads alike, as sorted lists. */
function stretches(list: PartList, measured: readonly number[]): readonly string[] {
  const nameOf = sameReadings(list, measured);
  const byName = new Map<string, string>();
  for (const { owner } of list.parts) {
    const name = nameOf(open(owner));
    byName.set(name, `${byName.get(name) ?? ""}${owner}`);
  }
  return [...byName.values()].sort();
}

describe("sameReadings()", () => {
  test.each([
    ["nothing measured in between: one stretch", chain(abcd), [0, 4], ["abcd"]],
    ["a measured node parts it", chain(abcd), [0, 2, 4], ["ab", "cd"]],
    ["the reference parts it", chain(abcd, { reference: 3 }), [0, 4], ["abc", "d"]],
    [
      "terminals of a coil part it, because its own voltage counts",
      chain(abcd, { coils: [{ key: "k", at: 1, from: 1, to: 2, pullInAmpere: 0.07, dropOutAmpere: 0.02 }] }),
      [0, 4],
      ["a", "b", "cd"],
    ],
    [
      "the supply of a module parts it",
      chain(abcd, { modules: [{ id: "m", positive: 2, negative: 0, wake: undefined, leastVolt: 6 }] }),
      [0, 4],
      ["ab", "cd"],
    ],
    [
      "a diode is no plain conductor",
      chain([part("a"), part("b", { control: { kind: "diode" } }), part("c")]),
      [0, 3],
      ["a", "b", "c"],
    ],
    [
      "what is not there does not lead on",
      chain([part("a"), part("b", { present: false }), part("c")]),
      [0, 3],
      ["a", "b", "c"],
    ],
    [
      "two parts of one thing cannot be named as one",
      chain([part("a"), part("b"), part("b2", { owner: "b" })]),
      [0, 3],
      ["a", "bb"],
    ],
  ] as const)("%s", (_, list, measured, expected) => {
    expect(stretches(list, measured)).toEqual(expected);
  });

  test("a branch parts a stretch", () => {
    const list = chain(abcd);
    const branched: PartList = {
      ...list,
      shape: { nodeCount: 6, from: Int32Array.of(0, 1, 2, 3, 2), to: Int32Array.of(1, 2, 3, 4, 5) },
      parts: [...abcd, part("e")],
      nodeKeys: [...list.nodeKeys, "n5"],
    };
    expect(stretches(branched, [0, 4, 5])).toEqual(["ab", "cd", "e"]);
  });

  test("resistances of another size, other faults and several at once have names of their own", () => {
    const nameOf = sameReadings(chain(abcd), [0, 4]);
    const resistance = (of: string, ohm: number): readonly Fault[] => [{ kind: "high-resistance", of, ohm }];
    expect(nameOf(resistance("a", 2))).toBe(nameOf(resistance("c", 2)));
    expect(nameOf(resistance("a", 2))).not.toBe(nameOf(resistance("a", 3)));
    expect(nameOf(resistance("a", 2))).not.toBe(nameOf(open("a")));
    expect(nameOf([...open("a"), ...open("b")])).not.toBe(nameOf([...open("c"), ...open("d")]));
    expect(nameOf([{ kind: "short", of: "a", to: "n0", ohm: 1 }])).not.toBe(
      nameOf([{ kind: "short", of: "b", to: "n0", ohm: 1 }]),
    );
  });
});

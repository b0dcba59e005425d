import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { ask, machineOf, type Machine } from "ohmward/application";
import { NEEDS_FILES, publishedFile, publishedPath } from "../../import-export/xml/support/harness-files.ts";
import { readGood } from "../../import-export/support/read-file.ts";
import { root } from "../../structure/support/project-files.ts";

// Source: networkx 2.8.8, run by make-reference.py beside this file on the source files themselves.

interface Reference {
  readonly points: number;
  readonly groups: readonly (readonly string[])[];
}

const MAIN = "kbl/main-harness.kbl";

function referenceOf(name: string): Reference {
  return JSON.parse(readFileSync(join(import.meta.dirname, `${name}.json`), "utf8")) as Reference;
}

/** What the program calls a point of the reference: a cavity of a crimp is the splice itself, that of a ring terminal the stud. */
function asked({ document }: Machine, point: string): string {
  const owner = point.slice(0, point.lastIndexOf(":"));
  return [...document.splices, ...document.terminalStuds].some(({ id }) => id === owner) ? owner : point;
}

/** Pairs of points that the reference joins and an answer denies. */
function denied(machine: Machine, { groups }: Reference): readonly string[] {
  const setting = { build: machine.document.builds[0]?.id ?? "" };
  const wrong: string[] = [];
  for (const group of groups) {
    const points = [...new Set(group.map((point) => asked(machine, point)))];
    for (const from of points) {
      const trace = ask(machine, setting, { kind: "circuit", point: from });
      const net = trace.kind === "circuit" ? trace.net.items.map((item) => item.id) : [];
      for (const to of points) {
        if (from === to) continue;
        if (!net.some((id) => id === to || id.replace(/\.(?:harness|device):/u, ":") === to))
          wrong.push(`trace ${from}: not ${to}`);
        if (from > to) continue;
        if (ask(machine, setting, { kind: "path", from, to }).kind !== "path") wrong.push(`between ${from} ${to}`);
        const items = [from, to].map((text) => ({ text, mark: "bad" as const }));
        const shared = ask(machine, setting, { kind: "common", items });
        if (shared.kind !== "common" || shared.items.length === 0) wrong.push(`shared ${from} ${to}`);
      }
    }
  }
  return wrong;
}

/** The pairs of points that conductors join, of the first points of different groups: none may be. */
function invented(machine: Machine, { groups }: Reference): readonly string[] {
  const setting = { build: machine.document.builds[0]?.id ?? "" };
  const firsts = groups.flatMap((group) => (group[0] === undefined ? [] : [asked(machine, group[0])]));
  return firsts.flatMap((from, at) =>
    firsts.slice(at + 1).flatMap((to) => {
      const answer = ask(machine, setting, { kind: "path", from, to, through: "conductors" });
      return answer.kind === "no-path" ? [] : [`${from} ${to}: ${answer.kind}`];
    }),
  );
}

describe("a wire list of a trailer, on which nothing but wires is known", () => {
  const file = join(root, "tests/fixtures/tables/trailer-lights.csv");
  const machine = machineOf(readGood(readFileSync(file, "utf8"), "trailer-lights.csv").document);
  const reference = referenceOf("trailer-lights");

  test("has no joint denied, and none invented", () => {
    expect(reference.points).toBe(32);
    expect(denied(machine, reference)).toEqual([]);
    expect(invented(machine, reference)).toEqual([]);
  });

  test("says what is not known, in words of the trade", () => {
    const setting = { build: "base" };
    const shared = ask(machine, setting, {
      kind: "common",
      items: ["LAMP-L", "LAMP-R"].map((text) => ({ text, mark: "bad" as const })),
    });
    if (shared.kind !== "common") throw new Error(shared.kind);
    expect(shared.basis).toBe("conductors");
    expect(shared.items.filter((item) => item.isSuspect).map((item) => item.id)).toEqual(
      expect.arrayContaining(["SP-FOG", "SP-TAIL", "SP-STOP", "SP-REAR", "GND-FRAME", "PLUG"]),
    );
    expect(shared.notKnown?.[0]).toBe("No supply or consumer is known on the nets of LAMP-L, LAMP-R.");
    const trace = ask(machine, setting, { kind: "circuit", point: "BRAKE:2" });
    expect(trace).toMatchObject({
      kind: "circuit",
      notKnown: expect.arrayContaining([
        "No far end in the data: wire T41 (PK 0.75 mm² Brake wear return).",
      ]) as unknown,
    });
  });

  test("says what a wire joins where no consumer is known", () => {
    const answer = ask(machine, { build: "base" }, { kind: "effect", item: "T30" });
    if (answer.kind !== "effect") throw new Error(answer.kind);
    expect(answer.parted).toHaveLength(2);
    expect(answer.parted.flat()).toEqual(expect.arrayContaining(["GND-FRAME", "SP-REAR"]));
  });
});

describe.skipIf(publishedPath(MAIN) === undefined)(`the published main harness ${NEEDS_FILES}`, () => {
  const reference = referenceOf("main-harness");

  test("has no joint denied, and none invented", () => {
    const machine = machineOf(readGood(publishedFile(MAIN), "main-harness.kbl").document);
    expect(reference.groups.find((group) => group.includes("XA.L10.1:1"))).toContain("XA.L10.2:1");
    expect(denied(machine, reference)).toEqual([]);
    expect(invented(machine, reference)).toEqual([]);
  }, 120_000);
});

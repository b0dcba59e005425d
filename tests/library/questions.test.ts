import { ask, machineOf, type Answer, type Machine, type Question } from "ohmward/application";
import { describe, expect, test } from "vitest";
import {
  circuit,
  common,
  expectedReading,
  find,
  openEffect,
  path,
  testPoints,
  type Where,
} from "../../src/library/index.ts";
import { openDemo } from "../demo-harness/open-demo.ts";

const machine = machineOf(openDemo());
const where: Where = { build: "base", state: "KOEO" };
const marked = [
  { text: "B3", mark: "bad" },
  { text: "B4", mark: "good" },
] as const;

type Asked = readonly [name: string, ask: (of: Machine, where?: Where) => Answer, question: Question];

const asked: readonly Asked[] = [
  ["find", (of, at) => find(of, "rail pressure", at), { kind: "find", text: "rail pressure" }],
  [
    "path",
    (of, at) => path(of, { from: "A1.X1:36", to: "B3", through: "conductors" }, at),
    { kind: "path", from: "A1.X1:36", to: "B3", through: "conductors" },
  ],
  ["circuit", (of, at) => circuit(of, "B3", at), { kind: "circuit", point: "B3" }],
  ["common", (of, at) => common(of, marked, at), { kind: "common", items: marked }],
  ["openEffect", (of, at) => openEffect(of, "A3.F3", at), { kind: "effect", item: "A3.F3" }],
  ["testPoints", (of, at) => testPoints(of, "B3.X:3", at), { kind: "test-points", item: "B3.X:3" }],
  [
    "expectedReading",
    (of, at) => expectedReading(of, { red: "B3.X:3", calculateOnly: true }, at),
    { kind: "expected", red: "B3.X:3", calculateOnly: true },
  ],
];

describe.each(asked)("%s()", (_name, put, question) => {
  test("gives the one answer that screen and command line give", () => {
    const answer = put(machine, where);
    expect(answer).toEqual(ask(machine, where, question));
    expect(["unknown", "ambiguous", "choose-build", "choose-state"]).not.toContain(answer.kind);
  });

  test("asks for a variant or a state that does not exist", () => {
    expect(put(machine, { build: "none" }).kind).toBe("choose-build");
    expect(put(machine, { build: "base", state: "none" }).kind).toBe("choose-state");
  });
});

import { readFileSync } from "node:fs";
import { join } from "node:path";
import { root } from "../../structure/support/project-files.ts";

/** A gate with the number of its output variable and those of its inputs; a variable below 0 stands for its opposite. */
interface Gate {
  readonly id: string;
  readonly kind: string;
  readonly out: number;
  readonly into: readonly number[];
}

/** What was seen at a circuit, and the smallest sets of gates that explain it by the authors of the scenario. */
export interface Scenario {
  readonly id: string;
  /** Variables that are true; those below 0 are false. */
  readonly seen: readonly number[];
  readonly truth: readonly (readonly string[])[];
}

/** A circuit of gates, of which any may give whatever it likes once it is faulty. */
export interface DigitalCircuit {
  readonly gates: readonly Gate[];
  readonly scenarios: readonly Scenario[];
}

/** Reads a circuit with its scenarios from tests/fixtures/digital-circuits. */
export function readCircuit(name: string): DigitalCircuit {
  const numbers = new Map<string, number>();
  const numberOf = (variable: string): number => {
    const known = numbers.get(variable) ?? numbers.size + 1;
    numbers.set(variable, known);
    return known;
  };
  const gates: Gate[] = [];
  const scenarios: Scenario[] = [];
  const text = readFileSync(join(root, "tests", "fixtures", "digital-circuits", `${name}.txt`), "utf8");
  for (const line of text.split("\n").filter((each) => each !== "" && !each.startsWith("#"))) {
    const [first = "", kind = "", out = "", ...rest] = line.split(" ");
    if (first === "scenario") {
      const [outputs = "", , ...sets] = rest;
      const bits = (letter: string, states: string): readonly number[] =>
        [...states].map((bit, at) => (bit === "1" ? 1 : -1) * numberOf(`${letter}${at + 1}`));
      scenarios.push({
        id: kind,
        seen: [...bits("i", out), ...bits("o", outputs)],
        truth: sets.map((set) => set.split("+").map((gate) => `gate${gate}`)),
      });
    } else gates.push({ id: first, kind: kind.replace(/\d$/u, ""), out: numberOf(out), into: rest.map(numberOf) });
  }
  return { gates, scenarios };
}

/** What a sound gate never does, as clauses of which one variable at least is as written. */
function clausesOf({ kind, out, into }: Gate): readonly (readonly number[])[] {
  const allOrNothing = (result: number, inputs: readonly number[]): readonly (readonly number[])[] => [
    ...inputs.map((input) => [-result, input]),
    [result, ...inputs.map((input) => -input)],
  ];
  const opposite = into.map((input) => -input);
  switch (kind) {
    case "and":
    case "buffer":
      return allOrNothing(out, into);
    case "nand":
    case "inverter":
      return allOrNothing(-out, into);
    case "nor":
      return allOrNothing(out, opposite);
    case "or":
      return allOrNothing(-out, opposite);
    case "xor": {
      const [a = 0, b = 0] = into;
      return [
        [-out, a, b],
        [-out, -a, -b],
        [out, -a, b],
        [out, a, -b],
      ];
    }
    default:
      throw new Error(`There is no gate ${kind}`);
  }
}

/** Whether clauses can all hold: unit propagation, then a guess and its opposite (Davis, Logemann, Loveland, 1962, from memory). */
function canHold(clauses: readonly (readonly number[])[], given: readonly number[]): boolean {
  const values = new Set(given);
  let open = clauses;
  for (let before = -1; before !== values.size;) {
    before = values.size;
    const left: (readonly number[])[] = [];
    for (const clause of open) {
      if (clause.some((literal) => values.has(literal))) continue;
      const free = clause.filter((literal) => !values.has(-literal));
      const [only] = free;
      if (only === undefined) return false;
      if (free.length === 1) values.add(only);
      else left.push(free);
    }
    open = left;
  }
  const guess = open[0]?.[0];
  if (guess === undefined) return true;
  return canHold(open, [...values, guess]) || canHold(open, [...values, -guess]);
}

/** Tells whether what was seen is possible while some gates are sound and the others do as they like. */
export function consistency({ gates }: DigitalCircuit, { seen }: Scenario): (sound: ReadonlySet<string>) => boolean {
  const clauses = new Map(gates.map((gate) => [gate.id, clausesOf(gate)]));
  return (sound) =>
    canHold(
      [...sound].flatMap((id) => clauses.get(id) ?? []),
      seen,
    );
}

/** Whether what was seen comes out for some outputs of some faulty gates: every one of them is tried, gate by gate. */
export function comesOut({ gates }: DigitalCircuit, { seen }: Scenario, faulty: readonly string[]): boolean {
  return Array.from({ length: 2 ** faulty.length }, (_, bits) => bits).some((bits) => {
    const values = new Map(seen.map((literal) => [Math.abs(literal), literal > 0]));
    return gates.every((gate) => {
      const which = faulty.indexOf(gate.id);
      const value = which >= 0 ? (bits & (1 << which)) !== 0 : soundOutput(gate, values);
      const known = values.get(gate.out);
      values.set(gate.out, value);
      return known === undefined || known === value;
    });
  });
}

/** What a sound gate gives; the gates of a circuit stand in an order in which every input is known. */
function soundOutput({ kind, into }: Gate, values: ReadonlyMap<number, boolean>): boolean {
  const inputs = into.map((input) => values.get(input) ?? false);
  const ones = inputs.filter(Boolean).length;
  const all = ones === inputs.length;
  const outputs: Readonly<Record<string, boolean>> = {
    ...{ and: all, buffer: all, nand: !all, inverter: !all, or: ones > 0, nor: ones === 0, xor: ones % 2 === 1 },
  };
  return outputs[kind] ?? false;
}

/** A smallest set of gates, out of some that cannot all be sound, that cannot all be sound: gates are left out one at a time. */
export function conflictWithin(
  suspects: ReadonlySet<string>,
  isPossible: (sound: ReadonlySet<string>) => boolean,
): readonly string[] {
  const conflict = new Set(suspects);
  for (const gate of suspects) {
    conflict.delete(gate);
    if (isPossible(conflict)) conflict.add(gate);
  }
  return [...conflict];
}

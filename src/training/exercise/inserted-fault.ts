import { err, keptFor, naturalOrder, ok, type Result } from "../../base/index.ts";
import { listCandidates, listHypotheses, type Candidate, type Hypothesis, type Scope } from "../../diagnosis/index.ts";
import { formatFault, parseFault, solveCircuit, type Fault } from "../../simulation/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import { findCircuits, type Item } from "../../connectivity/index.ts";

/** The fault that is hidden in a task. */
export interface InsertedFault {
  readonly candidate: Candidate;
  readonly faults: readonly Fault[];
  /** Shows now and then, and when it is moved. */
  readonly isIntermittent: boolean;
}

/** Everything in a machine that may be the fault, in natural order of ids, which depends on no figure. */
export const machineCandidates = keptFor((harness: Harness): readonly Candidate[] =>
  [...listCandidates(harness, wholeMachine(harness))].sort((a, b) => naturalOrder(a.id, b.id)),
);

/** Every circuit of the machine; wires outside any circuit may still be rubbed through. */
function wholeMachine(harness: Harness): Scope {
  const { all } = findCircuits(harness);
  const edges = new Set(all.flatMap((circuit) => [...circuit.edges]));
  const nodes = new Set(all.flatMap((circuit) => [...circuit.nodes]));
  const besideEdges = new Set([...harness.edges.keys()].filter((number) => !edges.has(number)));
  return { edges, nodes, besideEdges, besideNodes: new Set(), unknown: [] };
}

/** The candidate of an id, such as `open W78`. */
export function candidateOf(harness: Harness, id: string): Candidate | undefined {
  return machineCandidates(harness).find((each) => each.id === id);
}

/** A cause that a trainee may name, in words. */
export interface PossibleCause {
  readonly id: string;
  readonly label: string;
  /** What mends it. */
  readonly repair: string;
}

/**
 * The ways in which a picked thing may be the cause: what a trainee chooses from when naming one.
 *
 * @param item What was picked; a contact by either half, a component with all it holds.
 */
export function causesAt(harness: Harness, item: Item): readonly PossibleCause[] {
  const name = plainName(harness, item.id);
  const isThere = (candidate: Candidate): boolean =>
    candidate.item.id === name || (item.type === "component" && candidate.item.id.startsWith(`${name}.`));
  return machineCandidates(harness)
    .filter(isThere)
    .map(({ id, label, repair }) => ({ id, label, repair }));
}

/** A candidate as a hidden fault, at one of its severities. */
export function hiddenOf(candidate: Candidate, level: number): InsertedFault {
  const faults = candidate.levels[level] ?? candidate.levels[0] ?? [];
  return { candidate, faults, isIntermittent: candidate.mode === "intermittent" };
}

/** Fuses that a fault has blown, by element; where a blown fuse is the fault itself, that fuse. */
export function blownBy({ faults }: InsertedFault): readonly string[] {
  return faults.flatMap((fault) => (fault.kind === "blown" ? [fault.of] : []));
}

/** The hypothesis a hidden fault is, for what looking and moving show. */
export function hypothesisOf({ candidate }: InsertedFault): Hypothesis | undefined {
  return listHypotheses([candidate]).hypotheses[0];
}

/**
 * Makes a hidden fault from the text a trainer wrote.
 *
 * @param text A fault in its text form, such as `open:W78` or `high-resistance:XE1:1=0.25`.
 * @param comesAndGoes Whether it shows only now and then.
 * @returns The fault as one of the machine's candidates, with the trainer's own figures; or why there is none.
 */
export function writtenFault(harness: Harness, text: string, comesAndGoes = false): Result<InsertedFault, string> {
  const read = parseFault(text);
  if (!read.ok) return err(read.error.text);
  const answer = solveCircuit(harness, { faults: [read.value] });
  if (answer.kind === "wrong-question") return err(answer.problems.map((problem) => problem.text).join("; "));
  const like = machineCandidates(harness).filter((candidate) =>
    candidate.levels.some((faults) => faults.some((fault) => isAlike(harness, fault, read.value))),
  );
  const candidate = like.find((each) => (each.mode === "intermittent") === comesAndGoes) ?? like[0];
  if (!candidate) {
    return err(`"${formatFault(read.value)}" is not a possible fault of this machine, so it cannot be graded`);
  }
  return ok({ candidate, faults: [read.value], isIntermittent: comesAndGoes });
}

function isAlike(harness: Harness, a: Fault, b: Fault): boolean {
  const kinds = [a, b].map(({ kind }) => (kind === "loose-terminal" ? "open" : kind));
  if (kinds[0] !== kinds[1]) return false;
  const [first, second] = [targetsOf(harness, a), targetsOf(harness, b)];
  return first.length === second.length && first.every((target) => second.includes(target));
}

/** What a fault is about, contacts by connector and cavity whatever half was named; where a short leads to does not count. */
function targetsOf(harness: Harness, fault: Fault): readonly string[] {
  const names = fault.kind === "bridge" ? fault.between : fault.kind === "cross-wired" ? fault.cavities : [fault.of];
  return names.map((name) => plainName(harness, name));
}

function plainName(harness: Harness, name: string): string {
  const colon = name.lastIndexOf(":");
  const side = harness.book.sides.get(colon < 0 ? name : name.slice(0, colon));
  if (!side) return name;
  return colon < 0 ? side.connector.id : `${side.connector.id}${name.slice(colon)}`;
}

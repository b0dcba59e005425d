import { formatQuantity, keptFor, keptIn } from "../../base/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import { applyFaults } from "../faults/apply-faults.ts";
import type { Fault } from "../faults/fault.ts";
import { buildParts } from "./build-parts.ts";
import { drivenAmpere } from "./node-volts.ts";
import type { QuestionProblem, OperatingConditions } from "./part.ts";
import { reasonOf, settle, type OperatingPoint, type NoOperatingPoint } from "./settle.ts";

/** A question about something the machine does not have. */
interface WrongQuestion {
  readonly kind: "wrong-question";
  readonly problems: readonly QuestionProblem[];
}

/** The machine in a situation: settled, or why there is no answer. Never a made-up number. */
export type SolvedCircuit = OperatingPoint | NoOperatingPoint | WrongQuestion;

// A harness and a situation never change, so the answer to the two cannot either.
const answers = keptFor((_: Harness) => new WeakMap<OperatingConditions, SolvedCircuit>());

/**
 * Works out every voltage of the machine in a situation, with the fuses that its faults have blown.
 *
 * @param operatingConditions State, settings, faults, unplugged connectors. Asking again with the same object costs nothing.
 * @returns `operatingPoint` with everything to read from; `contradictory` with the sources that cannot all be true; `no-steady-state` with what
 *   keeps changing; `wrong-question` with what the machine does not have.
 */
export function solveCircuit(harness: Harness, operatingConditions: OperatingConditions): SolvedCircuit {
  return keptIn(answers(harness), operatingConditions, () => {
    const { faults = [] } = operatingConditions;
    const blown = fusesBlown(harness, faults);
    const solved = solveFresh(harness, { ...operatingConditions, faults: [...faults, ...blown.map(asFault)] });
    if (solved.kind !== "settled" || blown.length === 0) return solved;
    const told = blown.map(({ of, ampere, ratedAmpere }) => ({
      code: "blown" as const,
      of,
      text: `${of} (${formatQuantity(ratedAmpere, "A")}) is blown by ${formatQuantity(ampere, "A")}. It stays blown in every state`,
    }));
    return { ...solved, list: { ...solved.list, assumptions: [...solved.list.assumptions, ...told] } };
  });
}

function solveFresh(harness: Harness, operatingConditions: OperatingConditions): SolvedCircuit {
  const built = buildParts(harness, operatingConditions);
  if (!built.ok) return { kind: "wrong-question", problems: built.error };
  const faulty = applyFaults(harness, built.value, operatingConditions.faults ?? []);
  if (!faulty.ok) return { kind: "wrong-question", problems: faulty.error };
  const settled = settle(faulty.value);
  return settled.kind === "settled" ? settled : reasonOf(settled);
}

/** A fuse that faults have blown, with the current that did it. */
interface BlownFuse {
  /** Key of its element, such as `A3.F10`. */
  readonly of: string;
  readonly ampere: number;
  readonly ratedAmpere: number;
}

const asFault = ({ of }: BlownFuse): Fault => ({ kind: "blown", of });

/**
 * Times its rating at which a fuse is blown by the time a meter is read.
 *
 * Source: a blade fuse opens at 200 % within 0.15 to 5 s (data sheets of fuses to ISO 8820-3).
 */
const BLOW_SHARE = 2;

const blownBy = keptFor((_: Harness) => new Map<string, readonly BlownFuse[]>());

/**
 * The fuses that faults blow, in whichever state of the machine it happens: a blown fuse stays blown in all of them.
 *
 * @param faults What is wrong. Only what joins what should be apart, or takes resistance away, blows fuses.
 * @returns The fuses; none where the machine has no states, or no steady one.
 */
export function fusesBlown(harness: Harness, faults: readonly Fault[]): readonly BlownFuse[] {
  if (!faults.some(({ kind }) => ["short", "bridge", "cross-wired", "drift", "stuck-closed"].includes(kind))) return [];
  return keptIn(blownBy(harness), JSON.stringify(faults), () => {
    const blown = new Map<string, BlownFuse>();
    for (let before = -1; before !== blown.size;) {
      before = blown.size;
      for (const { id } of harness.document.states) {
        const point = solveFresh(harness, { state: id, faults: [...faults, ...[...blown.values()].map(asFault)] });
        if (point.kind === "settled") for (const fuse of overloadedFuses(harness, point)) blown.set(fuse.of, fuse);
      }
    }
    return [...blown.values()];
  });
}

function overloadedFuses(harness: Harness, point: OperatingPoint): readonly BlownFuse[] {
  const ratings = ratingsOf(harness);
  return point.list.parts.flatMap(({ key, group }, at) => {
    const ratedAmpere = group === "fuse" ? ratings.get(key) : undefined;
    if (ratedAmpere === undefined || point.values.ohm[at] === 0) return [];
    const ampere = Math.abs(drivenAmpere(point, at));
    return ampere > BLOW_SHARE * ratedAmpere ? [{ of: key, ampere, ratedAmpere }] : [];
  });
}

const ratingsOf = keptFor(
  (harness: Harness) =>
    new Map(
      harness.edges.flatMap((edge): (readonly [string, number])[] =>
        edge.kind === "element" && edge.element.kind === "fuse" ? [[edge.key, edge.element.ratedAmpere]] : [],
      ),
    ),
);

import { naturalOrder } from "../../base/index.ts";
import type { Item } from "../../connectivity/index.ts";

/** Every kind of drill, in the order they are told. */
export const DRILL_KINDS = [
  "route",
  "zones",
  "hazards",
  "next-connector",
  "cavity",
  "common",
  "effect",
  "colour",
  "splice",
] as const;

/** What a drill asks: where a wire runs, what it passes, what comes next, which cavity, what is shared, what stops, which colour, where. */
export type DrillKind = (typeof DRILL_KINDS)[number];

/** 1 easy, 2 middling, 3 hard. */
export type Level = 1 | 2 | 3;

/** What is picked to answer. */
type PickedThing = "segment" | "zone" | "connector" | "cavity" | "splice" | "fuse" | "stud" | "component" | "colour";

/** What the screen shows beside the question. Names that would give the answer away are left out by the one who draws it. */
export type DrillContext =
  /** The drawing of the machine, with these things lit. */
  | { readonly kind: "drawing"; readonly lit: readonly Item[] }
  /** One half of a connector from one side; `marked` is the cavity with a ring round it. Cavity numbers are left out. */
  | {
      readonly kind: "face";
      readonly connector: string;
      readonly side: string;
      readonly view: "wire-side" | "mating-side";
      readonly marked?: string;
    }
  /** A path strip of these things, in order. */
  | { readonly kind: "strip"; readonly path: readonly Item[] };

/** A wrong answer that a person is led to, and why it is wrong. */
export interface Distractor {
  readonly answer: string;
  readonly why: string;
}

/** One question with every right answer. */
export interface Drill {
  /** Kind and subject, such as `route W89`; makes the same drill again on the same machine and build. */
  readonly id: string;
  readonly kind: DrillKind;
  readonly build: string;
  readonly question: string;
  /** The things the question names. */
  readonly about: readonly Item[];
  readonly context: DrillContext;
  readonly pick: {
    readonly what: PickedThing;
    /** All right things are wanted, not one of them. */
    readonly isMany: boolean;
    /** Ids to choose from where nothing can be picked on a drawing, right ones among them, in natural order. */
    readonly choices: readonly string[];
  };
  /** Every right answer. Each is a whole answer: one id, or the whole set where many are wanted; in natural order. */
  readonly accepted: readonly (readonly string[])[];
  /** Why, a sentence each. */
  readonly why: readonly string[];
  readonly traps: readonly Distractor[];
  /** How hard it is by the graph: things to go along, joints, changes of colour, look-alikes. */
  readonly points: number;
  readonly level: Level;
}

/** How an answer was. */
export interface DrillGrade {
  readonly isRight: boolean;
  /** Picked although it belongs to no right answer that is near. */
  readonly extra: readonly string[];
  /** Not picked although it belongs to the nearest right answer. */
  readonly missing: readonly string[];
  /** What is right, and why; for a wrong answer first what led astray. */
  readonly reasons: readonly string[];
}

/**
 * Grades an answer to a drill.
 *
 * @param picked The ids picked, in any order; one picked twice counts once.
 * @returns Right if they are exactly one of the accepted answers. Otherwise what is missing and too much against the nearest of them.
 */
export function gradeDrill(drill: Drill, picked: readonly string[]): DrillGrade {
  const given = new Set(picked);
  let best: { readonly extra: readonly string[]; readonly missing: readonly string[] } | undefined;
  for (const answer of drill.accepted) {
    const right = new Set(answer);
    const extra = [...given].filter((id) => !right.has(id)).sort(naturalOrder);
    const missing = answer.filter((id) => !given.has(id));
    if (!best || extra.length + missing.length < best.extra.length + best.missing.length) best = { extra, missing };
  }
  const { extra, missing } = best ?? { extra: [...given], missing: [] };
  const isRight = best !== undefined && extra.length === 0 && missing.length === 0;
  const trapped = drill.traps.filter((trap) => given.has(trap.answer)).map((trap) => trap.why);
  return { isRight, extra, missing, reasons: isRight ? drill.why : [...trapped, ...drill.why] };
}

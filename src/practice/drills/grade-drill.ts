import { naturalOrder } from "../../base/index.ts";
import type { Drill } from "./drill.ts";

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
 * @param drill The drill.
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

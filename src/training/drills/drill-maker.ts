import { naturalOrder, type SeededRandom } from "../../base/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import type { Drill, DrillKind, Level } from "./drill.ts";

/** Makes the drills of one kind. A subject is a text of ids with blanks between; ids hold no blank. */
export interface DrillMaker {
  readonly kind: DrillKind;
  /** What drills can be about, roughly: one entry may give several drills. */
  readonly starts: (harness: Harness) => readonly string[];
  /** Chooses one drill of an entry: its whole subject. The entry itself where nothing is to be chosen. */
  readonly draw?: (harness: Harness, start: string, random: SeededRandom) => string | undefined;
  /** Makes the drill; undefined where the subject gives none, because it has no answer or names what is not fitted. */
  readonly make: (harness: Harness, subject: string) => DrillDraft | undefined;
}

/** A drill before what is the same for all kinds is added. */
export interface DrillDraft extends Omit<
  Drill,
  "id" | "kind" | "build" | "level" | "pick" | "accepted" | "traps" | "context"
> {
  readonly context: Drill["context"];
  readonly what: Drill["pick"]["what"];
  readonly isMany: boolean;
  readonly accepted: readonly (readonly string[])[];
  /** All things of the sort, to choose wrong ones from. */
  readonly pool: readonly string[];
  readonly traps?: Drill["traps"];
}

/** Most ids in the list to choose from, unless the right ones alone are more. */
const MOST_CHOICES = 10;

/**
 * Adds what is the same for all kinds of drill.
 *
 * @param draft The drill as its maker made it.
 */
export function finishDrill(harness: Harness, id: { kind: DrillKind; subject: string }, draft: DrillDraft): Drill {
  const { what, isMany, pool, traps = [], accepted, ...rest } = draft;
  const right = new Set(accepted.flat());
  const wrong = traps.map((trap) => trap.answer).filter((answer) => !right.has(answer));
  return {
    ...rest,
    id: `${id.kind} ${id.subject}`,
    kind: id.kind,
    build: harness.build.id,
    pick: { what, isMany, choices: makeChoices(pool, [...right, ...wrong]) },
    accepted: accepted.map((answer) => [...new Set(answer)].sort(naturalOrder)),
    traps: traps.filter((trap) => !right.has(trap.answer)),
    level: levelOf(draft.points),
  };
}

/** The level of a number of points: up to 3 easy, up to 6 middling. Judgement; no source. */
function levelOf(points: number): Level {
  if (points <= 3) return 1;
  return points <= 6 ? 2 : 3;
}

/** The things that must be there and those whose names are nearest to them, because like names are what is mixed up. */
function makeChoices(pool: readonly string[], needed: readonly string[]): readonly string[] {
  const all = [...new Set([...pool, ...needed])].sort(naturalOrder);
  const chosen = new Set(needed);
  const places = needed.map((id) => all.indexOf(id));
  for (let step = 1; step < all.length && chosen.size < MOST_CHOICES; step++) {
    for (const place of places) {
      for (const near of [all[place + step], all[place - step]]) {
        if (near !== undefined && chosen.size < MOST_CHOICES) chosen.add(near);
      }
    }
  }
  return [...chosen].sort(naturalOrder);
}

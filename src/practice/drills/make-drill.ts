import { naturalOrder, type SeededRandom } from "../../base/index.ts";
import type { Harness } from "../../model/index.ts";
import { cavityDrills } from "./cavity-drills.ts";
import { sharedDrills, withoutDrills } from "./circuit-drills.ts";
import { DRILL_KINDS, type Drill, type DrillKind, type Level } from "./drill.ts";
import { finishDrill, type DrillMaker } from "./drill-maker.ts";
import { colourDrills, nextConnectorDrills } from "./joint-drills.ts";
import { spliceDrills } from "./place-drills.ts";
import { hazardDrills, routeDrills, zoneDrills } from "./way-drills.ts";

const MAKERS: Readonly<Record<DrillKind, DrillMaker>> = {
  route: routeDrills,
  zones: zoneDrills,
  hazards: hazardDrills,
  "next-connector": nextConnectorDrills,
  cavity: cavityDrills,
  shared: sharedDrills,
  without: withoutDrills,
  colour: colourDrills,
  splice: spliceDrills,
};

/** Subjects tried for each drill that is wanted, before one of another level is taken. */
const TRIES = 6;

/**
 * Makes the drill of an id again, such as one that is due for repetition.
 *
 * @param harness The harness, in the build the drill was made for.
 * @param id Kind and subject, such as `route W89`.
 * @returns The drill; undefined if this machine and build no longer have it.
 */
export function makeDrill(harness: Harness, id: string): Drill | undefined {
  const blank = id.indexOf(" ");
  const kind = DRILL_KINDS.find((each) => each === id.slice(0, blank));
  if (!kind) return undefined;
  const subject = id.slice(blank + 1);
  const draft = MAKERS[kind].make(harness, subject);
  return draft && finishDrill(harness, { kind, subject }, draft);
}

/** What drills are wanted. */
export interface DrillWish {
  readonly kinds: readonly DrillKind[];
  readonly level: Level;
  readonly count: number;
}

/**
 * Draws drills, the kinds in turn. The same stream of random numbers gives the same drills, because nothing but whole numbers and the
 * order of ids decides.
 *
 * @param harness The harness.
 * @param wish Kinds, level, number.
 * @param random The stream.
 * @returns As many drills as wanted, fewer if the machine does not give so many; of the level wanted where it can be, otherwise near it.
 */
export function drawDrills(
  harness: Harness,
  { kinds, level, count }: DrillWish,
  random: SeededRandom,
): readonly Drill[] {
  const share = Math.ceil(count / Math.max(1, kinds.length));
  const byKind = kinds.map((kind) => drawOfKind(harness, { kind, level, count: share }, random));
  const drills: Drill[] = [];
  for (let turn = 0; turn < share; turn++) for (const list of byKind) drills.push(...list.slice(turn, turn + 1));
  return drills.slice(0, count);
}

function drawOfKind(
  harness: Harness,
  { kind, level, count }: { kind: DrillKind; level: Level; count: number },
  random: SeededRandom,
): readonly Drill[] {
  const maker = MAKERS[kind];
  const starts = random.shuffle([...maker.starts(harness)].sort(naturalOrder));
  const found = new Map<string, Drill>();
  for (const start of starts.slice(0, TRIES * count + 20)) {
    const subject = maker.draw ? maker.draw(harness, start, random) : start;
    const draft = subject === undefined ? undefined : maker.make(harness, subject);
    if (subject === undefined || !draft) continue;
    const drill = finishDrill(harness, { kind, subject }, draft);
    found.set(drill.id, drill);
    if ([...found.values()].filter((each) => each.level === level).length >= count) break;
  }
  const away = (drill: Drill): number => Math.abs(drill.level - level);
  return [...found.values()].sort((a, b) => away(a) - away(b)).slice(0, count);
}

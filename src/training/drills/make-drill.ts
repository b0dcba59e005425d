import { err, naturalOrder, ok, type Result, type SeededRandom } from "../../base/index.ts";
import { fitBuild, type Harness, type HarnessDocument, type Segment, type Splice } from "../../harness-model/index.ts";
import { randomOfTask, readTaskCode, type CodeProblem, type TaskId } from "../code/task-code.ts";
import { cavityDrills } from "./cavity-drills.ts";
import { sharedDrills, withoutDrills } from "./circuit-drills.ts";
import { finishDrill, type DrillMaker } from "./drill-maker.ts";
import { DRILL_KINDS, type Drill, type DrillKind, type Level } from "./drill.ts";
import { colourDrills, nextConnectorDrills } from "./contact-drills.ts";
import { hazardDrills, routeDrills, zoneDrills } from "./route-drills.ts";

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
interface DrillWish {
  readonly kinds: readonly DrillKind[];
  readonly level: Level;
  readonly count: number;
}

/**
 * Draws drills, the kinds in turn. The same stream of random numbers gives the same drills, because nothing but whole numbers and the order
 * of ids decides.
 *
 * @param wish Kinds, level, number.
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

/** Drills in a task. */
const DRILLS_IN_TASK = 10;

/** A set of drills. */
export interface DrillSet {
  readonly task: TaskId;
  readonly drills: readonly Drill[];
}

/**
 * Makes the drills of a task code: the same on every machine.
 *
 * @returns The drills, in the order they are asked; or what is wrong with the code. A code of a fault-finding exercise is `unknown-topic` here.
 */
export function drillsOfCode(document: HarnessDocument, code: string): Result<DrillSet, CodeProblem> {
  const read = readTaskCode(document, code);
  if (!read.ok) return read;
  const task = read.value;
  const harness = fitBuild(document, task.build);
  if (!harness || task.topic === "exercise")
    return err({ code: "unknown-topic", message: "The code is for a fault-finding exercise, not for drills" });
  const kinds = task.topic === "drills" ? DRILL_KINDS : [task.topic];
  return ok({
    task,
    drills: drawDrills(harness, { kinds, level: task.level, count: DRILLS_IN_TASK }, randomOfTask(task)),
  });
}

/** Where is this splice? */
const spliceDrills: DrillMaker = {
  kind: "splice",
  starts: (harness) =>
    [...harness.fitted.splices.values()]
      .filter((splice) => splice.at !== undefined)
      .map((splice) => splice.id)
      .sort(naturalOrder),
  make: (harness, id) => {
    const splice = harness.fitted.splices.get(id);
    const segment = harness.segments.get(splice?.at?.segment ?? "");
    if (!splice?.at || !segment || harness.document.segments.length < 2) return undefined;
    const right = segmentsAt(harness, segment, splice);
    const { from, offsetMm } = splice.at;
    const others = [...harness.fitted.splices.values()].filter((each) => each.at?.segment === segment.id).length - 1;
    const label = splice.label === undefined ? "" : ` (${splice.label})`;
    return {
      question: `Where is splice ${id}${label}? Select its segment.`,
      about: [{ type: "splice", id }],
      context: { kind: "drawing", lit: [] },
      what: "segment",
      isMany: false,
      accepted: right.map((each) => [each]),
      pool: harness.document.segments
        .filter((each) => [each.from, each.to].some((place) => place === segment.from || place === segment.to))
        .map((each) => each.id),
      why: [
        `${id} is in ${segment.id}, ${offsetMm} mm from ${from}.`,
        ...(right.length > 1 ? [`That is the end of the segment, so ${right.slice(1).join(", ")} are right too.`] : []),
      ],
      points: 2 + Math.min(4, others + right.length - 1),
    };
  },
};

const MAKERS: Readonly<Record<DrillKind, DrillMaker>> = {
  route: routeDrills,
  zones: zoneDrills,
  hazards: hazardDrills,
  "next-connector": nextConnectorDrills,
  cavity: cavityDrills,
  common: sharedDrills,
  effect: withoutDrills,
  colour: colourDrills,
  splice: spliceDrills,
};

/** The segment of a splice, and all that meet it there where it lies at an end. */
function segmentsAt(harness: Harness, segment: Segment, { at }: Splice): readonly string[] {
  if (!at) return [];
  const far = at.from === segment.from ? segment.to : segment.from;
  const place = at.offsetMm <= 0 ? at.from : at.offsetMm >= segment.lengthMm ? far : undefined;
  const touching = harness.document.segments.filter((each) => each.from === place || each.to === place);
  return [...new Set([segment.id, ...touching.map((each) => each.id).sort(naturalOrder)])];
}

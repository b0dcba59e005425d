import {
  describeItem,
  edgeItem,
  findPaths,
  resolve,
  waysThrough,
  type FoundPath,
  type BetweenOptions,
  type Cut,
  type Item,
  type Resolved,
  type Through,
} from "../connectivity/index.ts";
import type { PathAnswer, Facts, NoPathAnswer, UnresolvedAnswer } from "./answer.ts";
import { cautionsFor } from "./cautions.ts";
import { cutText } from "./cut-text.ts";
import { makeHeader } from "./header.ts";
import { notKnown } from "./not-known.ts";
import type { Question } from "./question.ts";
import { resolveText } from "./resolve-text.ts";
import { routeFacts } from "./route-facts.ts";
import type { MachineContext } from "./machine-context.ts";

/**
 * Path between two points, or why nothing does.
 *
 * @param context The machine in its build and state.
 * @param question The two things as typed, and how far the trace may go.
 */
export function askPath(
  context: MachineContext,
  question: Extract<Question, { kind: "path" }>,
): PathAnswer | NoPathAnswer | UnresolvedAnswer {
  const from = resolveText(context, question.from);
  if (!from.ok) return from.error;
  const to = resolveText(context, question.to);
  if (!to.ok) return to.error;
  const options: BetweenOptions = question.through === undefined ? {} : { through: question.through };
  const ends: Ends = [from.value, to.value];
  const found = findPaths(context.harness, ends, options);
  if (found.kind === "found") return describeFound(context, ends, found);
  const cut = nearestCut(context, ends, { cut: found.cut, through: found.through });
  const joinedIn = otherBuildsJoining(context, ends, options);
  const [first, second] = [toItem(from.value), toItem(to.value)];
  return {
    kind: "no-path",
    ...makeHeader(context, {
      cautions: cautionsFor(context, ends),
      assumptions: assumptionsOf(found.through),
      notKnown: cut.kind === "same" ? [] : notKnown(context, ends, "ends"),
    }),
    from: first,
    to: second,
    through: found.through,
    cut,
    joinedIn,
    text: cutText(context.harness, { ends: [first, second], through: found.through, cut, joinedIn }),
  } satisfies NoPathAnswer;
}

type Ends = readonly [Resolved, Resolved];

function toItem({ type, id }: Resolved): Item {
  return { type, id };
}

function describeFound(context: MachineContext, [from, to]: Ends, found: FoundPath): PathAnswer {
  const { harness } = context;
  const path = withEnds([from, to], found.path).map((item) => describeItem(harness, item));
  const wireLengthMm = lengthOfWires(path);
  // The path first, so that the route reads in its order; then what runs beside it.
  const edges = new Set([...found.steps.edges, ...found.edges]);
  const ids = (items: readonly Item[]): readonly string[] => items.map((item) => item.id);
  return {
    kind: "path",
    ...makeHeader(context, {
      cautions: cautionsFor(context, found.between),
      assumptions: assumptionsOf(found.through),
    }),
    from: toItem(from),
    to: toItem(to),
    through: found.through,
    path,
    between: ids(withEnds([from, to], found.between)),
    mustPass: ids(withEnds([from, to], found.mustPass)),
    alternatives: found.alternatives.map(ids),
    alternativesComplete: found.alternativesComplete,
    branches: found.branches.map(({ at, ways }) => ({
      at,
      ways: ways.map(({ wire, to: far }) => ({ wire: wire.id, to: far })),
    })),
    ...(wireLengthMm === undefined ? {} : { wireLengthMm }),
    route: routeFacts(harness, edges),
  };
}

/**
 * A driver or pull-up of a control unit is an end that no trace runs through; asked about, it still belongs to the way that leads to it.
 */
function withEnds([from, to]: Ends, items: readonly Item[]): readonly Item[] {
  const isMissing = (end: Resolved): boolean =>
    end.type === "element" && !items.some((item) => item.type === end.type && item.id === end.id);
  return [...(isMissing(from) ? [toItem(from)] : []), ...items, ...(isMissing(to) ? [toItem(to)] : [])];
}

function lengthOfWires(path: readonly Facts[]): number | undefined {
  const wires = path.filter((facts) => facts.type === "wire");
  if (wires.length === 0 || wires.some((wire) => wire.lengthMm === undefined)) return undefined;
  return wires.reduce((sum, wire) => sum + (wire.lengthMm ?? 0), 0);
}

function assumptionsOf(through: Through): readonly string[] {
  const closed = "Switches and relay contacts can close. Fuses are not blown.";
  switch (through) {
    case "conductors":
      return [];
    case "switches-and-fuses":
      return [closed];
    case "loads":
      return [closed, "The path runs on through loads and coils, but not through the main supply or ground."];
    case "control-units":
      return [
        closed,
        "The path runs on through every part, and through control units as far as the document describes them.",
      ];
  }
}

/**
 * Where a trace of limited width is cut, told on the way that the next wider one takes: the shortest way of all may run through the
 * inside of some control unit that nobody has in mind.
 */
function nearestCut({ harness }: MachineContext, ends: Ends, { cut, through }: { cut: Cut; through: Through }): Cut {
  if (cut.kind !== "element") return cut;
  const wider = findPaths(harness, ends, { alternatives: 0 });
  if (wider.kind !== "found") return cut;
  const { passage } = waysThrough(harness, through);
  const own = new Set(ends.flatMap((end) => [...end.edges]));
  const number = wider.steps.edges.find((edge) => passage.edges[edge] === 0 && !own.has(edge));
  const edge = number === undefined ? undefined : harness.edges[number];
  return edge ? { kind: "element", at: edgeItem(edge) } : cut;
}

/** Other builds in which both things are fitted and joined. */
function otherBuildsJoining(
  { machine, harness }: MachineContext,
  ends: Ends,
  options: BetweenOptions,
): readonly string[] {
  return machine.document.builds
    .map((build) => String(build.id))
    .filter((id) => {
      const other = id === harness.build.id ? undefined : machine.harness(id);
      if (!other) return false;
      const [from, to] = ends.map((end) => resolve(other, end.id));
      if (from?.kind !== "one" || to?.kind !== "one") return false;
      return findPaths(other, [from.item, to.item], { ...options, alternatives: 0 }).kind === "found";
    });
}

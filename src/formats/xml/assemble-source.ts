import { err, ok } from "../../base/index.ts";
import { HarnessDraft } from "../draft/harness-draft.ts";
import type { Reading, Ledger, ReadResult } from "../format-reader.ts";
import { importProblem, type ImportProblem, carryProblem } from "../import-problem.ts";
import { addConnectors } from "./add-connectors.ts";
import { addWires } from "./add-wires.ts";
import { type Assembly, type HarnessReadOptions, chooseBuilds, findColourCodes, indexSource } from "./assembly.ts";
import type { HarnessSource, SourceNode, SourceCavity } from "./harness-source.ts";
import { openHarness } from "../../model/index.ts";
import { mateConnectors } from "./mate-connectors.ts";

/**
 * Puts a harness together from what a file says and has the checks of the model judge it.
 *
 * @param source What the file says.
 * @param options What the reader was told.
 * @param found Problems found on the way here; an error among them ends in no document.
 * @param ledgerOf Makes the ledger of the file, asked once everything is taken down.
 * @returns The document, one build of it at least, or every problem; in steps, like the reading it is the end of.
 */
export function* assembleSource(
  source: HarnessSource,
  options: HarnessReadOptions,
  found: readonly ImportProblem[],
  ledgerOf: () => Ledger,
): Reading {
  const inFile = (problem: ImportProblem): ImportProblem => ({
    ...problem,
    at: { file: options.fileName, ...problem.at },
  });
  const chosen = chooseBuilds(source, options.builds);
  const problems = [...found, ...chosen.problems].map(inFile);
  if (problems.some((problem) => problem.severity === "error")) return err(problems);
  const codes = findColourCodes(
    source.wires.flatMap((wire) => wire.colours),
    options.colours,
  );
  const { nominalVolt } = source;
  const system =
    options.system ??
    (nominalVolt === undefined ? undefined : { nominalVolt, wireStandard: "iso-6722" as const, temperatureC: 20 });
  const draft = new HarnessDraft({
    file: options.fileName,
    title: source.title,
    source: source.source,
    notes: source.notes,
    ...(options.machine === undefined ? {} : { machine: options.machine }),
    ...(system === undefined ? {} : { system }),
  });
  const assembly: Assembly = {
    source,
    index: indexSource(source),
    draft,
    builds: chosen.builds,
    codes,
    options: new Map(),
    places: new Map(),
    segments: new Map(),
    boxes: new Map(),
    connectors: new Map(),
  };
  for (const problem of problems) draft.report(problem);
  const colours = new Set(source.wires.flatMap((wire) => wire.colours.map((colour) => colour.text))).size;
  if (colours > 0 && !codes.isKnown) draft.report(importProblem("source-colours", {}, { scheme: codes.name, colours }));
  addOptionsAndBuilds(assembly);
  addTopology(assembly);
  yield { share: 0.7, doing: "Putting connectors together" };
  addConnectors(assembly);
  yield { share: 0.8, doing: "Putting wires together" };
  addWires(assembly);
  yield { share: 0.9, doing: "Checking the harness" };
  const made = mateWithin(assembly, draft.finish());
  return made.ok ? ok({ ...made.value, ledgers: [ledgerOf()] }) : made;
}

function addOptionsAndBuilds(assembly: Assembly): void {
  const { source, draft, builds } = assembly;
  for (const build of source.builds) source.account.leaveOut(build.madeOf, "not among the builds that were made");
  for (const option of source.options) {
    source.account.keep(option.madeOf, "option");
    assembly.options.set(option.key, draft.addOption({ id: option.name, label: option.label }, option.at));
  }
  for (const build of builds) {
    const options = build.options.map((key) => assembly.options.get(key)).filter((id) => id !== undefined);
    source.account.keep(build.madeOf, "build");
    draft.addBuild({ id: build.name, label: build.label, options }, build.at);
  }
}

/** Adds nodes as places of the drawing and the segments between them. A segment without a length cannot be kept. */
function addTopology(assembly: Assembly): void {
  const { source, draft } = assembly;
  const drawn = projectNodes(source.nodes);
  for (const node of source.nodes) {
    source.account.keep(node.madeOf, "place");
    assembly.places.set(node.key, draft.addPlace({ id: node.name, ...drawn.get(node.key) }, node.at));
  }
  for (const segment of source.segments) {
    const from = assembly.places.get(segment.from);
    const to = assembly.places.get(segment.to);
    const { lengthMm, covering, clips } = segment;
    const reason = faultOf(from, to, lengthMm);
    if (from === undefined || to === undefined || lengthMm === undefined || reason !== undefined) {
      draft.report(
        importProblem("source-segment-left-out", segment.at, { segment: segment.name, reason: reason ?? "" }),
      );
      source.account.leaveOut(segment.madeOf, reason ?? "");
      continue;
    }
    source.account.keep(segment.madeOf, "segment");
    const more = { ...(covering === undefined ? {} : { covering }), ...(clips === undefined ? {} : { clips }) };
    assembly.segments.set(segment.key, draft.addSegment({ id: segment.name, from, to, lengthMm, ...more }, segment.at));
  }
}

/** Why a segment cannot be kept; undefined for one that can. */
function faultOf(from: string | undefined, to: string | undefined, lengthMm: number | undefined): string | undefined {
  if (from === undefined || to === undefined) return "one of its nodes is missing";
  if (from === to) return "it ends where it starts";
  if (lengthMm === undefined) return "its length is missing";
  return lengthMm > 0 ? undefined : `a length of ${lengthMm} mm is not possible`;
}

/** A place on the drawing: x to the right, y down. */
interface DrawnPlace {
  readonly x: number;
  readonly y: number;
}

/** Width of the drawing in drawing units. */
const WIDTH = 1200;

/**
 * Lays nodes on the drawing: of the axes of the file the one along which they spread least is dropped, the one along which they spread
 * most becomes x, the other one y, upward in the file being upward on the drawing. All is scaled to one width.
 *
 * In a vehicle whose axes point to the rear, to the right and up, and which is flatter than it is wide, that is the view from above with
 * the front at the left.
 *
 * @param nodes Nodes, with two or three coordinates in any one unit.
 * @returns Places by the key of the node, rounded to one decimal; nodes without coordinates are left out.
 */
export function projectNodes(nodes: readonly SourceNode[]): ReadonlyMap<string, DrawnPlace> {
  const placed = nodes.filter((node) => (node.position?.length ?? 0) >= 2);
  const spreads = [0, 1, 2].map((axis) => spreadOf(placed, axis));
  const [first, second] = [0, 1, 2].sort((a, b) => (spreads[b]?.size ?? 0) - (spreads[a]?.size ?? 0));
  // The two that are kept stay in the order of the file where they spread alike.
  const across = first === undefined ? undefined : spreads[first];
  const down = second === undefined ? undefined : spreads[second];
  const drawn = new Map<string, DrawnPlace>();
  if (!across || !down) return drawn;
  const scale = across.size > 0 ? WIDTH / across.size : 1;
  for (const node of placed) {
    const x = ((node.position?.[across.axis] ?? 0) - across.least) * scale;
    const y = (down.most - (node.position?.[down.axis] ?? 0)) * scale;
    drawn.set(node.key, { x: Math.round(x * 10) / 10, y: Math.round(y * 10) / 10 });
  }
  return drawn;
}

interface Spread {
  readonly axis: number;
  readonly least: number;
  readonly most: number;
  readonly size: number;
}

function spreadOf(nodes: readonly SourceNode[], axis: number): Spread {
  let least = Infinity;
  let most = -Infinity;
  for (const node of nodes) {
    const value = node.position?.[axis] ?? 0;
    least = Math.min(least, value);
    most = Math.max(most, value);
  }
  return { axis, least, most, size: most >= least ? most - least : 0 };
}

/** Joins connectors of which the file itself says that they mate. */
function mateWithin(assembly: Assembly, result: ReadResult): ReadResult {
  const { source, connectors, index, draft } = assembly;
  if (!result.ok || source.matings.length === 0) return result;
  let { document } = result.value;
  const warnings = [...result.value.warnings];
  for (const mating of source.matings) {
    const [first, second] = mating.connectors.map((key) => connectors.get(key));
    const names = mating.connectors.map((key) => index.connectors.get(key)?.name ?? key.slice(0, 80));
    const refuse = (reason: string): void => {
      const facts = { first: names[0] ?? "", second: names[1] ?? "", reason };
      source.account.leaveOut(mating.madeOf, reason);
      warnings.push(importProblem("mating-left-out", { file: draft.start.file, ...mating.at }, facts));
    };
    if (first?.kind !== "connector" || second?.kind !== "connector") {
      refuse("one of them is no connector");
      continue;
    }
    const cavities = new Map<string, SourceCavity>();
    for (const key of mating.connectors) {
      for (const cavity of index.connectors.get(key)?.cavities ?? []) cavities.set(cavity.key, cavity);
    }
    const pairs = mating.cavities.flatMap((pair) => {
      const [one, two] = pair.map((key) => cavities.get(key)?.name);
      return one === undefined || two === undefined ? [] : [[one, two] as const];
    });
    const mated = mateConnectors(document, [first.id, second.id], pairs.length > 0 ? pairs : undefined);
    if (!mated.ok) refuse(mated.error);
    else {
      document = mated.value;
      source.account.keep(mating.madeOf, "mating");
    }
  }
  const opened = openHarness(JSON.stringify(document));
  if (opened.ok) return ok({ document: opened.value.document, warnings });
  const place = { file: draft.start.file };
  return err([...warnings, ...opened.error.map((problem) => carryProblem(problem, place))]);
}

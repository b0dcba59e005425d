import { defined, err, ok } from "../../base/index.ts";
import { HarnessDraft } from "../draft/harness-draft.ts";
import type { Reading, Ledger, ReadResult } from "../format-reader.ts";
import { carryProblem, importProblem, inFile, type ImportProblem } from "../import-problem.ts";
import { addConnectors } from "./add-connectors.ts";
import { addWires } from "./add-wires.ts";
import { type Assembly, type HarnessReadOptions, chooseBuilds, findColourCodes, indexSource } from "./assembly.ts";
import type { HarnessSource, SourceNode } from "./harness-source.ts";
import { openHarness } from "../../harness-model/index.ts";
import { mateConnectors } from "./mate-connectors.ts";

/**
 * Puts a harness together from what a file says and has the checks of the model judge it.
 *
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
  const chosen = chooseBuilds(source, options.builds);
  const problems = [...found, ...chosen.problems].map((problem) => inFile(problem, options.fileName));
  if (problems.some((problem) => problem.severity === "error")) return err(problems);
  const raw = source.wires.flatMap((wire) => wire.colours);
  const codes = findColourCodes(raw, options.colours);
  const { nominalVolt, title, notes } = source;
  const told = nominalVolt && { nominalVolt, wireStandard: "iso-6722" as const, temperatureC: 20 };
  const more = defined({ machine: options.machine, system: options.system ?? (told || undefined) });
  const draft = new HarnessDraft({ file: options.fileName, title, source: source.source, notes, ...more });
  const assembly: Assembly = {
    ...{ source, index: indexSource(source), draft, builds: chosen.builds, codes, options: new Map() },
    ...{ places: new Map(), segments: new Map(), boxes: new Map(), connectors: new Map() },
  };
  for (const problem of problems) draft.report(problem);
  const colours = new Set(raw.map((colour) => colour.text)).size;
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
    const leaveOut = (reason: string): void => {
      draft.report(importProblem("source-segment-left-out", segment.at, { segment: segment.name, reason }));
      source.account.leaveOut(segment.madeOf, reason);
    };
    if (from === undefined || to === undefined) leaveOut("one of its nodes is missing");
    else if (from === to) leaveOut("it ends where it starts");
    else if (lengthMm === undefined) leaveOut("its length is missing");
    else if (lengthMm <= 0) leaveOut(`a length of ${lengthMm} mm is not possible`);
    else {
      source.account.keep(segment.madeOf, "segment");
      const made = { id: segment.name, from, to, lengthMm, ...defined({ covering, clips }) };
      assembly.segments.set(segment.key, draft.addSegment(made, segment.at));
    }
  }
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
 * @returns Places by the key of the node, x to the right, y down, rounded to one decimal; nodes without coordinates are left out.
 */
export function projectNodes(
  nodes: readonly SourceNode[],
): ReadonlyMap<string, { readonly x: number; readonly y: number }> {
  const placed = nodes.filter((node) => (node.position?.length ?? 0) >= 2);
  // Axes that spread alike stay in the order of the file.
  const [across, down] = [0, 1, 2].map((axis) => toleranceOf(placed, axis)).sort((a, b) => b.size - a.size);
  const drawn = new Map<string, { readonly x: number; readonly y: number }>();
  if (!across || !down) return drawn;
  const scale = across.size > 0 ? WIDTH / across.size : 1;
  for (const node of placed) {
    const x = ((node.position?.[across.axis] ?? 0) - across.least) * scale;
    const y = (down.most - (node.position?.[down.axis] ?? 0)) * scale;
    drawn.set(node.key, { x: Math.round(x * 10) / 10, y: Math.round(y * 10) / 10 });
  }
  return drawn;
}

function toleranceOf(nodes: readonly SourceNode[], axis: number) {
  let [least, most] = [Infinity, -Infinity];
  for (const { position } of nodes) {
    least = Math.min(least, position?.[axis] ?? 0);
    most = Math.max(most, position?.[axis] ?? 0);
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
    const cavities = mating.connectors.flatMap((key) => index.connectors.get(key)?.cavities ?? []);
    const nameOf = new Map(cavities.map(({ key, name }) => [key, name]));
    const pairs = mating.cavities.flatMap((pair) => {
      const [one, two] = pair.map((key) => nameOf.get(key));
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

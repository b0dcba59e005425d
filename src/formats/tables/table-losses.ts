import type { HarnessDocument } from "../../model/index.ts";
import { importProblem, type ImportProblem } from "../import-problem.ts";

/** What a document holds that one plain table cannot: each sort once, with how many there are. */
export function tableLosses(document: HarnessDocument): readonly ImportProblem[] {
  const { components, connectors, wires } = document;
  const sorts: readonly (readonly [what: string, count: number])[] = [
    [
      "the insides of components, so circuits, fuses, relays and readings",
      countOf(components, (part) => part.elements.length > 0),
    ],
    ["names and kinds of components", countOf(components, (part) => part.label !== part.id || part.kind !== "other")],
    ["names of connectors", countOf(connectors, (connector) => connector.label !== connector.id)],
    ["faces of connectors and places of cavities", connectors.length],
    [
      "how connectors are reached and what may be done at them",
      countOf(connectors, (each) => each.access !== undefined),
    ],
    ["contact resistances", countOf(connectors, (each) => each.contactOhm !== undefined)],
    ["options of halves and connectors", countOf(connectors, hasOption)],
    ["routes of wires", countOf(wires, (wire) => wire.route !== undefined)],
    ["places of splices", countOf(document.splices, (splice) => splice.at !== undefined)],
    ["segments of the harness", document.segments.length],
    ["zones", document.zones.length],
    ["names of options", document.options.length],
    ["builds", document.builds.length],
    ["states of the machine", document.states.length],
    ["test adapters", document.adapters.length],
    ["trouble codes", document.codes.length],
    ["cautions", document.cautions.length],
  ];
  return sorts.flatMap(([what, count]) => (count === 0 ? [] : [importProblem("export-loses", {}, { what, count })]));
}

function hasOption(connector: HarnessDocument["connectors"][number]): boolean {
  return connector.when !== undefined || connector.halves.some((half) => half.when !== undefined);
}

function countOf<Thing>(things: readonly Thing[], counts: (thing: Thing) => boolean): number {
  return things.filter(counts).length;
}

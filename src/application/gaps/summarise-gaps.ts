import { isPermittedAt, type HarnessDocument } from "../../harness-model/index.ts";
import { counted } from "../text/frame.ts";
import { findGaps } from "./find-gaps.ts";
import type { ItemGaps } from "./gap.ts";

/**
 * What can be asked of a machine yet, in a few sentences: following wires, expected readings, meter tests, jobs.
 *
 * @param document The document.
 * @param items Its gaps, if they are known already.
 */
export function summariseGaps(
  document: HarnessDocument,
  items: readonly ItemGaps[] = findGaps(document),
): readonly string[] {
  return [tracing(document), readings(document, items), meterTests(document, items), jobs(document)];
}

function tracing({ wires }: HarnessDocument): string {
  if (wires.length === 0) return "Circuits and paths: not possible, the data has no wires.";
  const open = wires.filter(({ ends }) => ends[1] === undefined).length;
  const far = open === 0 ? "all with both ends" : `${open} of them with one end only`;
  return `Circuits and paths: ${counted(wires.length, "wire")}, ${far}.`;
}

function readings({ components }: HarnessDocument, items: readonly ItemGaps[]): string {
  const missing = items.flatMap(({ sort, gaps }) => (sort === "machine" ? gaps.map(({ what }) => what) : []));
  const rails = (["supply", "ground"] as const).filter((what) => missing.includes(what));
  const blank = components.filter(({ elements }) => elements.length === 0).length;
  const reasons = [
    ...(rails.length > 0 ? [`no ${rails.join(" and no ")} is known`] : []),
    ...(blank > 0 ? [`the inside of ${blank} of ${counted(components.length, "component")} is not in the data`] : []),
    ...(components.length === 0 ? ["no consumer is known"] : []),
  ];
  if (reasons.length === 0) return "Expected readings: calculated for the whole machine.";
  const isNone = rails.length > 0 || blank === components.length;
  return `Expected readings: ${isNone ? "not yet" : "for a part of the machine"}, ${reasons.join(", ")}.`;
}

function meterTests({ connectors }: HarnessDocument, items: readonly ItemGaps[]): string {
  const open = new Set(
    items.flatMap(({ sort, about, gaps }) => (sort === "connector" && gaps.length > 0 ? [about] : [])),
  );
  const ready = connectors.filter(({ id }) => !open.has(id));
  const closed = ready.filter((each) => !isPermittedAt(each, "front-probe") && !isPermittedAt(each, "unplug")).length;
  const none = closed === 0 ? "" : `; ${closed} of those may not be disconnected`;
  return `Meter tests: the data needed for a test is known at ${ready.length} of ${counted(connectors.length, "connector")}${none}.`;
}

function jobs({ components, wires }: HarnessDocument): string {
  if (wires.length === 0) return "Jobs: not possible, the data has no wires.";
  const known = components.filter(({ elements }) => elements.length > 0).length;
  return known === 0
    ? "Jobs: on wires, contacts and splices only; no consumer is known."
    : `Jobs: on wires, contacts, splices and ${counted(known, "component")}.`;
}

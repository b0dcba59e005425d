import { unreachable } from "../../base/index.ts";
import { highlight, litBundles } from "../../drawing/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import type { Item } from "../../connectivity/index.ts";
import type { Answer } from "../../application/index.ts";
import { isDrawn } from "./drawn-answer.ts";
import { isTable } from "./readings.ts";
import type { Highlighted } from "../graph/harness-graph.ts";

/** What of the drawing lights up for an answer and a selection; nothing where there is neither. */
export function litOf(
  harness: Harness,
  answer: Answer | undefined,
  selection: Item | undefined,
): Highlighted | undefined {
  const ids = answer ? idsOf(answer) : [];
  const selected = selection?.type === "wire" && harness.fitted.wires.has(selection.id) ? [selection.id] : [];
  const { wires, items, bundles } = highlight(harness, [...ids, ...selected]);
  if (wires.length + items.size + bundles.size === 0) return undefined;
  return { wires: litBundles(harness, wires).wires, items, bundles };
}

/** Ids of everything an answer points at. */
function idsOf(answer: Answer): readonly string[] {
  // The two leads of a reading.
  if ("red" in answer) return [answer.red, answer.black ?? ""];
  if (isTable(answer))
    return answer.legs.flatMap(({ rows }) =>
      rows.flatMap(({ item, through }) => [item.id, ...through.map(({ id }) => id)]),
    );
  if (!isDrawn(answer)) return [];
  switch (answer.kind) {
    case "path":
      return [...answer.path.map((facts) => facts.id), ...answer.between];
    case "no-path":
      return [answer.from.id, answer.to.id, ...(answer.cut.at ? [answer.cut.at.id] : [])];
    case "circuit":
      return [
        ...answer.net.items.map((facts) => facts.id),
        ...answer.circuits.flatMap((circuit) => circuit.sides.flatMap((side) => side.items)),
      ];
    case "common":
      return [...answer.asked.map((item) => item.id), ...answer.items.map((facts) => facts.id)];
    case "effect":
      return [answer.of.id, ...answer.stopped.flatMap((facts) => [facts.id, facts.component ?? ""])];
    case "test-points":
      return [
        answer.of.id,
        ...(answer.of.ends ?? []),
        ...answer.points.flatMap((point) => [point.item.id, ...point.between]),
      ];
    default:
      return unreachable(answer);
  }
}

/** The element of the drawing that stands for the selection. */
export function pickKey(selection: Item | undefined): string | undefined {
  switch (selection?.type) {
    case "contact": {
      const owner = selection.id.slice(0, selection.id.lastIndexOf(":"));
      return `connector ${owner}`;
    }
    case "connector":
    case "stud":
    case "splice":
    case "wire":
      return `${selection.type} ${selection.id}`;
    case "segment":
      return `bundle ${selection.id}`;
    case "element":
    case "component":
    case "zone":
    case "net":
    case "code":
    case "inner":
    case "open-end":
    case undefined:
      return undefined;
  }
}

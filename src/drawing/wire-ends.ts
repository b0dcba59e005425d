import type { Harness, HarnessNode } from "../harness-model/index.ts";

/** Where a wire ends, as a thing of the drawing. */
interface WireEnd {
  readonly type: "connector" | "stud" | "splice" | "open-end";
  readonly id: string;
  /** The graph node. */
  readonly node: HarnessNode;
}

/** The two things a fitted wire joins, in the order of the document; undefined for an id that is no fitted wire. */
export function wireEnds(harness: Harness, wireId: string): readonly [WireEnd, WireEnd] | undefined {
  const number = harness.fitted.wires.has(wireId) ? harness.edgeNumbers.get(wireId) : undefined;
  if (number === undefined) return undefined;
  const from = toEnd(harness.nodes[harness.index.from[number] ?? -1]);
  const node = harness.nodes[harness.index.to[number] ?? -1];
  const to = from && node?.kind === "open-end" ? openEnd(from, node) : toEnd(node);
  return from && to && [from, to];
}

/** The open ends of all wires from one thing are drawn as one stub. */
function openEnd(from: WireEnd, node: HarnessNode): WireEnd {
  return { type: "open-end", id: `${from.id}:?`, node };
}

function toEnd(node: HarnessNode | undefined): WireEnd | undefined {
  switch (node?.kind) {
    case "contact":
      return { type: "connector", id: node.connector.id, node };
    case "splice":
      return { type: "splice", id: node.splice.id, node };
    case "stud":
      return { type: "stud", id: node.stud.id, node };
    case "open-end":
    case "inner":
    case undefined:
      return undefined;
  }
}

/** Key of a thing in maps of the drawing, such as `connector A1.X1`. */
export function thingKey(item: { readonly type: string; readonly id: string }): string {
  return `${item.type} ${item.id}`;
}

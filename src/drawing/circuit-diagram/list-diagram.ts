import type { Item } from "../../connectivity/index.ts";
import { formatCrossSectionMm2 } from "../../base/index.ts";
import { colourMark } from "../colour-mark.ts";
import type { Line, Thing } from "./diagram-graph.ts";
import { thingAt } from "./diagram-model.ts";
import type { PointMark } from "./diagram-options.ts";
import type { DiagramLayout } from "./layout-diagram.ts";
import { elementName, elementValue } from "./part-texts.ts";
import { markAt } from "./sketch-mark.ts";
import type { SketchContext } from "./sketch-thing.ts";
import { ROLE_WORDS, wireRole } from "./wire-roles.ts";

/** One thing of a diagram in words. */
export interface DiagramListEntry {
  readonly item: Item;
  /** What it is, such as `wire`, `fuse` or `ground point`. */
  readonly kind: string;
  readonly id: string;
  /** Label and value, or colour in words, colour code and size. */
  readonly facts: readonly string[];
  /** Role of a wire. */
  readonly role: string | undefined;
  readonly mark: PointMark | undefined;
  /** Where the ways go on that are not drawn. */
  readonly more: readonly string[];
  /** Whether it belongs to what was asked for. */
  readonly strong: boolean;
}

/** One column of a diagram in words, from above to below; the bars and boxes at its ends are named in it. */
export interface DiagramListGroup {
  readonly entries: readonly DiagramListEntry[];
  readonly strong: boolean;
}

/** Tells a diagram as a list: columns from left to right, each from above to below. */
export function listDiagram(context: SketchContext, layout: DiagramLayout): readonly DiagramListGroup[] {
  const { model, xs, wides } = layout;
  const order = model.columns.map((_, at) => at);
  const top = (column: number): number => wides[model.columns[column]?.upper ?? -1]?.y ?? 0;
  order.sort((a, b) => (xs[a] ?? 0) - (xs[b] ?? 0) || top(a) - top(b));
  return order.flatMap((at) => {
    const column = model.columns[at];
    if (!column) return [];
    const ends = [
      { wide: column.upper, pin: column.upperPin },
      { wide: column.lower, pin: column.lowerPin },
    ].map(({ wide, pin }) => endEntry(context, layout, { wide, pin }));
    const inner = column.lines.flatMap((line, place) => {
      const thing = column.things[place];
      const entry = thing === undefined ? [] : [thingEntry(context, thingAt(model, thing))];
      return [...wireEntry(context, line), ...entry];
    });
    return [{ entries: [ends[0], ...inner, ends[1]].flatMap((entry) => entry ?? []), strong: column.strong }];
  });
}

function endEntry(
  context: SketchContext,
  { model }: DiagramLayout,
  { wide, pin }: { readonly wide: number; readonly pin: string | undefined },
): DiagramListEntry {
  const thing = thingAt(model, model.wides[wide]?.thing ?? -1);
  const entry = thingEntry(context, thing);
  const found = thing.kind === "box" ? thing.pins.find(({ key }) => key === pin) : undefined;
  if (!found) return entry;
  const mark = markAt(context.scope.harness, context.style, found.nodes, found.item.id);
  const name = found.name === "" ? [] : [`pin ${found.name}`];
  return { ...entry, facts: [...entry.facts, ...name, ...(found.net === undefined ? [] : [found.net])], mark };
}

function wireEntry({ scope }: SketchContext, { wire, edge, strong }: Line): readonly DiagramListEntry[] {
  if (!wire || edge === undefined) return [];
  const { name, letters } = colourMark(wire.colour);
  const size = wire.crossSectionMm2 === undefined ? [] : [formatCrossSectionMm2(wire.crossSectionMm2)];
  const role = wireRole(scope, edge, wire);
  const facts = [letters === "?" ? name : `${name} (${letters})`, ...size];
  const item: Item = { type: "wire", id: wire.id };
  const word = role && ROLE_WORDS[role].word;
  return [{ item, kind: "wire", id: wire.id, facts, role: word, mark: undefined, more: [], strong }];
}

function thingEntry({ scope, style }: SketchContext, thing: Thing): DiagramListEntry {
  const { item, strong } = thing;
  const common = { item, strong, role: undefined, more: thing.kind === "joint" ? thing.stubs : [] };
  const mark = markAt(scope.harness, style, nodesOf(thing), item.id);
  switch (thing.kind) {
    case "part": {
      const { id, label } = elementName(thing.component, thing.element);
      const value = elementValue(thing.element);
      return { ...common, kind: thing.element.kind, id, facts: [label, ...(value === undefined ? [] : [value])], mark };
    }
    case "box": {
      const label = thing.component?.label ?? thing.connector?.label;
      const kind = thing.component?.kind === "module" ? "control unit" : (thing.component?.kind ?? "connector");
      return { ...common, kind, id: item.id, facts: label === undefined ? [] : [label], mark };
    }
    case "gate": {
      const facts = thing.halves.map(({ name }) => name);
      return { ...common, kind: facts.length > 1 ? "inline connector" : "unmated connector", id: item.id, facts, mark };
    }
    case "pin":
      return { ...common, kind: "pin", id: thing.name, facts: [], mark };
    case "joint":
      return { ...common, kind: JOINTS[thing.look], id: item.id, facts: thing.isFrame ? ["ground point"] : [], mark };
  }
}

const JOINTS = {
  supply: "supply",
  ground: "battery terminal, negative",
  splice: "splice",
  stud: "terminal stud",
  inner: "internal node",
  contact: "contact",
  open: "open end",
} as const;

function nodesOf(thing: Thing): readonly number[] {
  if (thing.kind === "joint") return [thing.node];
  if (thing.kind === "gate") return thing.halves.map(({ node }) => node);
  return thing.kind === "pin" ? thing.nodes : [];
}

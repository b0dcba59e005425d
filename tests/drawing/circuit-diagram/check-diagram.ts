import type { CircuitDiagram, Rect, Shape, ShapeGroup } from "ohmward/drawing";

/** A straight line of a diagram with the group that it belongs to. */
interface Straight {
  readonly group: ShapeGroup;
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

const EPS = 1e-6;

function meet(a: Rect, b: Rect): boolean {
  return a.x0 < b.x1 - EPS && b.x0 < a.x1 - EPS && a.y0 < b.y1 - EPS && b.y0 < a.y1 - EPS;
}

function nameOf({ kind, item, title }: ShapeGroup): string {
  return `${kind} ${item?.id ?? title}`;
}

/** Pairs of things whose ground meets. The ground of one thing may meet itself: a square and the line of its outline. */
export function overlaps({ groups }: CircuitDiagram): readonly string[] {
  const found: string[] = [];
  groups.forEach((a, at) => {
    for (const b of groups.slice(at + 1)) {
      const pair = a.blocks.flatMap((first) => b.blocks.map((second) => [first, second] as const));
      if (pair.some(([first, second]) => meet(first, second))) found.push(`${nameOf(a)} meets ${nameOf(b)}`);
    }
  });
  return found;
}

/** Texts of a diagram as rectangles: from a little above the capitals to a little below the line. */
export function textBoxes({ groups }: Pick<CircuitDiagram, "groups">): readonly (Rect & { readonly text: string })[] {
  return groups.flatMap(({ shapes }) =>
    shapes.flatMap((shape) =>
      shape.kind === "text"
        ? [
            {
              ...{ text: shape.text, x0: shape.at.x, x1: shape.at.x + shape.width },
              ...{ y0: shape.at.y - 0.75 * shape.size, y1: shape.at.y + 0.2 * shape.size },
            },
          ]
        : [],
    ),
  );
}

/** Pairs of texts that cover one another. */
export function textOverlaps(diagram: CircuitDiagram): readonly string[] {
  const boxes = textBoxes(diagram);
  return boxes.flatMap((a, at) =>
    boxes.slice(at + 1).flatMap((b) => (meet(a, b) ? [`"${a.text}" meets "${b.text}"`] : [])),
  );
}

/** Texts that lie on no ground of their group, so that something else could be put there. */
export function groundless({ groups }: CircuitDiagram): readonly string[] {
  return groups.flatMap((group) =>
    textBoxes({ groups: [group] }).flatMap(({ text, ...box }) => {
      const isInside = ({ x0, y0, x1, y1 }: Rect): boolean =>
        box.x0 >= x0 - 0.5 && box.x1 <= x1 + 0.5 && box.y0 >= y0 - 0.5 && box.y1 <= y1 + 0.5;
      return group.blocks.some(isInside) ? [] : [`${nameOf(group)}: "${text}"`];
    }),
  );
}

/** Outlines of parts that cut through a text. */
export function outlinesOverText(diagram: CircuitDiagram): readonly string[] {
  const texts = textBoxes(diagram);
  const outlines = diagram.groups.filter(({ kind }) => kind === "outline").flatMap(({ shapes }) => shapes);
  return outlines.flatMap((shape) => {
    if (shape.kind !== "rect") return [];
    const { x0, y0, x1, y1 } = shape.box;
    const edges: readonly Rect[] = [
      { x0, x1, y0: y0 - 0.5, y1: y0 + 0.5 },
      { x0, x1, y0: y1 - 0.5, y1: y1 + 0.5 },
      { x0: x0 - 0.5, x1: x0 + 0.5, y0, y1 },
      { x0: x1 - 0.5, x1: x1 + 0.5, y0, y1 },
    ];
    return texts.filter((text) => edges.some((edge) => meet(edge, text))).map(({ text }) => `outline over "${text}"`);
  });
}

function linesOf({ groups }: CircuitDiagram, kinds: readonly ShapeGroup["kind"][]): readonly Straight[] {
  return groups
    .filter(({ kind }) => kinds.includes(kind))
    .flatMap((group) =>
      group.shapes.flatMap((shape: Shape): Straight[] => {
        if (shape.kind === "wire")
          return [{ group, x0: shape.from.x, y0: shape.from.y, x1: shape.to.x, y1: shape.to.y }];
        const isBare = group.kind === "line" || group.kind === "link" || (group.kind === "joint" && isBar(shape));
        const [from, to] = shape.kind === "polyline" && isBare ? shape.points : [];
        return from && to ? [{ group, x0: from.x, y0: from.y, x1: to.x, y1: to.y }] : [];
      }),
    );
}

/** The bar of a joint, among the shapes of the joint: a line of two points without dashes on one height. */
function isBar(shape: Shape): boolean {
  const [from, to] = shape.kind === "polyline" && shape.points.length === 2 && shape.width >= 2 ? shape.points : [];
  return from !== undefined && to !== undefined && from.y === to.y && shape.kind === "polyline" && shape.width !== 2.2;
}

/** Wires and lines that are not upright, and bars that are not level. */
export function bends(diagram: CircuitDiagram): readonly string[] {
  const upright = linesOf(diagram, ["wire", "line"]).filter(({ x0, x1, y0, y1 }) => x0 !== x1 || y1 < y0 + EPS);
  const level = linesOf(diagram, ["joint"]).filter(({ y0, y1 }) => y0 !== y1);
  return [...upright, ...level].map(({ group }) => nameOf(group));
}

/** Wires, lines and bars that run over the ground of something that they do not belong to. */
export function runsOver(diagram: CircuitDiagram): readonly string[] {
  const found: string[] = [];
  for (const line of linesOf(diagram, ["wire", "line", "joint", "link"])) {
    const rect = { x0: Math.min(line.x0, line.x1), x1: Math.max(line.x0, line.x1), y0: line.y0, y1: line.y1 };
    for (const group of diagram.groups) {
      if (group === line.group || endsAt(group, line)) continue;
      const isOver = group.blocks.some((block) => meet(thick(rect), block));
      if (isOver) found.push(`${nameOf(line.group)} over ${nameOf(group)}`);
    }
  }
  return found;
}

function thick({ x0, y0, x1, y1 }: Rect): Rect {
  const [x, y] = [x0 === x1 ? 1 : 0, y0 === y1 ? 1 : 0];
  return { x0: x0 - x, x1: x1 + x, y0: y0 - y, y1: y1 + y };
}

/** Whether a line ends at a thing: on its ground, at the point where its lines come to it. */
function endsAt(group: ShapeGroup, { x0, y0, x1, y1 }: Straight): boolean {
  return group.blocks.some((block) =>
    [
      [x0, y0],
      [x1, y1],
    ].some(([x = 0, y = 0]) => x >= block.x0 - EPS && x <= block.x1 + EPS && y >= block.y0 - 8 && y <= block.y1 + 8),
  );
}

/** Bars that cross wires without connection. */
export function crossings(diagram: CircuitDiagram): number {
  const { model, xs, wides } = diagram.layout;
  let count = 0;
  model.wides.forEach((wide, at) => {
    const { sketch, y = 0 } = wides[at] ?? {};
    const own = new Set([...wide.above, ...wide.below]);
    const bar = sketch?.bar;
    if (!bar) return;
    model.columns.forEach((column, number) => {
      const x = xs[number] ?? 0;
      const isAtHeight = (wides[column.upper]?.y ?? 0) < y && y < (wides[column.lower]?.y ?? 0);
      if (!own.has(number) && isAtHeight && x > bar.x0 && x < bar.x1) count++;
    });
  });
  return count;
}

/** Lines that do not end on their pin, dot or symbol, read from the shapes alone: an end has to lie on some thing of the diagram. */
export function looseEnds(diagram: CircuitDiagram): readonly string[] {
  const { model, plans, xs, ys, wides } = diagram.layout;
  const points = new Set<string>();
  const add = (x: number, y: number): void => {
    points.add(`${x.toFixed(3)} ${y.toFixed(3)}`);
  };
  model.columns.forEach(({ upper, lower }, column) => {
    const x = xs[column] ?? 0;
    for (const wide of [upper, lower]) {
      const { sketch, y = 0 } = wides[wide] ?? {};
      add(x, y + (sketch?.top ?? 0));
      add(x, y + (sketch?.bottom ?? 0));
    }
    plans[column]?.forEach(({ thing, sketch }, entry) => {
      const y = ys[column]?.[entry] ?? 0;
      if (thing === undefined) return;
      add(x, y + sketch.top);
      add(x, y + sketch.bottom);
    });
  });
  const shift = offsetOf(diagram);
  return linesOf(diagram, ["wire", "line"]).flatMap(({ group, x0, y0, x1, y1 }) => {
    const ends = [
      [x0, y0],
      [x1, y1],
    ] as const;
    const isLoose = ends.some(([x, y]) => !points.has(`${(x - shift.x).toFixed(3)} ${(y - shift.y).toFixed(3)}`));
    return isLoose ? [nameOf(group)] : [];
  });
}

/** How far the drawing has been moved from its layout. */
function offsetOf({ groups, layout }: CircuitDiagram): { readonly x: number; readonly y: number } {
  const line = groups.find(({ kind }) => kind === "line" || kind === "wire");
  const [shape] = line?.shapes ?? [];
  const from = shape?.kind === "wire" ? shape.from : shape?.kind === "polyline" ? shape.points[0] : undefined;
  const first = layout.model.columns[0];
  const { sketch, y = 0 } = layout.wides[first?.upper ?? 0] ?? {};
  return { x: (from?.x ?? 0) - (layout.xs[0] ?? 0), y: (from?.y ?? 0) - y - (sketch?.bottom ?? 0) };
}

/** Links whose coil and contact do not stand at one height. */
export function unlevelLinks({ layout }: CircuitDiagram): number {
  const heightOf = (thing: number): number | undefined => {
    for (const [column, entries] of layout.plans.entries()) {
      const entry = entries.findIndex((each) => each.thing === thing);
      if (entry >= 0) return layout.ys[column]?.[entry];
    }
    return undefined;
  };
  return layout.model.links.filter(({ contact, coil }) => heightOf(contact) !== heightOf(coil)).length;
}

import type { ConnectorFace, Layout, HighlightedBundles, StripBox, XY } from "ohmward/drawing";

/** Rounds coordinates, so that a picture differs only where something moved. */
function n(value: number): string {
  return String(Math.round(value * 10) / 10);
}

function escape(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;").replaceAll('"', "&quot;");
}

function svg(width: number, height: number, lines: readonly string[]): string {
  const open = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${n(width)} ${n(height)}" font-family="sans-serif">`;
  return [open, ...lines, "</svg>", ""].join("\n");
}

function line(points: readonly XY[], style: string): string {
  return `<polyline points="${points.map(({ x, y }) => `${n(x)},${n(y)}`).join(" ")}" fill="none" ${style}/>`;
}

/** One face of a connector as SVG text. */
export function faceSvg(face: ConnectorFace, lettersOf: (cavity: string) => string): string {
  const { body, width, height } = face;
  const rx = face.shape === "round" ? body.width / 2 : 8;
  const marks = [
    ...(face.latch ? [{ ...face.latch, name: "latch" }] : []),
    ...(face.key ? [{ ...face.key, name: "key" }] : []),
  ];
  return svg(width, height + 20, [
    `<title>${escape(`${face.viewName} of ${face.side}`)}</title>`,
    `<rect x="${n(body.x)}" y="${n(body.y)}" width="${n(body.width)}" height="${n(body.height)}" rx="${n(rx)}" fill="#eee"/>`,
    ...marks.map(
      ({ name, x, y, ...box }) =>
        `<rect class="${name}" x="${n(x)}" y="${n(y)}" width="${n(box.width)}" height="${n(box.height)}"/>`,
    ),
    ...face.cavities.map(
      ({ id, x, y, size }) =>
        `<circle cx="${n(x)}" cy="${n(y)}" r="${n(size / 2)}" fill="#fff"/><text x="${n(x)}" y="${n(y)}" font-size="12">${escape(id)} ${escape(lettersOf(id))}</text>`,
    ),
  ]);
}

/** A path strip as SVG text: its boxes one beside the other. */
export function stripSvg(boxes: readonly StripBox[]): string {
  const lines = boxes.flatMap((box, at) => {
    const x = at * 160;
    const texts = [
      `${box.isMustPass ? "every way: " : ""}${box.title}`,
      box.label,
      ...(box.mark ? [`${box.mark.letters}, ${box.mark.name}, ${box.mark.hatch}`] : []),
      ...(box.sides ?? []),
      ...box.lines,
      ...(box.colourChanges ? ["colour changes here"] : []),
    ];
    return [
      `<rect class="${box.type}" x="${x}" y="0" width="150" height="140" fill="${box.mark?.base ?? "#eee"}"/>`,
      ...texts.map((text, row) => `<text x="${x + 6}" y="${18 + row * 17}" font-size="11">${escape(text)}</text>`),
    ];
  });
  return svg(boxes.length * 160, 140, lines);
}

/** A layout as SVG text, with traced wires over it. */
export function layoutSvg(layout: Layout, lit: HighlightedBundles): string {
  const { bounds } = layout;
  const items = [...layout.connectors, ...layout.terminalStuds, ...layout.splices];
  const open = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="${n(bounds.x)} ${n(bounds.y)} ${n(bounds.width)} ${n(bounds.height)}" font-family="sans-serif">`;
  return [
    open,
    ...layout.zones.map((zone) => line([...zone.outline, ...zone.outline.slice(0, 1)], 'stroke="#ccc"')),
    ...layout.components.map(
      (box) =>
        `<rect x="${n(box.x - box.width / 2)}" y="${n(box.y - box.height / 2)}" width="${n(box.width)}" height="${n(box.height)}" fill="none" stroke="#bbb"/>`,
    ),
    ...layout.bundles.map((bundle) => line([bundle.from, bundle.to], 'stroke="#999" stroke-width="5"')),
    ...lit.wires.map((wire) => line(wire.points, `stroke="${wire.mark.base ?? "#000"}" stroke-width="4"`)),
    ...items.map(
      (item) =>
        `<circle class="${item.type}" cx="${n(item.x)}" cy="${n(item.y)}" r="8"/><text x="${n(item.x + 10)}" y="${n(item.y + 4)}" font-size="13">${escape(item.id)}</text>`,
    ),
    "</svg>",
    "",
  ].join("\n");
}

// Floor 3: numbers for pictures, no screen: the layout of a harness, traced wires, the path strip, connector faces.
export { cavityContents, type CavityContent } from "./cavity-contents.ts";
export { colourMark, HATCHES, type ColourMark, type HatchPattern } from "./colour-mark.ts";
export { connectorFace, type ConnectorFace, type FaceCavity } from "./connector-face.ts";
export { writeHarnessSvg } from "./harness-svg.ts";
export { highlight, type Highlight } from "./highlight.ts";
export { layoutHarness, type Bounds, type DrawnItem, type DrawnZone, type Layout } from "./layout-harness.ts";
export { litBundles, type HighlightedBundles, type HighlightedWire } from "./highlighted-bundles.ts";
export { pathStrip, type StripBox } from "./path-strip.ts";
export { thingKey, wireEnds } from "./wire-ends.ts";
export { shortName } from "./short-name.ts";
export { placeNames, type NamedPoint, type NameSide } from "./place-names.ts";
export type { XY } from "./xy.ts";
export { voltageProfile, type ProfileItem, type VoltageProfile } from "./voltage-profile.ts";
export {
  circuitDiagram,
  MOST_COLUMNS,
  type CircuitDiagram,
  type NoDiagram,
} from "./circuit-diagram/circuit-diagram.ts";
export type { DiagramListEntry, DiagramListGroup } from "./circuit-diagram/list-diagram.ts";
export type { DiagramOptions, PointMark } from "./circuit-diagram/diagram-options.ts";
export { writeDiagramSvg, type DiagramSvgOptions } from "./circuit-diagram/diagram-svg.ts";
export type { DiagramTheme } from "./circuit-diagram/diagram-tokens.ts";
export { textWidth } from "./circuit-diagram/text-width.ts";
export { DASHES } from "./circuit-diagram/diagram-dashes.ts";
export { markerRects } from "./circuit-diagram/marker-rects.ts";
export type { Rect, Shape, ShapeGroup } from "./circuit-diagram/shapes.ts";

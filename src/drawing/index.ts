// Floor 3: numbers for pictures, no screen: the layout of a harness, traced wires, the path strip, connector faces.
export { cavityContents, type CavityContent } from "./cavity-contents.ts";
export { colourMark, HATCHES, type ColourMark, type HatchPattern } from "./colour-mark.ts";
export { connectorFace, type ConnectorFace, type FaceCavity } from "./connector-face.ts";
export { shortName, writeHarnessSvg } from "./harness-svg.ts";
export { highlight, type Highlight } from "./highlight.ts";
export { layoutHarness, type Bounds, type DrawnItem, type DrawnZone, type Layout } from "./layout-harness.ts";
export { litBundles, type HighlightedBundles, type HighlightedWire } from "./highlighted-bundles.ts";
export { pathStrip, type StripBox } from "./path-strip.ts";
export { thingKey, wireEnds } from "./wire-ends.ts";
export { placeNames, type NamedPoint, type NameSide } from "./place-names.ts";
export type { XY } from "./xy.ts";
export { voltageProfile, type ProfileItem, type VoltageProfile } from "./voltage-profile.ts";

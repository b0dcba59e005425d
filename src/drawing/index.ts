// Floor 3: numbers for pictures, no screen: the layout of a harness, traced wires, the path strip, connector faces.
export { cavityContents, type CavityContent, type CavityWire } from "./cavity-contents.ts";
export { colourMark, HATCHES, type ColourMark, type Hatch } from "./colour-mark.ts";
export { connectorFace, type ConnectorFace, type FaceCavity, type FaceMark } from "./connector-face.ts";
export { writeHarnessSvg, type HarnessSvgOptions } from "./harness-svg.ts";
export { highlight, type Highlight } from "./highlight.ts";
export { layoutHarness } from "./layout-harness.ts";
export type { Bounds, DrawnBundle, DrawnComponent, DrawnPlace, DrawnThing, DrawnZone, Layout } from "./layout.ts";
export { litBundles, type LitBundles, type LitWire } from "./lit-bundles.ts";
export { pathStrip, type StripBox, type StripFacts } from "./path-strip.ts";
export { shortName } from "./short-name.ts";
export { thingKey, wireEnds, type WireEnd } from "./wire-ends.ts";
export { placeNames, type NamedPoint, type NameSide } from "./place-names.ts";
export type { XY } from "./xy.ts";
export { voltageStair, type StairLine, type StairThing, type VoltageStair } from "./voltage-stair.ts";

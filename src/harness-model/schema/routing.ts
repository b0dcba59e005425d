import { z } from "zod";
import { BOUNDS, boundsText, MOST_ITEMS, within } from "./bounds.ts";
import {
  Access,
  AddressText,
  ComponentId,
  Hazard,
  Origin,
  Part,
  TopologyNodeId,
  SegmentId,
  SpliceId,
  TerminalStudId,
  Text,
  When,
  WireId,
  ZoneId,
} from "./common.ts";

/** A place where segments meet or end; x and y are drawing units, x to the right and y down, if the drawing is authored. */
export const TopologyNode = z.strictObject({
  id: TopologyNodeId.describe("Id of the branch point, such as `BP2`"),
  label: Text.optional().describe("Label for people"),
  x: within(BOUNDS.drawing).optional().describe("Horizontal position in drawing units, to the right"),
  y: within(BOUNDS.drawing).optional().describe("Vertical position in drawing units, downwards"),
});

// Sizes, lengths and offsets are checked after the shape, where a problem of theirs has a code of its own.
/** A stretch of harness between two places. */
export const Segment = z.strictObject({
  id: SegmentId.describe("Id of the segment, such as `SG04`"),
  from: TopologyNodeId.describe("Id of the branch point where it starts"),
  to: TopologyNodeId.describe("Id of the branch point where it ends"),
  lengthMm: z.number().describe(boundsText(BOUNDS.lengthMm)),
  zone: ZoneId.optional().describe("Id of the zone of the machine"),
  covering: Text.optional().describe("What covers the segment, such as tape or conduit"),
  clips: Text.optional().describe("How the segment is fastened"),
  hazards: z.array(Hazard).max(MOST_ITEMS.few).optional().describe("Hazards at this location"),
});

/** A splice: three or more wires joined at a known place of a segment. `offsetMm` counts from place `from`. */
export const Splice = z.strictObject({
  id: SpliceId.describe("Id of the splice, such as `SP11`"),
  label: Text.optional().describe("Label for people"),
  at: z
    .strictObject({
      segment: SegmentId.describe("Id of the harness segment"),
      from: TopologyNodeId.describe("Id of the branch point the offset counts from"),
      offsetMm: z.number().describe("Distance from that branch point, in mm"),
    })
    .optional()
    .describe("Position in the harness"),
  zone: ZoneId.optional().describe("Id of the zone of the machine"),
  resistanceOhm: within(BOUNDS.ohm).optional().describe("Resistance of each leg, in ohm"),
  part: Part.optional().describe("What joins the wires, such as a crimp sleeve"),
  when: When.optional().describe(
    "Option expression that says on which variants (builds) this is fitted, such as `A & !B`; absent means on all",
  ),
});

/** A stud, post, ring or ground point: bare metal that may be touched. `role` says where circuits end. */
export const TerminalStud = z.strictObject({
  id: TerminalStudId.describe("Id of the stud, such as `G2+`"),
  label: Text.describe("Label for people"),
  role: z.enum(["supply", "ground", "terminal"]).describe("What it is to the circuits that end there"),
  component: ComponentId.optional().describe("Id of the component (part) it belongs to"),
  place: TopologyNodeId.optional().describe("Id of the branch point"),
  zone: ZoneId.optional().describe("Id of the zone of the machine"),
  x: within(BOUNDS.drawing).optional().describe("Horizontal position in drawing units, to the right"),
  y: within(BOUNDS.drawing).optional().describe("Vertical position in drawing units, downwards"),
  access: Access.optional().describe("Time to reach it, what to remove, and in which states"),
  ringOhm: within(BOUNDS.ohm).optional().describe("Resistance of a ring terminal on it, in ohm"),
  part: Part.optional().describe("Ring terminal or post as a part"),
  when: When.optional().describe(
    "Option expression that says on which variants (builds) this is fitted, such as `A & !B`; absent means on all",
  ),
});

/**
 * A wire with its ends; where the data names one end only, the far end is open. Colour belongs to the wire; `net` is a label; `route`
 * lists segments from the first end to the second.
 */
export const Wire = z.strictObject({
  id: WireId.describe("Id of the wire, such as `W89`"),
  ends: z
    .tuple([AddressText, AddressText.optional()])
    .describe("Addresses of its ends; the second is left out where it is not known"),
  colour: z.string().max(24).optional().describe("Colour code of the wire (IEC 60757), such as `GN/YE`"),
  crossSectionMm2: z.number().describe(boundsText(BOUNDS.crossSectionMm2)).optional(),
  lengthMm: z.number().describe(boundsText(BOUNDS.lengthMm)).optional(),
  net: Text.optional().describe("Signal or net label"),
  harness: Text.optional().describe("Name of the harness it belongs to"),
  group: Text.optional().describe("Twisted or screened group it belongs to"),
  number: Text.min(1).optional().describe("Number of the wire as the data writes it, where its id is another"),
  type: Text.min(1).optional().describe("Type of the wire, such as FLRY-B"),
  part: Part.optional().describe("The wire or cable as a part"),
  route: z
    .array(SegmentId)
    .max(MOST_ITEMS.many)
    .optional()
    .describe("Ids of the harness segments the wire runs through, in order"),
  when: When.optional().describe(
    "Option expression that says on which variants (builds) this is fitted, such as `A & !B`; absent means on all",
  ),
  note: Text.optional().describe("Remark for people"),
  origin: Origin.optional().describe("Where the data of the wire comes from"),
});

export type TopologyNode = z.infer<typeof TopologyNode>;
export type Segment = z.infer<typeof Segment>;
export type Splice = z.infer<typeof Splice>;
export type TerminalStud = z.infer<typeof TerminalStud>;
export type Wire = z.infer<typeof Wire>;

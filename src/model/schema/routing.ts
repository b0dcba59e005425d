import { z } from "zod";
import { BOUNDS, boundsText, MOST_ITEMS, within } from "./bounds.ts";
import {
  Access,
  AddressText,
  ComponentId,
  Hazard,
  Origin,
  Part,
  PlaceId,
  SegmentId,
  SpliceId,
  StudId,
  Text,
  When,
  WireId,
  ZoneId,
} from "./common.ts";

/** A place where segments meet or end; x and y are drawing units, x to the right and y down, if the drawing is authored. */
export const Place = z.strictObject({
  id: PlaceId,
  label: Text.optional(),
  x: within(BOUNDS.drawing).optional(),
  y: within(BOUNDS.drawing).optional(),
});

// Sizes, lengths and offsets are checked after the shape, where a problem of theirs has a code of its own.
/** A stretch of harness between two places. */
export const Segment = z.strictObject({
  id: SegmentId,
  from: PlaceId,
  to: PlaceId,
  lengthMm: z.number().describe(boundsText(BOUNDS.lengthMm)),
  zone: ZoneId.optional(),
  covering: Text.optional(),
  clips: Text.optional(),
  hazards: z.array(Hazard).max(MOST_ITEMS.few).optional(),
});

/** A splice: three or more wires joined at a known place of a segment. `offsetMm` counts from place `from`. */
export const Splice = z.strictObject({
  id: SpliceId,
  label: Text.optional(),
  at: z.strictObject({ segment: SegmentId, from: PlaceId, offsetMm: z.number() }).optional(),
  zone: ZoneId.optional(),
  resistanceOhm: within(BOUNDS.ohm).optional(),
  part: Part.optional().describe("What joins the wires, such as a crimp sleeve"),
  when: When.optional(),
});

/** A stud, post, ring or ground point: bare metal that may be touched. `role` says where circuits end. */
export const Stud = z.strictObject({
  id: StudId,
  label: Text,
  role: z.enum(["supply", "ground", "terminal"]),
  component: ComponentId.optional(),
  place: PlaceId.optional(),
  zone: ZoneId.optional(),
  x: within(BOUNDS.drawing).optional(),
  y: within(BOUNDS.drawing).optional(),
  access: Access.optional(),
  ringOhm: within(BOUNDS.ohm).optional(),
  part: Part.optional().describe("Ring terminal or post as a part"),
  when: When.optional(),
});

/**
 * A wire with its ends; where the data names one end only, the far end is open. Colour belongs to the wire; `net` is a label; `route`
 * lists segments from the first end to the second.
 */
export const Wire = z.strictObject({
  id: WireId,
  ends: z.tuple([AddressText, AddressText.optional()]),
  colour: z.string().max(24).optional(),
  crossSectionMm2: z.number().describe(boundsText(BOUNDS.crossSectionMm2)).optional(),
  lengthMm: z.number().describe(boundsText(BOUNDS.lengthMm)).optional(),
  net: Text.optional(),
  harness: Text.optional(),
  group: Text.optional(),
  number: Text.min(1).optional().describe("Number of the wire as the data writes it, where its id is another"),
  type: Text.min(1).optional().describe("Type of the wire, such as FLRY-B"),
  part: Part.optional().describe("The wire or cable as a part"),
  route: z.array(SegmentId).max(MOST_ITEMS.many).optional(),
  when: When.optional(),
  note: Text.optional(),
  origin: Origin.optional(),
});

export type Place = z.infer<typeof Place>;
export type Segment = z.infer<typeof Segment>;
export type Splice = z.infer<typeof Splice>;
export type Stud = z.infer<typeof Stud>;
export type Wire = z.infer<typeof Wire>;

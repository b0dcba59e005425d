import { z } from "zod";
import { BOUNDS, MOST_ITEMS, within } from "./bounds.ts";
import { Access, ComponentId, ConnectorId, LocalId, Origin, Part, PlaceId, Text, When, ZoneId } from "./common.ts";

/** What is fitted in one cavity of a half; a cavity that is fitted in several ways, on several builds, is listed once for each. */
export const FittedCavity = z.strictObject({
  cavity: LocalId.describe("Id of the cavity"),
  terminal: Part.optional().describe("Terminal in the cavity"),
  seal: Part.optional().describe("Seal around the wire in the cavity"),
  plug: Part.optional().describe("Plug that closes the cavity instead of a wire"),
});

/** Most cavities of a connector. */
const MOST_CAVITIES = 2000;

/**
 * One half of a connector. `name` is a short way to write it (`XC1m` for `XC1.m`). At most two halves are fitted in any build; the
 * two that are fitted mate. `cavities` lists the cavities this half really has, if not all.
 */
export const Half = z.strictObject({
  id: LocalId,
  name: LocalId.optional(),
  label: Text.optional(),
  contacts: z.enum(["pins", "sockets", "studs", "tabs", "screws"]).optional(),
  cavities: z.array(LocalId).max(MOST_CAVITIES).optional(),
  part: Part.optional().describe("Housing of the half"),
  fitted: z
    .array(FittedCavity)
    .max(2 * MOST_CAVITIES)
    .optional()
    .describe("What is fitted in the cavities of the half"),
  when: When.optional(),
});

/** One cavity: its place on the face in grid steps (x right, y down, in the named view), terminal size, and what is known of it. */
export const Cavity = z.strictObject({
  id: LocalId,
  x: within(BOUNDS.grid),
  y: within(BOUNDS.grid),
  terminalMm: within(BOUNDS.terminalMm).optional(),
  sealed: z.boolean().optional(),
  resistanceOhm: within(BOUNDS.ohm).optional(),
  note: Text.optional(),
  origin: Origin.optional(),
});

/** How the cavity coordinates are to be read: which face is seen, and where key and latch sit in that view. */
export const Face = z.strictObject({
  view: z.enum(["wire-side", "mating-side"]),
  ofHalf: LocalId,
  shape: z.enum(["rectangular", "round"]),
  latch: z.enum(["top", "bottom", "left", "right", "none"]),
  key: z.enum(["top", "bottom", "left", "right", "none"]),
});

/**
 * What may be done at a connector, as the maker of the document allows it: `unplug`, `front-probe` (opened, harness half, matching terminal),
 * `adapter` (in line), `mating-adapter` (free diagnostic connector), `screw` (tip on a screw head). The safety rules only narrow this further.
 */
export const Permit = z.enum(["unplug", "front-probe", "adapter", "mating-adapter", "screw"]);

/**
 * A connector: a device connector has halves `harness` and `device`, the latter being the terminals of `component`. Without `sealed`
 * or `permits` that is not known: the worst is taken, and nothing is permitted.
 */
export const Connector = z.strictObject({
  id: ConnectorId,
  label: Text,
  kind: z.enum(["device", "inline", "pass-through", "socket", "ring-stack", "diagnostic", "terminator"]),
  component: ComponentId.optional(),
  halves: z.array(Half).min(1).max(8),
  face: Face,
  cavities: z.array(Cavity).min(1).max(MOST_CAVITIES),
  sealed: z.boolean().optional(),
  contactOhm: within(BOUNDS.ohm).optional(),
  zone: ZoneId.optional(),
  place: PlaceId.optional(),
  access: Access.optional(),
  permits: z.array(Permit).max(MOST_ITEMS.few).optional(),
  note: Text.optional(),
  when: When.optional(),
});

/** Whether the document permits something at a connector; what it does not say is not permitted. */
export function isPermittedAt({ permits }: Pick<Connector, "permits">, permit: Permit): boolean {
  return permits?.includes(permit) ?? false;
}

export type FittedCavity = z.infer<typeof FittedCavity>;
export type Half = z.infer<typeof Half>;
export type Cavity = z.infer<typeof Cavity>;
export type Face = z.infer<typeof Face>;
export type Permit = z.infer<typeof Permit>;
export type Connector = z.infer<typeof Connector>;

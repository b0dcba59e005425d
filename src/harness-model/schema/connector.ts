import { z } from "zod";
import { BOUNDS, MOST_ITEMS, within } from "./bounds.ts";
import {
  Access,
  ComponentId,
  ConnectorId,
  LocalId,
  Origin,
  Part,
  TopologyNodeId,
  Text,
  When,
  ZoneId,
} from "./common.ts";

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
export const ConnectorSide = z.strictObject({
  id: LocalId.describe("Id, unique in its connector"),
  name: LocalId.optional().describe("Short name, such as `XC1m` for `XC1.m`"),
  label: Text.optional().describe("Label for people"),
  contacts: z.enum(["pins", "sockets", "studs", "tabs", "screws"]).optional().describe("Sort of contacts"),
  cavities: z
    .array(LocalId)
    .max(MOST_CAVITIES)
    .optional()
    .describe("Ids of the cavities this side really has; absent means all"),
  part: Part.optional().describe("Housing of this side"),
  fitted: z
    .array(FittedCavity)
    .max(2 * MOST_CAVITIES)
    .optional()
    .describe("Parts fitted in the cavities of this side"),
  when: When.optional().describe(
    "Option expression that says on which variants (builds) this is fitted, such as `A & !B`; absent means on all",
  ),
});

/** One cavity: its place on the face in grid steps (x right, y down, in the named view), terminal size, and what is known of it. */
export const Cavity = z.strictObject({
  id: LocalId.describe("Id as moulded on the connector"),
  x: within(BOUNDS.grid).describe("Column on the face in grid steps, to the right"),
  y: within(BOUNDS.grid).describe("Row on the face in grid steps, downwards"),
  terminalMm: within(BOUNDS.terminalMm).optional().describe("Width of the terminal in mm"),
  sealed: z.boolean().optional().describe("Whether the cavity is sealed; absent means as the connector"),
  resistanceOhm: within(BOUNDS.ohm).optional().describe("Resistance of the mated contact pair, in ohm"),
  note: Text.optional().describe("Remark for people"),
  origin: Origin.optional().describe("Where the data of the cavity comes from"),
});

/** How the cavity coordinates are to be read: which face is seen, and where key and latch sit in that view. */
export const Face = z.strictObject({
  view: z
    .enum(["wire-side", "mating-side"])
    .describe("Which face the positions show: wire-entry view or mating-face view"),
  ofSide: LocalId.describe("Id of the side that is seen"),
  shape: z.enum(["rectangular", "round"]).describe("Outline of the face"),
  latch: z.enum(["top", "bottom", "left", "right", "none"]).describe("Where the lock is"),
  key: z.enum(["top", "bottom", "left", "right", "none"]).describe("Where the keying is"),
});

/**
 * What may be done at a connector, as the maker of the document allows it: `unplug`, `front-probe` (opened, harness half, matching terminal),
 * `adapter` (in line), `mating-adapter` (free diagnostic connector), `screw` (tip on a screw head). The safety rules only narrow this further.
 */
export const Permit = z.enum(["unplug", "front-probe", "adapter", "mating-adapter", "screw"]);

/**
 * A connector: a device connector has sides `harness` and `device`, the latter being the terminals of `component`. Without `sealed`
 * or `permits` that is not known: the worst is taken, and nothing is permitted.
 */
export const Connector = z.strictObject({
  id: ConnectorId.describe("Id of the connector, such as `A1.X1`"),
  label: Text.describe("Label for people"),
  kind: z
    .enum(["component", "inline", "pass-through", "socket", "ring-terminals", "diagnostic", "terminator"])
    .describe("Sort of connector"),
  component: ComponentId.optional().describe("Id of the component whose terminals it has"),
  sides: z.array(ConnectorSide).min(1).max(8).describe("Sides of the connector; two of them mate"),
  face: Face.describe("How to read the positions of the cavities"),
  cavities: z.array(Cavity).min(1).max(MOST_CAVITIES).describe("Cavities"),
  sealed: z.boolean().optional().describe("Whether it is sealed; absent means not known"),
  contactOhm: within(BOUNDS.ohm).optional().describe("Resistance of a mated contact pair, in ohm"),
  zone: ZoneId.optional().describe("Id of the zone of the machine"),
  place: TopologyNodeId.optional().describe("Id of the branch point"),
  access: Access.optional().describe("Time to reach it, what to remove, and in which states"),
  permits: z
    .array(Permit)
    .max(MOST_ITEMS.few)
    .optional()
    .describe("Work that is permitted at the connector; what is not listed is not permitted"),
  note: Text.optional().describe("Remark for people"),
  when: When.optional().describe(
    "Option expression that says on which variants (builds) this is fitted, such as `A & !B`; absent means on all",
  ),
});

/** Whether the document permits something at a connector; what it does not say is not permitted. */
export function isPermittedAt({ permits }: Pick<Connector, "permits">, permit: Permit): boolean {
  return permits?.includes(permit) ?? false;
}

export type FittedCavity = z.infer<typeof FittedCavity>;
export type ConnectorSide = z.infer<typeof ConnectorSide>;
export type Cavity = z.infer<typeof Cavity>;
export type Face = z.infer<typeof Face>;
export type Permit = z.infer<typeof Permit>;
export type Connector = z.infer<typeof Connector>;

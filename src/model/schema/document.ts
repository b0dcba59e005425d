import { z } from "zod";
import { MOST_ITEMS } from "./bounds.ts";
import { Statement } from "./common.ts";
import { Component } from "./element.ts";
import { Connector } from "./connector.ts";
import { About, Adapter, Build, Caution, Code, Net, Option, State, System, Zone } from "./machine.ts";
import { Place, Segment, Splice, Stud, Wire } from "./routing.ts";

/** The format name every harness document carries. */
export const FORMAT_NAME = "ohmward-harness";
/** The newest document version this program reads and the one it writes. */
export const FORMAT_VERSION = 2;

/** Every check of what is fitted runs once a build, so their number is bounded. */
const MOST_BUILDS = 500;

/** A whole harness document, `*.ohm.json`. */
export const HarnessDocument = z.strictObject({
  format: z.literal(FORMAT_NAME),
  version: z.literal(FORMAT_VERSION),
  $schema: z.string().max(600).optional(),
  about: About,
  system: System,
  options: z.array(Option).max(MOST_ITEMS.few),
  builds: z.array(Build).min(1).max(MOST_BUILDS),
  states: z.array(State).max(MOST_ITEMS.few),
  zones: z.array(Zone).max(MOST_ITEMS.some),
  places: z.array(Place).max(MOST_ITEMS.many),
  segments: z.array(Segment).max(MOST_ITEMS.many),
  components: z.array(Component).max(MOST_ITEMS.many),
  connectors: z.array(Connector).max(MOST_ITEMS.many),
  splices: z.array(Splice).max(MOST_ITEMS.many),
  studs: z.array(Stud).max(MOST_ITEMS.many),
  nets: z.array(Net).max(MOST_ITEMS.many),
  wires: z.array(Wire).max(MOST_ITEMS.many),
  adapters: z.array(Adapter).max(MOST_ITEMS.some),
  codes: z.array(Code).max(MOST_ITEMS.some),
  cautions: z.array(Caution).max(MOST_ITEMS.some),
  statements: z.array(Statement).max(MOST_ITEMS.many).optional(),
});

export type HarnessDocument = z.infer<typeof HarnessDocument>;

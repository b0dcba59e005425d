import { z } from "zod";
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
  options: z.array(Option),
  builds: z.array(Build).min(1).max(MOST_BUILDS),
  states: z.array(State),
  zones: z.array(Zone),
  places: z.array(Place),
  segments: z.array(Segment),
  components: z.array(Component),
  connectors: z.array(Connector),
  splices: z.array(Splice),
  studs: z.array(Stud),
  nets: z.array(Net),
  wires: z.array(Wire),
  adapters: z.array(Adapter),
  codes: z.array(Code),
  cautions: z.array(Caution),
  statements: z.array(Statement).optional(),
});

export type HarnessDocument = z.infer<typeof HarnessDocument>;

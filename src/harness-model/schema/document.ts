import { z } from "zod";
import { MOST_ITEMS } from "./bounds.ts";
import { Statement } from "./common.ts";
import { Component } from "./element.ts";
import { Connector } from "./connector.ts";
import { About, Adapter, Build, Caution, Code, Net, Option, State, System, Zone } from "./machine.ts";
import { TopologyNode, Segment, Splice, TerminalStud, Wire } from "./routing.ts";

/** The format name every harness document carries. */
export const FORMAT_NAME = "ohmward-harness";
/** The newest document version this program reads and the one it writes. */
export const FORMAT_VERSION = 3;

/** Every check of what is fitted runs once a build, so their number is bounded. */
const MOST_BUILDS = 500;

/** A whole harness document, `*.ohm.json`. */
export const HarnessDocument = z.strictObject({
  format: z.literal(FORMAT_NAME).describe("Name of the format"),
  version: z.literal(FORMAT_VERSION).describe("Version of the format"),
  $schema: z.string().max(600).optional().describe("Address of this schema, for editors"),
  about: About.describe("What the document is and where it comes from"),
  system: System.describe("Electrical system of the machine"),
  options: z.array(Option).max(MOST_ITEMS.few).describe("Options the machine may be ordered with"),
  builds: z.array(Build).min(1).max(MOST_BUILDS).describe("Variants (builds): named sets of options"),
  states: z.array(State).max(MOST_ITEMS.few).describe("States of the machine; the first one is taken if none is given"),
  zones: z.array(Zone).max(MOST_ITEMS.some).describe("Zones of the machine"),
  topologyNodes: z.array(TopologyNode).max(MOST_ITEMS.many).describe("Branch points of the harness"),
  segments: z.array(Segment).max(MOST_ITEMS.many).describe("Harness segments"),
  components: z.array(Component).max(MOST_ITEMS.many).describe("Parts of the machine with terminals"),
  connectors: z.array(Connector).max(MOST_ITEMS.many).describe("Connectors"),
  splices: z.array(Splice).max(MOST_ITEMS.many).describe("Splices"),
  terminalStuds: z.array(TerminalStud).max(MOST_ITEMS.many).describe("Terminal studs and ground points"),
  nets: z.array(Net).max(MOST_ITEMS.many).describe("Nets"),
  wires: z.array(Wire).max(MOST_ITEMS.many).describe("Wires"),
  adapters: z.array(Adapter).max(MOST_ITEMS.some).describe("Test adapters"),
  codes: z.array(Code).max(MOST_ITEMS.some).describe("Diagnostic trouble codes"),
  cautions: z.array(Caution).max(MOST_ITEMS.some).describe("Warnings that answers carry"),
  statements: z
    .array(Statement)
    .max(MOST_ITEMS.many)
    .optional()
    .describe("Statements of people where the data left it open"),
});

export type HarnessDocument = z.infer<typeof HarnessDocument>;

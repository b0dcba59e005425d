// Floor 1: the harness document, its checks, and the graph made from it.
export {
  buildAddressBook,
  sideKey,
  lookUpPoint,
  pointKey,
  type AddressBook,
  type AddressUse,
  type Point,
  endAddresses,
} from "./address-book.ts";
export { isBattery, mainTerminals, namedTerminal, nodeAt, supplyTerminals } from "./supply-terminals.ts";
export { partOfName, type NamedPart } from "./part-names.ts";
export { COLOURS, describeColour, readColour, type Colour, type WireColour } from "./colour.ts";
export { generatedFiles } from "./document-json-schema.ts";
export { fitBuild } from "./fit-build.ts";
export { makeFitting, type Fitting } from "./fitting.ts";
export { buildGraphIndex, type GraphIndex } from "./graph-index.ts";
export type { FittedItems, Harness } from "./harness.ts";
export { harnessGraph, type EdgeAttributes, type HarnessGraph, type NodeAttributes } from "./harness-graph.ts";
export type { HarnessEdge, HarnessNode } from "./harness-parts.ts";
export { findJsonFault, type JsonFault } from "./json-fault.ts";
export { jsonRefusalText, parseJson, type JsonRefusal } from "./parse-json.ts";
export { documentMigrations, inWordsOfVersion2, migrateDocument, type Migration } from "./migrations.ts";
export { openHarness, type OpenedHarness, type OpenLimits } from "./open-harness.ts";
export {
  evaluateOptionExpression,
  optionsNamed,
  parseOptionExpression,
  type OptionExpression,
  type OptionExpressionFault,
} from "./option-expression.ts";
export { documentPath, problem, type Problem, type ProblemPlace } from "./problem.ts";
export { problemTexts, type ProblemCode, type ProblemFacts } from "./problem-texts.ts";
export { schemaFile, type SchemaHead } from "./schema-file.ts";
export { BOUNDS, boundsText, isWithin, within, type Bounds } from "./schema/bounds.ts";
export { isKeyOn, NetKind } from "./schema/machine.ts";
export { FORMAT_NAME, FORMAT_VERSION, HarnessDocument } from "./schema/document.ts";
export type * from "./schema/common.ts";
export {
  isPermittedAt,
  type Cavity,
  type Connector,
  type Face,
  type ConnectorSide,
  type Permit,
} from "./schema/connector.ts";
export type { Component, Element } from "./schema/element.ts";
export type { Adapter, Build, Caution, Code, Net, State, Zone } from "./schema/machine.ts";
export type { TopologyNode, Segment, Splice, TerminalStud, Wire } from "./schema/routing.ts";

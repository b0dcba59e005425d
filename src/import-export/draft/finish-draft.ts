import {
  FORMAT_NAME,
  FORMAT_VERSION,
  openHarness,
  makeFitting,
  optionsNamed,
  parseOptionExpression,
} from "../../harness-model/index.ts";
import type { ReadResult } from "../format-reader.ts";
import { importProblem, type ImportPlace, carryProblem, type ImportProblem } from "../import-problem.ts";
import {
  cut,
  type DocumentInput,
  type SystemInput,
  type DraftParts,
  type DraftStart,
  type ConnectorInput,
  type PartialConnector,
  type CavityInput,
  type LooseCavity,
  type Input,
} from "./draft-parts.ts";
import { defined, err, naturalOrder, ok } from "../../base/index.ts";

/** The system that is assumed: the voltage of light vehicles, fine-stranded copper, a warm workshop. */
const ASSUMED_SYSTEM: SystemInput = { nominalVolt: 12, wireStandard: "iec-60228-class-5", temperatureC: 20 };
/** States that any machine has; what its switches do in them is not known. */
const ASSUMED_STATES: readonly Input<"states">[] = [
  { id: "OFF", label: "Key off, battery disconnected", conditions: ["battery-disconnected"] },
  { id: "ON", label: "Key on", conditions: ["key-on"] },
];

/**
 * Completes a draft, makes the document, and has the checks of the model judge it.
 *
 * @returns The document with warnings, or every problem if one of them is an error. Problems of the model carry the place in the file
 * of the thing they concern.
 */
export function finishDraft(start: DraftStart, parts: DraftParts): ReadResult {
  cutTexts(parts);
  const connectors = completeConnectors(parts);
  completeOptions(parts, connectors);
  completeNets(parts);
  const blank = parts.components.filter((component) => component.elements.length === 0).length;
  if (blank > 0) parts.problems.push(importProblem("insides-unknown", {}, { components: blank }));
  if (start.system === undefined)
    parts.problems.push(importProblem("system-assumed", {}, { volt: ASSUMED_SYSTEM.nominalVolt }));
  const { options, builds, states, zones, topologyNodes, segments, components, splices, terminalStuds, nets, wires } =
    parts;
  const document: DocumentInput = {
    format: FORMAT_NAME,
    version: FORMAT_VERSION,
    about: {
      title: cut(start.title ?? start.file, MOST_TEXT_CHARACTERS),
      machine: cut(start.machine ?? "Not stated", MOST_TEXT_CHARACTERS),
      source: cut(start.source ?? `Read from ${start.file}`, MOST_TEXT_CHARACTERS),
      ...defined({ notes: notesOf(start, parts) }),
    },
    system: start.system ?? ASSUMED_SYSTEM,
    ...{ options, builds, zones, topologyNodes, segments, components, connectors, splices, terminalStuds, nets, wires },
    ...{ states: states.length > 0 ? states : [...ASSUMED_STATES], adapters: [], codes: [], cautions: [] },
  };
  return judgeDocument(document, parts.problems, (path) => placeOf(path, document, parts));
}

/** Most remarks that a document is given; the texts of a large file are put together. */
const MOST_NOTES = 400;

function notesOf(start: DraftStart, parts: DraftParts): string[] | undefined {
  const notes = [...(start.notes ?? []), ...parts.notes].map((note) => cut(note, MOST_TEXT_CHARACTERS));
  if (notes.length <= MOST_NOTES) return notes.length === 0 ? undefined : notes;
  const packed: string[] = [];
  for (const note of notes) {
    const last = packed.at(-1);
    const joined = `${last ?? ""}\n${note}`;
    if (last !== undefined && joined.length <= MOST_TEXT_CHARACTERS) packed[packed.length - 1] = joined;
    else packed.push(note);
  }
  if (packed.length <= MOST_NOTES) return packed;
  parts.problems.push(importProblem("notes-cut", {}, { kept: MOST_NOTES, notes: packed.length }));
  return packed.slice(0, MOST_NOTES);
}

/** Where in the file the thing stands that a way into the document leads to. */
function placeOf(path: string, document: DocumentInput, parts: DraftParts): ImportPlace | undefined {
  const [, name = "", at, cavity] = /^(\w+)\[(\d+)\](?:\.cavities\[(\d+)\])?/u.exec(path) ?? [];
  const list: unknown = new Map<string, unknown>(Object.entries(document)).get(name);
  const item: unknown = Array.isArray(list) ? list[Number(at)] : undefined;
  const inner = cavity === undefined ? undefined : document.connectors[Number(at)]?.cavities[Number(cavity)];
  const outer = typeof item === "object" && item !== null ? parts.found.get(item) : undefined;
  return (inner && parts.found.get(inner)) ?? outer;
}

/**
 * Has the checks of the model judge a document that was made from a file.
 *
 * @param before Problems found while it was made.
 * @param placeOf Where in the file the thing stands that a way into the document leads to.
 */
export function judgeDocument(
  document: object,
  before: readonly ImportProblem[],
  placeOf: (path: string) => ImportPlace | undefined,
): ReadResult {
  // Through the text, because the one door into the model takes a text and so nothing can slip past its checks.
  const opened = openHarness(JSON.stringify(document));
  const found = opened.ok ? opened.value.warnings : opened.error;
  const problems = [...before, ...found.map((problem) => carryProblem(problem, placeOf(problem.at.path)))];
  if (!opened.ok || problems.some((problem) => problem.severity === "error")) return err(problems);
  return ok({ document: opened.value.document, warnings: problems });
}

const LAYOUT_NOTE = "Face not known. Cavities are drawn in order of their numbers.";

/**
 * Completes the connectors of a draft: halves and a component for device connectors, a face, places of cavities, what is permitted.
 * Each sort of assumption is reported once, with a count.
 */
function completeConnectors(parts: DraftParts): ConnectorInput[] {
  const known = new Set(parts.components.map((component) => component.id));
  const before = known.size;
  let layouts = 0;
  const connectors = parts.connectors.map((loose) => {
    const kind = loose.kind ?? (loose.sides.length > 0 && !hasSide(loose, "device") ? "inline" : "component");
    const sides = completeSides(loose, kind);
    const isOfDevice = sides.some((side) => side.id === "device");
    const component = loose.component ?? (isOfDevice ? componentOf(loose, parts, known) : undefined);
    joinInside(parts, loose, component);
    const { cavities, isAssumed } = placedCavities(loose, parts);
    const isFaceAssumed = isAssumed || loose.face === undefined;
    if (isFaceAssumed) layouts += 1;
    const ofSide = sides[0]?.id ?? "harness";
    const face = loose.face ?? { view: "wire-side", ofSide, shape: "rectangular", latch: "none", key: "none" };
    const note = loose.note ?? (isFaceAssumed ? LAYOUT_NOTE : undefined);
    const made: ConnectorInput = { ...loose, kind, sides, face, cavities, ...defined({ component, note }) };
    movePlace(parts, loose, made);
    return made;
  });
  const components = known.size - before;
  if (layouts > 0) parts.problems.push(importProblem("layout-assumed", {}, { connectors: layouts }));
  if (components > 0) parts.problems.push(importProblem("component-assumed", {}, { components }));
  return connectors;
}

/** The component that a connector of a device belongs to: the one its id begins with, if there is one, else a new one. */
function componentOf(connector: PartialConnector, parts: DraftParts, known: Set<string>): string {
  // What stands before the last dot is the component by the usual way of naming.
  const owner = /^(.+)\.[^.]*$/u.exec(connector.id)?.[1];
  if (owner !== undefined && known.has(owner)) return owner;
  const { id } = parts.ids.give("component", owner ?? `${connector.id}-unit`);
  known.add(id);
  const { zone, when } = connector;
  const label = connector.label === connector.id ? id : connector.label;
  const made = { id, label, kind: "other" as const, elements: [], ...defined({ zone, when }) };
  parts.components.push(made);
  movePlace(parts, connector, made);
  return id;
}

/** Gives a component the bars that join cavities of its connector inside. */
function joinInside(parts: DraftParts, connector: PartialConnector, owner: string | undefined): void {
  const component = parts.components.find(({ id }) => id === owner);
  for (const group of parts.joinedInside.get(connector) ?? []) {
    group.slice(1).forEach((address, at) => {
      const id = `B${(component?.elements.length ?? 0) + 1}`;
      component?.elements.push({ kind: "bar", id, between: [group[at] ?? address, address] });
    });
  }
}

function placedCavities(connector: PartialConnector, parts: DraftParts): ReturnType<typeof layOutCavities> {
  const laid = layOutCavities(connector.cavities);
  const before = new Map(connector.cavities.map((cavity) => [cavity.id, cavity]));
  for (const cavity of laid.cavities) movePlace(parts, before.get(cavity.id), cavity);
  return laid;
}

/** What is made of a thing stands where that stood in the file. */
function movePlace(parts: DraftParts, from: object | undefined, to: object): void {
  const place = from && parts.found.get(from);
  if (place) parts.found.set(to, place);
}

function hasSide(connector: PartialConnector, id: string): boolean {
  return connector.sides.some((side) => side.id === id);
}

function completeSides(connector: PartialConnector, kind: ConnectorInput["kind"]): ConnectorInput["sides"] {
  if (kind !== "component" && connector.sides.length > 0) return connector.sides;
  const missing = ["harness", "device"].filter((id) => !hasSide(connector, id));
  return [...connector.sides, ...missing.map((id) => ({ id }))];
}

/** Most cavities in one row of an assumed face. */
const MOST_IN_ROW = 20;

/**
 * Gives every cavity a place. If each has one already, those stand. Otherwise all are laid in rows, in the order people count: up to
 * five in one row, then two rows, more where rows would grow too long.
 *
 * Common practice, no source: the real face may be numbered in any way, so whoever shows it must say that it is assumed.
 *
 * @returns The cavities with topologyNodes, in the order people count if places were assumed, and whether they were.
 */
export function layOutCavities(cavities: readonly LooseCavity[]): { cavities: CavityInput[]; isAssumed: boolean } {
  const placed = cavities.flatMap(({ x, y, ...cavity }) =>
    x === undefined || y === undefined ? [] : [{ ...cavity, x, y }],
  );
  if (placed.length === cavities.length) return { cavities: placed, isAssumed: false };
  const rows = cavities.length <= 5 ? 1 : Math.max(2, Math.ceil(cavities.length / MOST_IN_ROW));
  const columns = Math.ceil(cavities.length / rows);
  const sorted = cavities.toSorted((first, second) => naturalOrder(first.id, second.id));
  const laid = sorted.map((cavity, at) => ({ ...cavity, x: at % columns, y: Math.floor(at / columns) }));
  return { cavities: laid, isAssumed: true };
}

/** Most builds that are made where a file lists none. */
const MOST_BUILDS = 40;

/**
 * Lists the options that expressions name, and makes builds where the file has none: one without any option, then one for each
 * expression that no build so far fits, with just the options it names. Combinations beyond those are for a person to add.
 */
function completeOptions(parts: DraftParts, connectors: readonly ConnectorInput[]): void {
  const listed = new Set(parts.options.map((option) => option.id));
  const expressions = usedExpressions(parts, connectors);
  for (const text of expressions) {
    const parsed = parseOptionExpression(text);
    if (!parsed.ok) continue;
    for (const option of optionsNamed(parsed.value)) {
      if (listed.has(option)) continue;
      listed.add(option);
      parts.options.push({ id: option, label: option });
      parts.problems.push(importProblem("option-added", {}, { option }));
    }
  }
  if (parts.builds.length > 0) return;
  parts.builds.push(...assumedBuilds(expressions));
  if (parts.builds.length > 1) {
    const builds = parts.builds.map((build) => build.id).join(", ");
    parts.problems.push(importProblem("builds-assumed", {}, { builds }));
  }
}

function usedExpressions(parts: DraftParts, connectors: readonly ConnectorInput[]): ReadonlySet<string> {
  const expressions = new Set<string>();
  const take = (item: { readonly when?: string | undefined }): void => {
    if (item.when !== undefined) expressions.add(item.when);
  };
  [...parts.wires, ...parts.splices, ...parts.terminalStuds, ...parts.components, ...connectors].forEach(take);
  for (const component of parts.components) component.elements.forEach(take);
  for (const connector of connectors) connector.sides.forEach(take);
  return expressions;
}

function assumedBuilds(expressions: ReadonlySet<string>): readonly Input<"builds">[] {
  const builds: Input<"builds">[] = [{ id: "base", label: "Without any option", options: [] }];
  const isFittedIn = (text: string, options: readonly string[]): boolean =>
    // Only the options of a build decide what is fitted; the rest of it is for people.
    makeFitting({ id: "", label: "", options } as unknown as Parameters<typeof makeFitting>[0])(text);
  for (const text of expressions) {
    const parsed = parseOptionExpression(text);
    if (!parsed.ok || builds.length >= MOST_BUILDS) continue;
    if (builds.some((build) => isFittedIn(text, build.options))) continue;
    const options = optionsNamed(parsed.value);
    const choices = [[...options], ...options.map((option) => [option])];
    const fitting = choices.find((choice) => isFittedIn(text, choice));
    if (!fitting) continue;
    const id = fitting.join("+").slice(0, 64);
    if (!builds.some((build) => build.id === id))
      builds.push({ id, label: `With ${fitting.join(", ")}`, options: fitting });
  }
  return builds;
}

/** Lists all labels of wires once any net is listed; what a net is for stays open where the file does not say it. */
function completeNets(parts: DraftParts): void {
  if (parts.nets.length === 0) return;
  const listed = new Set(parts.nets.map((net) => net.id));
  const unlisted = new Set(parts.wires.flatMap(({ net }) => (net === undefined || listed.has(net) ? [] : [net])));
  parts.nets.push(...[...unlisted].map((id) => ({ id })));
  if (unlisted.size > 0) parts.problems.push(importProblem("net-kinds-missing", {}, { nets: unlisted.size }));
}

/** Longest label or sentence a document takes, in characters. */
export const MOST_TEXT_CHARACTERS = 600;

/** Names of fields that hold words of the file. */
const FIELDS = ["label", "note", "net", "harness", "group", "covering", "clips"] as const;

type Worded = { [Field in (typeof FIELDS)[number]]?: string | undefined };

/** Cuts what is too long for a document, and says so: the texts of a file may be of any length. */
function cutTexts(parts: DraftParts): void {
  const mend = (item: Worded): void => {
    for (const field of FIELDS) {
      const text = item[field];
      if (text === undefined || text.length <= MOST_TEXT_CHARACTERS) continue;
      item[field] = cut(text, MOST_TEXT_CHARACTERS);
      const facts = { what: field, length: text.length, limit: MOST_TEXT_CHARACTERS };
      parts.problems.push(importProblem("text-cut", parts.found.get(item) ?? {}, facts));
    }
  };
  const { wires, splices, terminalStuds, components, connectors, options, builds, zones, topologyNodes, segments } =
    parts;
  for (const list of [
    wires,
    splices,
    terminalStuds,
    components,
    connectors,
    options,
    builds,
    zones,
    topologyNodes,
    segments,
  ]) {
    list.forEach(mend);
  }
  for (const connector of connectors) {
    connector.cavities.forEach(mend);
    connector.sides.forEach(mend);
  }
  // A label of a net is its id, so it has to be cut as the wires have it.
  for (const net of parts.nets) net.id = cut(net.id, MOST_TEXT_CHARACTERS);
}

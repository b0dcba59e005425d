import { FORMAT_NAME, FORMAT_VERSION } from "../../model/index.ts";
import type { ReadResult } from "../format-reader.ts";
import { importProblem, type ImportPlace } from "../import-problem.ts";
import { cut } from "./clean-id.ts";
import { completeConnectors } from "./complete-connectors.ts";
import { completeNets } from "./complete-nets.ts";
import { completeOptions } from "./complete-options.ts";
import { cutTexts, MOST_TEXT_CHARACTERS } from "./cut-texts.ts";
import type { DocumentInput, StateInput, SystemInput } from "./draft-types.ts";
import type { DraftParts, DraftStart } from "./draft-parts.ts";
import { judgeDocument } from "./judge-document.ts";

/** The system that is assumed: the voltage of light vehicles, fine-stranded copper, a warm workshop. */
const ASSUMED_SYSTEM: SystemInput = { nominalVolt: 12, wireStandard: "iec-60228-class-5", temperatureC: 20 };
/** States that any machine has; what its switches do in them is not known. */
const ASSUMED_STATES: readonly StateInput[] = [
  { id: "OFF", label: "Key off, supply disconnected", conditions: ["isolated"] },
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
  const document: DocumentInput = {
    format: FORMAT_NAME,
    version: FORMAT_VERSION,
    about: {
      title: cut(start.title ?? start.file, MOST_TEXT_CHARACTERS),
      machine: cut(start.machine ?? "Not stated", MOST_TEXT_CHARACTERS),
      source: cut(start.source ?? `Read from ${start.file}`, MOST_TEXT_CHARACTERS),
      ...(start.notes === undefined ? {} : { notes: start.notes.map((note) => cut(note, MOST_TEXT_CHARACTERS)) }),
    },
    system: start.system ?? ASSUMED_SYSTEM,
    options: parts.options,
    builds: parts.builds,
    states: parts.states.length > 0 ? parts.states : [...ASSUMED_STATES],
    zones: parts.zones,
    places: parts.places,
    segments: parts.segments,
    components: parts.components,
    connectors,
    splices: parts.splices,
    studs: parts.studs,
    nets: parts.nets,
    wires: parts.wires,
    adapters: [],
    codes: [],
    cautions: [],
  };
  return judgeDocument(document, parts.problems, (path) => placeOf(path, document, parts));
}

/** Where in the file the thing stands that a way into the document leads to. */
function placeOf(path: string, document: DocumentInput, parts: DraftParts): ImportPlace | undefined {
  const match = /^(\w+)\[(\d+)\](?:\.cavities\[(\d+)\])?/u.exec(path);
  const list = match && new Map<string, unknown>(Object.entries(document)).get(match[1] ?? "");
  if (!match || !Array.isArray(list)) return undefined;
  const things: readonly unknown[] = list;
  const thing = things[Number(match[2])];
  const cavity = match[3] === undefined ? undefined : document.connectors[Number(match[2])]?.cavities[Number(match[3])];
  if (cavity) return parts.found.get(cavity) ?? (isObject(thing) ? parts.found.get(thing) : undefined);
  return isObject(thing) ? parts.found.get(thing) : undefined;
}

function isObject(value: unknown): value is object {
  return typeof value === "object" && value !== null;
}

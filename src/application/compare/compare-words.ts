import { formatCrossSectionMm2, formatLengthMm, formatQuantity } from "../../base/index.ts";
import type { FieldChange, FieldValue, ItemKind } from "../../comparison/index.ts";

/** What each sort of item is called. */
export const COMPARED_NAMES: Readonly<Record<ItemKind, string>> = {
  machine: "electrical system",
  option: "option",
  build: "build",
  zone: "zone",
  "branch-point": "branch point",
  segment: "harness segment",
  net: "net",
  part: "component",
  element: "circuit element",
  "internal-node": "internal node",
  connector: "connector",
  side: "connector side",
  cavity: "cavity",
  splice: "splice",
  stud: "terminal stud",
  wire: "wire",
  state: "state",
  adapter: "test adapter",
  code: "trouble code",
  caution: "warning",
};

const FIELD_NAMES: ReadonlyMap<string, string> = new Map([
  ["crossSectionMm2", "conductor size"],
  ["between", "terminals"],
  ["at.segment", "segment"],
  ["at.from", "counted from"],
  ["at.offsetMm", "position"],
  ["place", "branch point"],
  ["when", "fitted on"],
  ["terminalMm", "terminal size"],
  ["part.number", "part number"],
  ["component", "component"],
  ["ratedAmpere", "rated current"],
]);
const UNITS: readonly (readonly [ending: string, format: (value: number) => string])[] = [
  ["Mm2", formatCrossSectionMm2],
  ["lengthMm", formatLengthMm],
  ["offsetMm", formatLengthMm],
  ["Mm", (value) => `${value} mm`],
  ["Ohm", (value) => formatQuantity(value, "Ω", 4)],
  ["Volt", (value) => formatQuantity(value, "V", 4)],
  ["Ampere", (value) => formatQuantity(value, "A", 4)],
  ["Watt", (value) => `${value} W`],
  ["Percent", (value) => `${value} %`],
  ["minutes", (value) => `${value} min`],
];

/** Fields of which only the members that differ are told. */
const LISTS: ReadonlySet<string> = new Set([
  ...["route", "settings", "points", "fits", "options", "boostedIn", "hazards", "access.states", "cavities", "fitted"],
  ...["on.zones", "on.nets", "on.components", "on.states", "resistanceByState", "needs.wakeOutputs"],
]);

/**
 * A difference of one field in words: `colour RD, was BK`. What a document leaves out is not known.
 *
 * @param change The field.
 */
export function fieldText({ field, before, after }: FieldChange): string {
  const name = FIELD_NAMES.get(field) ?? nameOf(field);
  const show = (value: FieldValue | undefined): string => (value === undefined ? "not stated" : shown(field, value));
  if (!LISTS.has(field) || (before !== undefined && after !== undefined))
    return `${name} ${show(after)}, was ${show(before)}`;
  return after === undefined ? `${name} no longer ${show(before)}` : `${name} also ${show(after)}`;
}

/** Several of a sort of item: `3 cavities`. */
export function countedName(count: number, name: string): string {
  return count === 1 ? `1 ${name}` : `${count} ${name.endsWith("y") ? `${name.slice(0, -1)}ies` : `${name}s`}`;
}

/** The name of a field without its unit, as words: `lengthMm` is `length`. */
function nameOf(field: string): string {
  const bare = field.replace(/(?<=[a-z])(?:Mm|Ohm|Volt|Ampere|Watt|Percent)$/u, "");
  return bare.replaceAll(".", " ").replaceAll(/(?<=[a-z])[A-Z]/gu, (letter) => ` ${letter.toLowerCase()}`);
}

function shown(field: string, value: FieldValue): string {
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (typeof value === "string") return value;
  const unit = UNITS.find(([ending]) => field.endsWith(ending));
  return unit ? unit[1](value) : String(value);
}

import { formatCrossSectionMm2, formatLengthMm, formatMinutes, formatNumber } from "../../base/index.ts";
import { ITEM_NAMES } from "../../connectivity/index.ts";
import type { Facts } from "../answer.ts";

/**
 * What is known of an item, as cells: sort, id, what it is, size, length or position, net, where and how long it takes to reach, numbers of wire and parts.
 *
 * @param facts The item.
 */
export function factRow(facts: Facts): readonly string[] {
  return [
    sortOf(facts),
    facts.id,
    whatItIs(facts),
    sizeOf(facts),
    lengthOf(facts),
    facts.net ?? "",
    whereItIs(facts),
    partsOf(facts),
  ];
}

/**
 * An item in few words, for a line that holds many: `W72 (PK pink, 0.5 mm², 580 mm)`, `SP11`.
 *
 * @param facts The item.
 */
export function factWords(facts: Facts): string {
  if (facts.type !== "wire") return facts.id;
  const parts = [colourOf(facts), sizeOf(facts), lengthOf(facts)].filter((part) => part !== "");
  return parts.length === 0 ? facts.id : `${facts.id} (${parts.join(", ")})`;
}

/**
 * An item with its label: `SP11 (Shared 5 V reference A)`.
 *
 * @param facts The item.
 */
export function named(facts: Facts): string {
  return facts.label === facts.id ? facts.id : `${facts.id} (${facts.label})`;
}

/** Number and type of a wire, and part numbers: `number 4711, FLRY-B, wire N 123`. */
function partsOf({ wireNumber, wireType, parts = [] }: Facts): string {
  const words = parts.map((part) => [PART_WORDS[part.what], part.number].join(" "));
  return [wireNumber === undefined ? "" : `number ${wireNumber}`, wireType ?? "", ...words]
    .filter((word) => word !== "")
    .join(", ");
}

/** What the parts of an item are called. */
export const PART_WORDS = {
  part: "part",
  wire: "wire",
  housing: "housing",
  terminal: "terminal",
  seal: "seal",
  plug: "cavity plug",
} as const;

function sortOf({ type, sort }: Facts): string {
  return type === "stud" && sort === "ground" ? "ground stud" : ITEM_NAMES[type];
}

function whatItIs(facts: Facts): string {
  if (facts.type === "wire") return colourOf(facts);
  return facts.label === facts.id ? "" : facts.label;
}

function colourOf({ colour, colourName }: Facts): string {
  return [colour, colourName].filter((part) => part !== undefined).join(" ");
}

function sizeOf({ crossSectionMm2, terminalMm, type, isSealed, sort }: Facts): string {
  if (crossSectionMm2 !== undefined) return formatCrossSectionMm2(crossSectionMm2);
  if (type === "contact" || type === "connector") {
    const terminal = terminalMm === undefined ? "" : `${formatNumber(terminalMm, 2)} mm terminal`;
    const seal = isSealed === undefined ? "" : isSealed ? "sealed" : "not sealed";
    return [terminal, seal].filter((part) => part !== "").join(", ");
  }
  return type === "wire" || type === "element" ? "" : (sort ?? "");
}

function lengthOf({ lengthMm, position }: Facts): string {
  return lengthMm === undefined ? (position ?? "") : formatLengthMm(lengthMm);
}

function whereItIs({ zone, minutes, remove }: Facts): string {
  const reach = minutes === undefined ? "" : formatMinutes(minutes);
  const parts = [zone === undefined ? "" : `zone ${zone}`, reach, remove ?? ""];
  return parts.filter((part) => part !== "").join(", ");
}

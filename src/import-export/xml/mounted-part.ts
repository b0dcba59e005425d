import { defined, readQuantity } from "../../base/index.ts";
import { importProblem, type ImportPlace } from "../import-problem.ts";
import type { Account, Origins, SourceFacts } from "./source-facts.ts";
import type {
  ElementFacts,
  FittedWith,
  SourceCavity,
  SourceElement,
  SourceFitting,
  SourcePart,
  SourceTerminal,
  SourceItem,
} from "./harness-source.ts";

/** A part mounted in a component, by its pins. */
export interface MountedPart {
  readonly name: string;
  readonly label: string;
  readonly kind: "fuse" | "relay" | "other";
  /** Rated current where the file gives it as a value. */
  readonly ratedAmpere: number | undefined;
  /** What the file says of the part in words. */
  readonly text: string;
  readonly pins: readonly { readonly number: string; readonly terminal: SourceTerminal }[];
  readonly part: SourcePart | undefined;
  readonly fitted: FittedWith;
  readonly at: ImportPlace;
  readonly madeOf: Origins;
}

/**
 * Coil resistance that is entered for a relay of which the file says nothing but its pins, in ohm: the middle of what 12 V plug-in relays
 * have, 60 to 120 ohm. Common practice, no source; every such relay is reported.
 */
const ASSUMED_COIL_OHM = 90;

/**
 * The elements of a mounted part. A fuse needs its two ends and a rating, a relay the usual terminal numbers; of anything else the inside
 * is unknown and stays open.
 *
 * Source of the terminal numbers: DIN 72552 (85 and 86 coil, 30 common, 87 make, 87a break) as used for plug-in relays.
 */
export function elementsOfPart(facts: SourceFacts, part: MountedPart): SourceElement[] {
  if (part.kind === "fuse") return fuse(facts, part);
  return part.kind === "relay" ? relay(facts, part) : unknown(facts, part, "the file gives its pins only");
}

function originsOf({ madeOf, part }: MountedPart): Origins {
  return [...madeOf, ...(part?.madeOf ?? [])];
}

function unknown(facts: SourceFacts, part: MountedPart, what: string): SourceElement[] {
  facts.report(importProblem("part-inside-unknown", part.at, { part: part.name.slice(0, 80), what }));
  facts.account.leaveOut(originsOf(part), "its inside is not known");
  return [];
}

function fuse(facts: SourceFacts, part: MountedPart): SourceElement[] {
  const [first, second] = part.pins;
  if (!first || !second || part.pins.length !== 2) return unknown(facts, part, `a fuse with ${part.pins.length} pins`);
  const common = { between: [first.terminal, second.terminal] as const, fitted: part.fitted, madeOf: originsOf(part) };
  const label = defined({ label: part.label.slice(0, 600) || undefined, part: part.part?.part });
  const ratedAmpere = ratingOf(facts, part);
  if (ratedAmpere === undefined) {
    facts.report(importProblem("fuse-rating-unknown", part.at, { fuse: part.name.slice(0, 80) }));
    return [{ element: { id: part.name, kind: "bar", ...label }, ...common }];
  }
  // Style and resistance are not in the file: the usual blade, no test windows promised.
  const rest = { resistanceOhm: 0, style: "blade" as const, testWindows: false };
  return [{ element: { id: part.name, kind: "fuse", ratedAmpere, ...rest, ...label }, ...common }];
}

function ratingOf(facts: SourceFacts, part: MountedPart): number | undefined {
  if (part.ratedAmpere !== undefined && part.ratedAmpere > 0) return part.ratedAmpere;
  const match = /(?<![\w.,])(\d{1,3}(?:[.,]\d{1,2})?)\s?A(?:mp\w*)?(?!\w)/u.exec(part.text);
  const read = readQuantity(match?.[1] ?? "", { units: ["A"] });
  if (read.kind !== "value" || read.value <= 0) return undefined;
  const ampere = read.value;
  const told = { fuse: part.name.slice(0, 80), ampere, text: part.text.slice(0, 80) };
  facts.report(importProblem("fuse-rating-from-text", part.at, told));
  return ampere;
}

function relay(facts: SourceFacts, part: MountedPart): SourceElement[] {
  const pin = (number: string): SourceTerminal | undefined =>
    part.pins.find((each) => each.number === number)?.terminal;
  const [coilFrom, coilTo, shared, make, rest] = ["86", "85", "30", "87", "87a"].map(pin);
  if (!coilFrom || !coilTo || !shared || !(make ?? rest))
    return unknown(facts, part, `its pins are numbered ${part.pins.map((each) => each.number).join(", ")}`);
  const told = { relay: part.name.slice(0, 80), coilOhm: ASSUMED_COIL_OHM };
  facts.report(importProblem("relay-read-from-pins", part.at, told));
  const common = { fitted: part.fitted, madeOf: originsOf(part) };
  const known = { ...defined({ part: part.part?.part }), resistanceOhm: ASSUMED_COIL_OHM };
  const coil: ElementFacts = { id: `${part.name}-coil`, kind: "coil", ...known };
  const elements: SourceElement[] = [{ element: coil, between: [coilFrom, coilTo], ...common }];
  for (const [form, other] of [["make", make] as const, ["break", rest] as const]) {
    if (!other) continue;
    const contact: ElementFacts = { id: `${part.name}-${form}`, kind: "contact", of: coil.id, form, resistanceOhm: 0 };
    elements.push({ element: contact, between: [shared, other], ...common });
  }
  return elements;
}

/** The bars by which a connection inside a component joins all that it names, as one piece of metal; `around` stands for no more than it. */
export function barsBetween(
  facts: SourceFacts,
  name: string,
  [first, ...others]: readonly SourceTerminal[],
  { madeOf, around = [] }: { readonly madeOf: Origins; readonly around?: Origins },
): SourceElement[] {
  if (first && others.length > 0) {
    const bar = { element: { id: `bar-${name}`, kind: "bar" as const }, fitted: undefined };
    return others.map((other) => ({ ...bar, between: [first, other], madeOf: [...madeOf, ...around] }));
  }
  facts.account.leaveOut(madeOf, "it joins nothing that is there");
  return [];
}

/** What is fitted in cavities, by the key of the cavity. */
export class Fittings {
  readonly #account: Account;
  readonly #parts = new Map<string, SourceFitting[]>();
  readonly #seals = new Map<string, Origins>();

  constructor(account: Account) {
    this.#account = account;
  }

  /** Takes what a file says is in a cavity; a seal counts also without a part of its own. */
  take(
    cavity: string,
    what: SourceFitting["what"] | undefined,
    { part, madeOf }: { readonly part: SourcePart | undefined; readonly madeOf: Origins },
  ): void {
    if (what === "seal") this.#seals.set(cavity, madeOf);
    if (what === undefined) this.#account.leaveOut(madeOf, "no terminal, seal or plug");
    else if (part) this.#parts.set(cavity, [...(this.#parts.get(cavity) ?? []), { ...part, what }]);
    else this.#account.leaveOut(madeOf, "its part has no number");
  }

  /** The cavity with what is fitted in it. */
  cavity(item: SourceItem): SourceCavity {
    const seals = this.#seals.get(item.key);
    const madeOf = [...item.madeOf, ...(seals ?? [])];
    return { ...item, sealed: seals !== undefined, fitted: this.#parts.get(item.key) ?? [], madeOf };
  }
}

import { importProblem, type ImportPlace, type ImportProblem } from "../import-problem.ts";
import { childOf, childrenOf, elementPath, type XmlDocument, type XmlElement } from "./xml-element.ts";
import { defined, naturalOrder } from "../../base/index.ts";
import type { Ledger, LedgerRow } from "../format-reader.ts";
import { cut, freeName, type PartInput } from "../draft/draft-parts.ts";
import { MOST_TEXT_CHARACTERS } from "../draft/finish-draft.ts";

/** Names by which a format calls what every format has. */
export interface FactNames {
  /** Texts that mean that nothing is said. */
  readonly absent: ReadonlySet<string>;
  /** Children of a value: the unit it refers to, and the number. */
  readonly unit: string;
  readonly value: string;
  /** How a unit of the format is read. */
  readonly readUnit: (unit: XmlElement, facts: SourceFacts) => UnitFacts;
}

/** Reads texts, references and values out of a tree, and reports those that are wrong. */
export class SourceFacts {
  readonly document: XmlDocument;
  readonly problems: ImportProblem[] = [];
  readonly account = new Account();
  /** Elements behind each value that was understood. */
  readonly #values = new Map<XmlElement, Origins>();
  readonly #names: FactNames;
  readonly #reported = new Set<string>();

  constructor(document: XmlDocument, names: FactNames) {
    this.document = document;
    this.#names = names;
  }

  /** Where an element stands. */
  place(element: XmlElement): ImportPlace {
    return { line: element.line, path: elementPath(element) };
  }

  /** Reports a problem; one that was reported with the same `once` stays as it is. */
  report(problem: ImportProblem, once?: string): void {
    if (once !== undefined) {
      if (this.#reported.has(once)) return;
      this.#reported.add(once);
    }
    this.problems.push(problem);
  }

  /** The text of a child, undefined where there is none or it says that there is none. */
  text(element: XmlElement | undefined, name: string): string | undefined {
    const text = childOf(element, name)?.text;
    return text === undefined || text === "" || this.#names.absent.has(text) ? undefined : text;
  }

  /** The element that a child refers to; of a list the first that exists. */
  reference(element: XmlElement | undefined, name: string): XmlElement | undefined {
    return this.references(element, name)[0];
  }

  /** All elements that the children of a name refer to. Those that do not exist are left out; the check of references reports them. */
  references(element: XmlElement | undefined, name: string): readonly XmlElement[] {
    const found: XmlElement[] = [];
    for (const child of childrenOf(element, name)) {
      if (child.children.length > 0 || child.id !== undefined) continue;
      for (const id of idsIn(child.text)) {
        const target = this.document.ids.get(id);
        if (target) found.push(target);
      }
    }
    return found;
  }

  /** The number that a child holds; a text that is none is reported. */
  number(element: XmlElement, name: string): number | undefined {
    const text = this.text(element, name);
    const value = readNumber(text);
    if (text !== undefined && value === undefined) {
      const facts = { name: element.name, text: text.slice(0, 40) };
      this.report(importProblem("source-number-wrong", this.place(element), facts));
    }
    return value;
  }

  /**
   * A value with its unit, in the wanted unit.
   *
   * @param holder The element that holds unit and number, such as a cross-section.
   * @param measure What it measures.
   * @returns The value in mm, mm², A, ohm or V; undefined, with a problem, where number or unit is missing or wrong.
   */
  quantity(holder: XmlElement | undefined, measure: Measure): number | undefined {
    if (!holder) return undefined;
    const value = this.number(holder, this.#names.value);
    if (value === undefined) return undefined;
    const unit = this.reference(holder, this.#names.unit);
    const factor = unit && unitFactor(measure, this.#names.readUnit(unit, this));
    if (factor === undefined) {
      const name = unit ? (unit.children.map((child) => child.text).join(" ") || unit.name).slice(0, 60) : "missing";
      // One unit is used by many values; once is enough.
      const once = unit && `unit ${measure} ${unit.id ?? ""}`;
      this.report(importProblem("source-unit-unknown", this.place(holder), { name: holder.name, unit: name }), once);
      return undefined;
    }
    this.#values.set(holder, [holder, unit]);
    return Number((value * factor).toPrecision(12));
  }

  /** The elements behind a value that `quantity` has read: its own and that of its unit; none where it was not understood. */
  behind(holder: XmlElement | undefined): Origins {
    return (holder && this.#values.get(holder)) ?? [];
  }
}

/** What things are fitted with, by the id of the thing: keys of options, and the elements that say so. */
export class FittedBy {
  readonly known = new Map<string, { readonly keys: Set<string>; readonly madeOf: XmlElement[] }>();

  take(items: readonly XmlElement[], keys: readonly string[], saidBy: XmlElement): void {
    for (const { id } of items) {
      if (id === undefined) continue;
      const entry = this.known.get(id) ?? { keys: new Set(), madeOf: [] };
      for (const key of keys) entry.keys.add(key);
      entry.madeOf.push(saidBy);
      this.known.set(id, entry);
    }
  }
}

/** A finite number as XML Schema writes it, or undefined. */
export function readNumber(text: string | undefined): number | undefined {
  if (text === undefined || !/^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/u.test(text)) return undefined;
  const value = Number(text);
  return Number.isFinite(value) ? value : undefined;
}

/** Of lengths the one whose type is trusted most: the types in that order, any other last. */
export function mostTrusted(
  lengths: readonly XmlElement[],
  typeName: string,
  types: readonly RegExp[],
): XmlElement | undefined {
  const rank = (length: XmlElement): number => {
    const at = types.findIndex((type) => type.test(childOf(length, typeName)?.text ?? ""));
    return at < 0 ? types.length : at;
  };
  return lengths.toSorted((first, second) => rank(first) - rank(second))[0];
}

/** Elements of a file that a thing is made of; those that are not there are passed over. */
export type Origins = readonly (XmlElement | undefined)[];

/**
 * Takes down what became of the elements of a file. What nobody says anything of counts as not read, so that forgetting can only make a
 * ledger look worse than the reading was.
 */
export class Account {
  readonly #kept = new Map<XmlElement, string>();
  readonly #leftOut = new Map<XmlElement, string>();

  /** What the elements say is in the document now. What is kept once stays kept, under its first name. */
  keep(elements: Origins, as: string): void {
    for (const element of elements) if (element && !this.#kept.has(element)) this.#kept.set(element, as);
  }

  /** The elements were read and are not in the document. The first reason stands, unless a later one is better known. */
  leaveOut(elements: Origins, reason: string, isBetter = false): void {
    for (const element of elements)
      if (element && (isBetter || !this.#leftOut.has(element))) this.#leftOut.set(element, reason);
  }

  /**
   * Closes the account: walks the whole file, counts every element that stands for a thing (it has an id, a type or parts; anything else
   * is a plain value of the thing around it), and looks up what became of it.
   */
  ledger(document: XmlDocument, file: string, classOf: ClassOf): Ledger {
    const classes = new Map<string, Counts>();
    const visit = (element: XmlElement, around: string, lost: string | undefined): void => {
      if (element.id === undefined && element.type === undefined && element.children.length === 0) return;
      const name = classOf(element, around);
      const counts: Counts = classes.get(name) ?? { found: 0, kept: new Map(), leftOut: new Map() };
      classes.set(name, counts);
      counts.found += 1;
      const as = this.#kept.get(element);
      const own = this.#leftOut.get(element);
      if (as !== undefined) add(counts.kept, as);
      else add(counts.leftOut, own ?? lost ?? notRead(element, name));
      const inside = as === undefined && own !== undefined ? `its ${name} was left out` : undefined;
      // Never deeper than the cap on nesting.
      for (const child of element.children) visit(child, name, inside);
    };
    visit(document.root, "", undefined);
    const rows = [...classes].map(([name, { found, kept, leftOut }]): LedgerRow => {
      return { class: name, found, kept: sharesOf(kept), leftOut: sharesOf(leftOut) };
    });
    return { file, rows: rows.toSorted((first, second) => naturalOrder(first.class, second.class)) };
  }
}

interface Counts {
  found: number;
  readonly kept: Map<string, number>;
  readonly leftOut: Map<string, number>;
}

function notRead(element: XmlElement, name: string): string {
  return element.name === name || element.type !== undefined ? "not read" : `not read (${element.name})`;
}

function add(counts: Map<string, number>, what: string): void {
  counts.set(what, (counts.get(what) ?? 0) + 1);
}

/** The largest share first. */
function sharesOf(counts: ReadonlyMap<string, number>): LedgerRow["kept"] {
  const shares = [...counts].map(([what, count]) => ({ what, count }));
  return shares.toSorted((first, second) => second.count - first.count || naturalOrder(first.what, second.what));
}

/** Names the class of an element; `around` is the class of the element around it. */
export type ClassOf = (element: XmlElement, around: string) => string;

/**
 * Reads a list of classes whose elements have other names, a class a line: `Class: Element Around/Element`, the latter only inside an element
 * of the class `Around`. An `xsi:type` goes before the list; an element that is not listed has its name as its class.
 *
 * @param list The list; lines may be broken.
 */
export function classNames(list: string): ClassOf {
  const names = new Map<string, string>();
  let current = "";
  for (const word of list.split(/\s+/u).filter((each) => each !== "")) {
    if (word.endsWith(":")) current = word.slice(0, -1);
    else names.set(word, current);
  }
  return ({ name, type }, around) => type ?? names.get(`${around}/${name}`) ?? names.get(name) ?? name;
}

/** What a value measures, and the unit it is wanted in: mm, mm², A, ohm, V. */
export type Measure = "length" | "area" | "current" | "resistance" | "voltage";

/** A unit as a file describes it, in whichever of these ways it does. */
export interface UnitFacts {
  /** Name of a unit of the SI, such as `metre`. */
  readonly siName: string | undefined;
  readonly siPrefix: string | undefined;
  /** 2 for square, 3 for cubic; 1 if not said. */
  readonly exponent: number;
  /** Name of any other unit, such as `mm` or `ampere`. */
  readonly otherName: string | undefined;
}

const PREFIXES = named({ "": 1, nano: 1e-9, micro: 1e-6, milli: 1e-3, centi: 1e-2, deci: 1e-1, kilo: 1e3, mega: 1e6 });

/** Names of the SI by measure, and how many of the wanted unit one of them is. */
const SI_NAMES: Readonly<Record<Measure, readonly [name: string, exponent: number, wanted: number]>> = {
  length: ["metre", 1, 1e3],
  area: ["metre", 2, 1e6],
  current: ["ampere", 1, 1],
  resistance: ["ohm", 1, 1],
  voltage: ["volt", 1, 1],
};

/**
 * Other names that are written for units, and how many of the wanted unit one of them is.
 *
 * Source: ISO 80000 for symbols; UN/ECE Recommendation 20 for the codes of three letters.
 */
const OTHER_NAMES: Readonly<Record<Measure, ReadonlyMap<string, number>>> = {
  length: named({
    ...{ mm: 1, mmt: 1, millimetre: 1, millimeter: 1, cm: 10, cmt: 10, in: 25.4, inch: 25.4 },
    ...{ m: 1e3, mtr: 1e3, metre: 1e3, meter: 1e3 },
  }),
  area: named({ mm2: 1, mmk: 1, "mm²": 1, "square millimetre": 1, squaremillimetre: 1, cm2: 100 }),
  current: named({ a: 1, amp: 1, ampere: 1, ma: 1e-3 }),
  resistance: named({ ohm: 1, Ω: 1, mohm: 1e-3 }),
  voltage: named({ v: 1, vlt: 1, volt: 1, mv: 1e-3 }),
};

function named(factors: Readonly<Record<string, number>>): ReadonlyMap<string, number> {
  return new Map(Object.entries(factors));
}

/** The factor of a unit to mm, mm², A, ohm or V. Nothing is assumed: a unit that is not known has none. */
export function unitFactor(measure: Measure, unit: UnitFacts): number | undefined {
  if (unit.siName !== undefined) {
    const [name, exponent, wanted] = SI_NAMES[measure];
    const prefix = PREFIXES.get((unit.siPrefix ?? "").toLowerCase());
    if (unit.siName.toLowerCase() !== name || unit.exponent !== exponent || prefix === undefined) return undefined;
    // 1e-3 to the power of two is not 1e-6 exactly; a length of 300 mm has to stay 300.
    return Number((prefix ** exponent * wanted).toPrecision(12));
  }
  return unit.otherName === undefined ? undefined : OTHER_NAMES[measure].get(unit.otherName.toLowerCase());
}

/** Problems of one sort that are listed; the rest is counted. */
const MOST_LISTED = 50;

/**
 * Checks the ids of a file: none twice, and every reference leads to one.
 *
 * @param names Names of the elements whose text is one or more ids. The same name may hold a part of its own elsewhere; a
 * reference has neither children nor an id.
 * @returns How many references there are, how many of them lead nowhere, and the problems in the order of the file.
 */
export function checkReferences(document: XmlDocument, names: ReadonlySet<string>) {
  const problems: ImportProblem[] = document.duplicates.slice(0, MOST_LISTED).map((element) => {
    const id = element.id ?? "";
    const facts = { id: id.slice(0, 80), line: document.ids.get(id)?.line ?? 0 };
    return importProblem("xml-duplicate-id", { line: element.line, path: elementPath(element) }, facts);
  });
  let count = 0;
  let dangling = 0;
  const visit = (element: XmlElement): void => {
    if (names.has(element.name) && element.children.length === 0 && element.id === undefined) {
      for (const id of idsIn(element.text)) {
        count += 1;
        if (document.ids.has(id)) continue;
        dangling += 1;
        if (dangling > MOST_LISTED) continue;
        const at = { line: element.line, path: elementPath(element) };
        problems.push(importProblem("xml-dangling-reference", at, { name: element.name, id: id.slice(0, 80) }));
      }
    }
    // Never deeper than the cap on nesting.
    element.children.forEach(visit);
  };
  visit(document.root);
  if (dangling > MOST_LISTED) problems.push(importProblem("source-more", {}, { count: dangling - MOST_LISTED }));
  return { count, dangling, problems };
}

/** The ids of a list separated by blanks. */
export function idsIn(text: string): readonly string[] {
  return text === "" ? [] : text.split(/\s+/u);
}

/** A part as the document has it; a description is left out where it only repeats the number. */
export function makePart(number: string, maker: string | undefined, description: string | undefined): PartInput {
  return {
    number: cutText(number),
    ...defined({ maker: maker && cutText(maker) }),
    ...defined({ description: description === number ? undefined : description && cutText(description) }),
  };
}

/** A text as long as a document takes. */
export function cutText(text: string): string {
  return cut(text, MOST_TEXT_CHARACTERS);
}

/** Gives things of one owner names that are told apart: a name that was used before gets a number. */
export function uniqueNames<Thing extends { readonly name: string }>(items: readonly Thing[]): readonly Thing[] {
  const taken = new Set<string>();
  return items.map((item) => {
    const name = freeName(item.name, taken, Infinity);
    taken.add(name);
    return name === item.name ? item : { ...item, name };
  });
}

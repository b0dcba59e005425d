import { importProblem, type ImportPlace, type ImportProblem } from "../../import-problem.ts";
import { childOf, childrenOf, elementPath, type XmlDocument, type XmlElement } from "../xml-element.ts";
import { idsIn } from "./check-references.ts";
import { Account, type Origins } from "./account.ts";
import { unitFactor, type Measure, type UnitFacts } from "./units.ts";

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

  /**
   * A value with its unit, in the wanted unit.
   *
   * @param holder The element that holds unit and number, such as a cross-section.
   * @param measure What it measures.
   * @returns The value in mm, mm², A, ohm or V; undefined, with a problem, where number or unit is missing or wrong.
   */
  quantity(holder: XmlElement | undefined, measure: Measure): number | undefined {
    if (!holder) return undefined;
    const text = this.text(holder, this.#names.value);
    const value = readNumber(text);
    if (value === undefined) {
      if (text !== undefined) {
        const facts = { name: holder.name, text: text.slice(0, 40) };
        this.report(importProblem("source-number-wrong", this.place(holder), facts));
      }
      return undefined;
    }
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

/** A finite number as XML Schema writes it, or undefined. */
export function readNumber(text: string | undefined): number | undefined {
  if (text === undefined || !/^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/u.test(text)) return undefined;
  const value = Number(text);
  return Number.isFinite(value) ? value : undefined;
}

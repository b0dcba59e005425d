import { naturalOrder } from "../../../base/index.ts";
import type { Ledger, LedgerRow } from "../../ledger.ts";
import type { XmlDocument, XmlElement } from "../xml-element.ts";
import type { ClassOf } from "./class-names.ts";

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
   *
   * @param document The file.
   * @param file Its name.
   * @param classOf How its elements are classed.
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

/** An element of an XML file: name, text and children, and where it stands. */
export interface XmlElement {
  /** Name without prefix. */
  readonly name: string;
  /** Namespace of the name; undefined for a name without prefix where no default is declared. */
  readonly namespace: string | undefined;
  /** Name the attribute `xsi:type` gives, without prefix. */
  readonly type: string | undefined;
  /** Value of the attribute `id`. */
  readonly id: string | undefined;
  /** Other attributes, as written. */
  readonly attributes: ReadonlyMap<string, string>;
  readonly children: readonly XmlElement[];
  /** Its own text, without blanks at both ends; empty if it has children only. */
  readonly text: string;
  /** Line of the file, from 1. */
  readonly line: number;
  readonly parent: XmlElement | undefined;
}

/** A whole XML file. */
export interface XmlDocument {
  readonly root: XmlElement;
  /** Elements by their attribute `id`; of ids used twice the first element. */
  readonly ids: ReadonlyMap<string, XmlElement>;
  /** Elements whose id was used before. */
  readonly duplicates: readonly XmlElement[];
  readonly elementCount: number;
}

/**
 * The way to an element from below the root, such as `Harness/Connection[12]`, counted from 1 among those of the same name.
 *
 * @returns The way; the name of the root for the root itself.
 */
export function elementPath(element: XmlElement): string {
  const steps: string[] = [];
  let current = element;
  while (current.parent !== undefined) {
    steps.push(current.name + position(current, current.parent));
    current = current.parent;
  }
  return steps.length === 0 ? element.name : steps.reverse().join("/");
}

// Worked out once a parent; a tree never changes once it is read, so what is known of it cannot go stale.
const positions = new WeakMap<XmlElement, ReadonlyMap<XmlElement, string>>();

function position(element: XmlElement, parent: XmlElement): string {
  let known = positions.get(parent);
  if (known === undefined) {
    const counts = new Map<string, number>();
    const numbers = new Map<XmlElement, number>();
    for (const child of parent.children) {
      const number = (counts.get(child.name) ?? 0) + 1;
      counts.set(child.name, number);
      numbers.set(child, number);
    }
    const texts = new Map<XmlElement, string>();
    for (const [child, number] of numbers) texts.set(child, (counts.get(child.name) ?? 0) > 1 ? `[${number}]` : "");
    known = texts;
    positions.set(parent, known);
  }
  return known.get(element) ?? "";
}

/** The first child of a name, or undefined. */
export function childOf(element: XmlElement | undefined, name: string): XmlElement | undefined {
  return element?.children.find((child) => child.name === name);
}

/** All children of a name, in order. */
export function childrenOf(element: XmlElement | undefined, name: string): readonly XmlElement[] {
  return element?.children.filter((child) => child.name === name) ?? [];
}

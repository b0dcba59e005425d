import { importProblem, type ImportProblem } from "../import-problem.ts";
import type { XmlDocument, XmlElement } from "./xml-element.ts";
import type { XmlLimits } from "./xml-limits.ts";
import { namespaceOf, splitName, XSI, type XmlScope } from "./xml-scope.ts";

/** Thrown inside the parser to end it at the first fault; caught by the reader, never seen outside. */
export class XmlStop extends Error {
  readonly problem: ImportProblem;

  constructor(problem: ImportProblem) {
    super(problem.message);
    this.problem = problem;
  }
}

/** An element while the file is read. */
interface Growing extends XmlElement {
  readonly children: XmlElement[];
  text: string;
}

interface OpenElement {
  readonly element: Growing;
  readonly scope: XmlScope | undefined;
  characters: number;
}

const NO_ATTRIBUTES: ReadonlyMap<string, string> = new Map();

/** Makes the tree from what the parser reports, and stops it where a cap is passed. */
export class TreeMaker {
  readonly #limits: XmlLimits;
  readonly #open: OpenElement[] = [];
  readonly #ids = new Map<string, XmlElement>();
  readonly #duplicates: XmlElement[] = [];
  #root: XmlElement | undefined;
  #count = 0;
  #attributes: [string, string][] = [];
  #sinceEvent = 0;

  constructor(limits: XmlLimits) {
    this.#limits = limits;
  }

  /** Counts characters given to the parser since it last reported anything; a report starts the count anew. */
  note(characters: number, isReport = false): void {
    this.#sinceEvent = isReport ? 0 : this.#sinceEvent + characters;
    if (this.#sinceEvent > this.#limits.longestToken) this.#stopTooLong();
  }

  /** One attribute of the start tag that is being read. */
  attribute(name: string, value: string): void {
    this.note(0, true);
    if (Math.max(name.length, value.length) > this.#limits.longestText) this.#stopTooLong();
    this.#attributes.push([name, value]);
    if (this.#attributes.length > this.#limits.mostAttributes)
      throw new XmlStop(importProblem("xml-too-many-attributes", {}, { limit: this.#limits.mostAttributes }));
  }

  /** The start tag is complete. */
  open(tag: string, line: number): void {
    this.note(0, true);
    this.#judge(tag);
    const around = this.#open.at(-1);
    const scope = this.#scopeOf(around?.scope);
    const { prefix, local } = splitName(tag);
    const namespace = this.#namespace(scope, prefix, tag);
    const own = this.#ownAttributes(scope);
    const element: Growing = {
      name: local,
      namespace,
      type: own.type,
      id: own.id,
      attributes: own.others,
      children: [],
      text: "",
      line,
      parent: around?.element,
    };
    around?.element.children.push(element);
    this.#root ??= element;
    if (own.id !== undefined) this.#claim(own.id, element);
    this.#open.push({ element, scope, characters: 0 });
    if (this.#attributes.length > 0) this.#attributes = [];
  }

  /** An end tag was read; the parser has checked that it is the right one. */
  close(): void {
    this.note(0, true);
    const done = this.#open.pop();
    if (done) done.element.text = done.element.text.trim();
  }

  /** Text of the innermost open element. */
  text(text: string): void {
    this.note(0, true);
    const current = this.#open.at(-1);
    if (!current) return;
    current.characters += text.length;
    if (current.characters > this.#limits.longestText) this.#stopTooLong();
    // Blanks between children are most of the text of a file and mean nothing.
    if (current.element.text !== "" || text.trim() !== "") current.element.text += text;
  }

  /** The tree, once the parser has come to the end without a fault. */
  finish(): XmlDocument {
    if (!this.#root) throw new XmlStop(importProblem("xml-not-well-formed", {}, { reason: "there is no element" }));
    return { root: this.#root, ids: this.#ids, duplicates: this.#duplicates, elementCount: this.#count };
  }

  #judge(tag: string): void {
    const { deepest, mostElements, longestText } = this.#limits;
    if (this.#open.length >= deepest) throw new XmlStop(importProblem("xml-too-deep", {}, { limit: deepest }));
    this.#count += 1;
    if (this.#count > mostElements)
      throw new XmlStop(importProblem("xml-too-many-elements", {}, { limit: mostElements }));
    if (tag.length > longestText) this.#stopTooLong();
  }

  #scopeOf(around: XmlScope | undefined): XmlScope | undefined {
    let prefixes: Map<string, string> | undefined;
    for (const [name, value] of this.#attributes) {
      const isDefault = name === "xmlns";
      if (!isDefault && !name.startsWith("xmlns:")) continue;
      prefixes ??= new Map();
      prefixes.set(isDefault ? "" : name.slice("xmlns:".length), value);
    }
    return prefixes ? { around, prefixes } : around;
  }

  #namespace(scope: XmlScope | undefined, prefix: string, name: string): string | undefined {
    const found = namespaceOf(scope, prefix);
    if (found === undefined && prefix !== "") {
      const facts = { prefix: prefix.slice(0, 80), name: name.slice(0, 80) };
      throw new XmlStop(importProblem("xml-prefix-unknown", {}, facts));
    }
    return found;
  }

  #ownAttributes(scope: XmlScope | undefined) {
    let id: string | undefined;
    let type: string | undefined;
    let others: Map<string, string> | undefined;
    for (const [name, value] of this.#attributes) {
      if (name === "id") id = value;
      else if (name === "xmlns" || name.startsWith("xmlns:")) continue;
      else if (name.endsWith(":type") && this.#namespace(scope, splitName(name).prefix, name) === XSI) {
        const named = splitName(value.trim());
        this.#namespace(scope, named.prefix, value);
        type = named.local;
      } else {
        others ??= new Map();
        others.set(name, value);
      }
    }
    return { id, type, others: others ?? NO_ATTRIBUTES };
  }

  #claim(id: string, element: XmlElement): void {
    if (this.#ids.has(id)) this.#duplicates.push(element);
    else this.#ids.set(id, element);
  }

  #stopTooLong(): never {
    throw new XmlStop(importProblem("xml-text-too-long", {}, { limit: this.#limits.longestText }));
  }
}

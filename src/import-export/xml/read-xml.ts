import { SaxesParser } from "saxes";
import { err, ok, type Result } from "../../base/index.ts";
import type { ReadProgress } from "../format-reader.ts";
import { importProblem, sizeFault, type ImportProblem } from "../import-problem.ts";
import { decodePiece, decodeSingleBytes, type TextEncoding } from "../text.ts";
import type { XmlDocument, XmlElement } from "./xml-element.ts";

/** Caps on what is read from an XML file, so that a hostile or mistaken one ends in an answer. */
interface XmlLimits {
  /** Most bytes of the file. */
  readonly mostBytes: number;
  /** Deepest nesting of elements; harness files nest at most a dozen levels. */
  readonly deepest: number;
  /** Most attributes of one element. */
  readonly mostAttributes: number;
  /** Most elements of the file. */
  readonly mostElements: number;
  /** Longest text of one element, in characters. */
  readonly longestText: number;
  /** Longest piece of the file without a single tag, text or comment coming to its end, in characters. */
  readonly longestToken: number;
}

/**
 * The usual caps. A harness of 100,000 wires stays below them.
 *
 * Common practice, no source; in the harness files at hand elements nest 9 deep, have 3 attributes and hold 7 kB of text at most.
 */
export const XML_LIMITS: XmlLimits = {
  mostBytes: 64 * 1024 * 1024,
  deepest: 64,
  mostAttributes: 64,
  mostElements: 3_000_000,
  longestText: 1024 * 1024,
  longestToken: 1024 * 1024 + 128 * 1024,
};

/** Bytes taken at a time, and bytes between two reports of progress. */
const PIECE_BYTES = 64 * 1024;
const REPORT_BYTES = 8 * PIECE_BYTES;
/** Share of the work that reading the text is; the rest is for who makes a harness of it. */
const READ_SHARE = 0.6;

/** How reading an XML file ends: with the tree, or with the one problem that ended it. */
type XmlReading = Generator<ReadProgress, Result<XmlDocument, ImportProblem>, void>;

/**
 * Reads an XML file into a tree, in steps. Nothing outside the file is ever fetched. A document type declaration is refused, so no
 * entity can be defined: the five of XML itself and character references are all there is. The first fault ends the reading.
 *
 * @param limits Caps; absent means the usual ones.
 * @returns The tree, or the problem with its line.
 *
 * Source: Extensible Markup Language (XML) 1.0; the caps are those of `XML_LIMITS`.
 */
export function* readXml(bytes: Uint8Array, limits: XmlLimits = XML_LIMITS): XmlReading {
  const fault = sizeFault(bytes, limits.mostBytes);
  if (fault) return err(fault);
  const found = findXmlEncoding(bytes);
  if (found.kind === "unknown") return err(importProblem("encoding-unknown", {}, { encoding: found.name }));
  if (found.kind === "contradiction") {
    const { declared, found: seen } = found;
    return err(importProblem("xml-encoding-contradiction", { line: 1 }, { declared, found: seen }));
  }
  const { encoding } = found;
  const maker = new TreeMaker(limits);
  const parser = makeParser(maker);
  let next = found.start;
  let reported = 0;
  try {
    while (next < bytes.length) {
      const piece = decodePiece(bytes, encoding, { start: next, end: next + PIECE_BYTES });
      parser.write(piece.text);
      maker.note(piece.text.length);
      if (next === found.start) checkDeclared(parser.xmlDecl.encoding, encoding);
      if (piece.broken || piece.next === next) throw broken(encoding, piece.next);
      next = piece.next;
      if (next - reported >= REPORT_BYTES) {
        reported = next;
        yield { share: (READ_SHARE * next) / bytes.length, doing: "Reading the file" };
      }
    }
    parser.close();
    return ok(maker.finish());
  } catch (fault) {
    const problem = fault instanceof XmlStop ? fault.problem : notWellFormed(fault);
    if (!problem) throw fault;
    return err({ ...problem, at: { line: parser.line, ...problem.at } });
  }
}

function broken(encoding: TextEncoding, at: number): XmlStop {
  return new XmlStop(importProblem("xml-encoding-broken", {}, { encoding, at: at + 1 }));
}

/** A file in UTF-16 may say that it is in another encoding; all others were told apart before. */
function checkDeclared(declared: string | undefined, encoding: TextEncoding): void {
  if (declared === undefined || namedEncoding(declared)?.slice(0, 6) === encoding.slice(0, 6)) return;
  throw new XmlStop(importProblem("xml-encoding-contradiction", {}, { declared, found: encoding }));
}

/** The fault that the parser throws, whose message starts with line and column; undefined for a mistake of the program. */
function notWellFormed(fault: unknown): ImportProblem | undefined {
  const message = fault instanceof Error ? /^[0-9]+:[0-9]+: (.*)$/su.exec(fault.message)?.[1] : undefined;
  const reason = message?.replace(/\.$/u, "").slice(0, 200);
  return reason === undefined ? undefined : importProblem("xml-not-well-formed", {}, { reason });
}

function makeParser(maker: TreeMaker): SaxesParser<{ xmlns: false }> {
  // Prefixes are handled by the tree maker: with xmlns on, the parser takes quadratic time on deep nesting. Not one handler more than
  // these seven: each is a property added to the parser, and with eight of them it takes twice as long.
  const parser = new SaxesParser<{ xmlns: false }>({ xmlns: false });
  parser.on("doctype", (text) => {
    throw new XmlStop(importProblem("xml-doctype", {}, { name: text.trim().slice(0, 40) }));
  });
  parser.on("attribute", ({ name, value }) => {
    maker.attribute(name, value);
  });
  parser.on("opentag", (tag) => {
    maker.open(tag.name, parser.line);
  });
  parser.on("closetag", () => {
    maker.close();
  });
  parser.on("text", (text) => {
    maker.text(text);
  });
  parser.on("cdata", (text) => {
    maker.text(text);
  });
  parser.on("comment", () => {
    maker.note(0, true);
  });
  return parser;
}

/** What the first bytes say about the encoding. */
type EncodingFound =
  | { readonly kind: "known"; readonly encoding: TextEncoding; readonly start: number }
  | { readonly kind: "unknown"; readonly name: string }
  | { readonly kind: "contradiction"; readonly declared: string; readonly found: string };

const DECLARATION = /^<\?xml\s[^>]*?encoding\s*=\s*["']([A-Za-z][A-Za-z0-9._-]*)["']/u;
/** Where a declaration has to stand; longer ones are not written by any program. */
const DECLARATION_BYTES = 512;

/**
 * Finds the encoding of an XML file: by byte order mark, by the pattern of zero bytes, then by its declaration. ISO 8859-1 is read as
 * Windows-1252, which has letters where the other has control characters.
 *
 * @returns The encoding and where the text starts, the name of one that is not read, or how declaration and bytes disagree.
 *
 * Source: Extensible Markup Language (XML) 1.0, appendix F.
 */
export function findXmlEncoding(bytes: Uint8Array): EncodingFound {
  const starts = (...wanted: readonly number[]): boolean => wanted.every((byte, at) => bytes[at] === byte);
  if (starts(0x00, 0x00, 0xfe, 0xff) || starts(0x00, 0x00, 0x00, 0x3c)) return { kind: "unknown", name: "UTF-32" };
  if (starts(0xff, 0xfe, 0x00, 0x00) || starts(0x3c, 0x00, 0x00, 0x00)) return { kind: "unknown", name: "UTF-32" };
  if (starts(0xfe, 0xff)) return { kind: "known", encoding: "utf-16be", start: 2 };
  if (starts(0xff, 0xfe)) return { kind: "known", encoding: "utf-16le", start: 2 };
  if (starts(0x00, 0x3c)) return { kind: "known", encoding: "utf-16be", start: 0 };
  if (starts(0x3c, 0x00)) return { kind: "known", encoding: "utf-16le", start: 0 };
  const hasMark = starts(0xef, 0xbb, 0xbf);
  const start = hasMark ? 3 : 0;
  const declared = DECLARATION.exec(decodeSingleBytes(bytes.subarray(start, start + DECLARATION_BYTES)))?.[1];
  if (declared === undefined) return { kind: "known", encoding: "utf-8", start };
  const encoding = namedEncoding(declared);
  if (encoding === "utf-16le") return { kind: "contradiction", declared, found: "one byte a character" };
  if (encoding === undefined) return { kind: "unknown", name: declared };
  if (hasMark && encoding !== "utf-8") return { kind: "contradiction", declared, found: "a UTF-8 byte order mark" };
  return { kind: "known", encoding, start };
}

const ENCODINGS: ReadonlyMap<string, TextEncoding> = new Map([
  ...["utf-8", "utf8", "us-ascii", "ascii"].map((name) => [name, "utf-8"] as const),
  ...["utf-16", "utf-16le", "utf-16be"].map((name) => [name, "utf-16le"] as const),
  ...["iso-8859-1", "latin1", "windows-1252", "cp1252"].map((name) => [name, "windows-1252"] as const),
]);

/** The encoding a declaration names: `utf-16le` for UTF-16 of any byte order, undefined for one that is not read. */
function namedEncoding(name: string): TextEncoding | undefined {
  return ENCODINGS.get(name.toLowerCase());
}

/** How much of a file is looked at. */
const LOOK_BYTES = 64 * 1024;

/** Whether the first element of a file has a given name, whatever its prefix. Comments, instructions and a declaration may stand before. */
export function looksLikeXml(bytes: Uint8Array, rootName: string): boolean {
  const found = findXmlEncoding(bytes);
  if (found.kind !== "known") return false;
  const { text } = decodePiece(bytes, found.encoding, { start: found.start, end: found.start + LOOK_BYTES });
  let at = 0;
  for (;;) {
    const open = text.indexOf("<", at);
    if (open < 0 || text.slice(at, open).trim() !== "") return false;
    const end = text.startsWith("<!--", open) ? "-->" : text.startsWith("<?", open) ? "?>" : undefined;
    if (end === undefined) {
      const name = /^<(?:[^\s<>/:]{1,64}:)?([^\s<>/:]{1,64})[\s/>]/u.exec(text.slice(open, open + 160))?.[1];
      return name === rootName;
    }
    const close = text.indexOf(end, open);
    if (close < 0) return false;
    at = close + end.length;
  }
}

/** Thrown inside a parser to end it at the first fault; caught by the reader, never seen outside. */
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
class TreeMaker {
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
    const { id, type, others: attributes } = this.#ownAttributes(scope);
    const parent = around?.element;
    const element: Growing = { name: local, namespace, type, id, attributes, children: [], text: "", line, parent };
    parent?.children.push(element);
    this.#root ??= element;
    if (id !== undefined) this.#claim(id, element);
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

/** Prefixes declared at an element, and those around it. */
interface XmlScope {
  readonly around: XmlScope | undefined;
  readonly prefixes: ReadonlyMap<string, string>;
}

/** Namespace of `xsi:type`. */
const XSI = "http://www.w3.org/2001/XMLSchema-instance";
const XML = "http://www.w3.org/XML/1998/namespace";

/** Takes a name apart at its first colon; the prefix is empty where there is none. */
function splitName(name: string): { readonly prefix: string; readonly local: string } {
  const colon = name.indexOf(":");
  return colon < 0 ? { prefix: "", local: name } : { prefix: name.slice(0, colon), local: name.slice(colon + 1) };
}

/** Looks a prefix up in a scope and those around it, of which there are never more than the file is deep; empty is the default one. */
function namespaceOf(scope: XmlScope | undefined, prefix: string): string | undefined {
  if (prefix === "xml") return XML;
  for (let current = scope; current !== undefined; current = current.around) {
    const found = current.prefixes.get(prefix);
    if (found !== undefined) return found === "" ? undefined : found;
  }
  return undefined;
}

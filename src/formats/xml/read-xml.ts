import { SaxesParser } from "saxes";
import { err, ok, type Result } from "../../base/index.ts";
import type { ReadProgress } from "../format-reader.ts";
import { importProblem, type ImportProblem } from "../import-problem.ts";
import { decodePiece, findXmlEncoding, namedEncoding, type XmlEncoding } from "./decode-xml.ts";
import { TreeMaker, XmlStop } from "./tree-maker.ts";
import type { XmlDocument } from "./xml-element.ts";
import { XML_LIMITS, type XmlLimits } from "./xml-limits.ts";

/** Bytes taken at a time, and bytes between two reports of progress. */
const PIECE_BYTES = 64 * 1024;
const REPORT_BYTES = 8 * PIECE_BYTES;
/** Share of the work that reading the text is; the rest is for who makes a harness of it. */
const READ_SHARE = 0.6;

/** How reading an XML file ends: with the tree, or with the one problem that ended it. */
export type XmlReading = Generator<ReadProgress, Result<XmlDocument, ImportProblem>, void>;

/**
 * Reads an XML file into a tree, in steps. Nothing outside the file is ever fetched. A document type declaration is refused, so no
 * entity can be defined: the five of XML itself and character references are all there is. The first fault ends the reading.
 *
 * @param bytes The file.
 * @param limits Caps; absent means the usual ones.
 * @returns The tree, or the problem with its line.
 *
 * Source: Extensible Markup Language (XML) 1.0; the caps are in xml-limits.ts.
 */
export function* readXml(bytes: Uint8Array, limits: XmlLimits = XML_LIMITS): XmlReading {
  if (bytes.length === 0) return err(importProblem("file-empty", {}, { bytes: 0 }));
  if (bytes.length > limits.mostBytes)
    return err(importProblem("file-too-large", {}, { bytes: bytes.length, limit: limits.mostBytes }));
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

function broken(encoding: XmlEncoding, at: number): XmlStop {
  return new XmlStop(importProblem("xml-encoding-broken", {}, { encoding, at: at + 1 }));
}

/** A file in UTF-16 may say that it is in another encoding; all others were told apart before. */
function checkDeclared(declared: string | undefined, encoding: XmlEncoding): void {
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

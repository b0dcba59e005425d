import { SaxesParser } from "saxes";
import { importProblem, type ImportProblem } from "../import-problem.ts";
import { decodeText } from "../text/decode-text.ts";
import { XML_LIMITS } from "../xml/xml-limits.ts";

/** What is told while a part of a workbook is read: names without prefix, attributes by name without prefix. */
export interface XmlListener {
  readonly open: (name: string, attributes: ReadonlyMap<string, string>) => void;
  readonly close: (name: string) => void;
  readonly text: (text: string) => void;
}

/** Thrown by a listener, and inside the scan, to end it with a problem. It never leaves the scan. */
export class ScanStop extends Error {
  readonly problem: ImportProblem;
  constructor(problem: ImportProblem) {
    super(problem.message);
    this.problem = problem;
  }
}

const PIECE = 64 * 1024;
const YIELD_EVERY = 16;

/**
 * Goes through one XML part of a workbook without building a tree, in steps that tell the share done. Document types are refused, depth
 * and attributes are capped as for the other XML files.
 *
 * @param bytes The part.
 * @param file Its name in the packed file, for problems.
 * @param listener Told what is found.
 * @returns The problem that ended the scan, or undefined if it came to the end.
 */
export function* scanXml(
  bytes: Uint8Array,
  file: string,
  listener: XmlListener,
): Generator<number, ImportProblem | undefined, void> {
  const decoded = decodeText(bytes);
  if (!decoded.ok) return { ...decoded.error, at: { file } };
  const { text } = decoded.value;
  const parser = makeParser(listener);
  try {
    for (let at = 0, pieces = 0; at < text.length; at += PIECE, pieces++) {
      parser.write(text.slice(at, at + PIECE));
      if (pieces % YIELD_EVERY === YIELD_EVERY - 1) yield at / text.length;
    }
    parser.close();
    return undefined;
  } catch (fault) {
    if (fault instanceof ScanStop) return { ...fault.problem, at: { file, line: parser.line, ...fault.problem.at } };
    throw fault;
  }
}

function makeParser(listener: XmlListener): SaxesParser<{ xmlns: false }> {
  const parser = new SaxesParser<{ xmlns: false }>({ xmlns: false, position: true } as { xmlns: false });
  const stop = (problem: ImportProblem): never => {
    throw new ScanStop(problem);
  };
  let attributes = new Map<string, string>();
  let depth = 0;
  parser.on("doctype", (text) => stop(importProblem("xml-doctype", {}, { name: text.trim().slice(0, 40) })));
  parser.on("opentagstart", () => {
    attributes = new Map();
    depth += 1;
    if (depth > XML_LIMITS.deepest) stop(importProblem("xml-too-deep", {}, { limit: XML_LIMITS.deepest }));
  });
  parser.on("attribute", ({ name, value }) => {
    attributes.set(withoutPrefix(name), value);
    const limit = XML_LIMITS.mostAttributes;
    if (attributes.size > limit) stop(importProblem("xml-too-many-attributes", {}, { limit }));
  });
  parser.on("opentag", ({ name }) => {
    listener.open(withoutPrefix(name), attributes);
  });
  parser.on("closetag", ({ name }) => {
    depth -= 1;
    listener.close(withoutPrefix(name));
  });
  parser.on("text", listener.text);
  parser.on("cdata", listener.text);
  parser.on("error", (fault) => {
    const reason = fault.message.replace(/^[0-9]+:[0-9]+: /u, "").replace(/\.$/u, "");
    stop(importProblem("xml-not-well-formed", {}, { reason: reason.slice(0, 200) }));
  });
  return parser;
}

function withoutPrefix(name: string): string {
  return name.slice(name.indexOf(":") + 1);
}

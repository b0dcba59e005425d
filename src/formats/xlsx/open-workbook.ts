import { err, ok, type Result } from "../../base/index.ts";
import { importProblem, type ImportProblem } from "../import-problem.ts";
import { unpackEntry } from "../zip/unpack-entry.ts";
import { readZipDirectory, type ZipEntry } from "../zip/zip-directory.ts";
import { scanXml, type XmlListener } from "./scan-xml.ts";

/** One sheet of a workbook. */
export interface WorkbookSheet {
  readonly name: string;
  readonly isHidden: boolean;
  /** Name of its part in the packed file. */
  readonly part: string;
}

/** A workbook that is open: its sheets in order, and the means to unpack its parts. */
export interface Workbook {
  readonly sheets: readonly WorkbookSheet[];
  /** Unpacks a part; undefined if the workbook has none of that name. */
  readonly unpack: (part: string) => Result<Uint8Array, ImportProblem> | undefined;
}

/** Most bytes a workbook may hold, unpacked. */
const MOST_BYTES = 192 * 1024 * 1024;

/**
 * Opens an XLSX workbook and lists its sheets; their cells are read by `readSheet`.
 *
 * @param bytes The file.
 *
 * Source: ISO/IEC 29500-1 and 29500-2.
 */
export function openWorkbook(bytes: Uint8Array): Result<Workbook, readonly ImportProblem[]> {
  const directory = readZipDirectory(bytes, { mostEntries: 2000, mostBytes: MOST_BYTES });
  if (!directory.ok) return err([directory.error]);
  const entries = directory.value;
  const book = readPart(bytes, entries, "xl/workbook.xml");
  if (!book.ok) return err([book.error]);
  const relations = readPart(bytes, entries, "xl/_rels/workbook.xml.rels");
  if (!relations.ok) return err([relations.error]);
  const sheets: WorkbookSheet[] = [];
  const listed: { name: string; isHidden: boolean; relation: string }[] = [];
  const targets = new Map<string, string>();
  const fault =
    scanAll(book.value, "xl/workbook.xml", (name, attributes) => {
      if (name !== "sheet") return;
      const isHidden = (attributes.get("state") ?? "visible") !== "visible";
      listed.push({ name: attributes.get("name") ?? "", isHidden, relation: attributes.get("id") ?? "" });
    }) ??
    scanAll(relations.value, "xl/_rels/workbook.xml.rels", (name, attributes) => {
      if (name !== "Relationship" || attributes.get("TargetMode") === "External") return;
      targets.set(attributes.get("Id") ?? "", partName(attributes.get("Target") ?? ""));
    });
  if (fault) return err([fault]);
  for (const { relation, ...sheet } of listed) {
    const part = targets.get(relation);
    // Chart sheets and the like have no part with cells.
    if (part !== undefined && entries.has(part) && part.includes("worksheets/")) sheets.push({ ...sheet, part });
  }
  if (sheets.length === 0) return err([importProblem("xlsx-broken", {}, { reason: "it has no sheet" })]);
  const unpack: Workbook["unpack"] = (part) => {
    const entry = entries.get(part);
    return entry && unpackEntry(bytes, entry);
  };
  return ok({ sheets, unpack });
}

function readPart(
  bytes: Uint8Array,
  entries: ReadonlyMap<string, ZipEntry>,
  name: string,
): Result<Uint8Array, ImportProblem> {
  const entry = entries.get(name);
  if (!entry) return err(importProblem("xlsx-broken", {}, { reason: `its part "${name}" is missing` }));
  return unpackEntry(bytes, entry);
}

/** Goes through a small part in one go. */
export function scanAll(bytes: Uint8Array, file: string, open: XmlListener["open"]): ImportProblem | undefined {
  const scan = scanXml(bytes, file, { open, close: () => undefined, text: () => undefined });
  for (;;) {
    const step = scan.next();
    if (step.done === true) return step.value;
  }
}

/** Targets are given from the folder `xl`, or from the top with a slash. */
function partName(target: string): string {
  return target.startsWith("/") ? target.slice(1) : `xl/${target}`;
}

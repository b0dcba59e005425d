import { importProblem, type ImportProblem } from "../../import-problem.ts";
import { elementPath, type XmlDocument, type XmlElement } from "../xml-element.ts";

/** What was found about the references of a file. */
export interface ReferenceReport {
  /** References in all, each id of a list counted. */
  readonly count: number;
  readonly dangling: number;
  readonly problems: readonly ImportProblem[];
}

/** Problems of one sort that are listed; the rest is counted. */
const MOST_LISTED = 50;

/**
 * Checks the ids of a file: none twice, and every reference leads to one.
 *
 * @param document The file.
 * @param names Names of the elements whose text is one or more ids. The same name may hold a part of its own elsewhere; a
 * reference has neither children nor an id.
 * @returns Counts, and the problems in the order of the file.
 */
export function checkReferences(document: XmlDocument, names: ReadonlySet<string>): ReferenceReport {
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

import { posix } from "node:path";
import type { ProjectFile } from "./project-files.ts";

/** What a link may point to: all paths of the project, and the text of those that are Markdown. */
export interface LinkTargets {
  readonly paths: ReadonlySet<string>;
  readonly pages: ReadonlyMap<string, string>;
}

/**
 * Lists the links of a Markdown page that lead nowhere inside the project: a file or folder that is not there, or a heading
 * that the page does not have. Links to other sites are not followed. Code is not read.
 */
export function findDeadLinks(page: ProjectFile, targets: LinkTargets): readonly string[] {
  const dead = linksOf(page.text).filter((link) => !leadsSomewhere(page.path, link, targets));
  return dead.map((link) => `${page.path} -> ${link}`);
}

function leadsSomewhere(from: string, link: string, { paths, pages }: LinkTargets): boolean {
  if (/^[a-z][a-z0-9+.-]*:/iu.test(link)) return true;
  const [file = "", heading] = decodeURIComponent(link).split("#");
  const path = file === "" ? from : posix.join(posix.dirname(from), file).replace(/\/$/u, "");
  const isThere = paths.has(path) || [...paths].some((other) => other.startsWith(`${path}/`));
  if (!isThere || heading === undefined) return isThere;
  return anchorsOf(pages.get(path) ?? "").has(heading);
}

function withoutCode(text: string): string {
  return text.replace(/^( *)(```+|~~~+)[^\n]*\n[\s\S]*?^\1\2[ \t]*$/gmu, "").replace(/`[^`\n]*`/gu, "");
}

function linksOf(text: string): readonly string[] {
  const prose = withoutCode(text);
  const patterns = [
    /\]\(\s*<?([^)\s>]+)>?(?:\s+["'(][^)]*)?\)/gu, // [text](target "title")
    /^ {0,3}\[[^\]]+\]:\s+<?([^\s>]+)>?/gmu, // [name]: target
    /<(?:a|img)\b[^>]*?\b(?:href|src)="([^"]+)"/gu,
  ];
  return patterns.flatMap((pattern) => [...prose.matchAll(pattern)].map((match) => match[1] ?? ""));
}

/** The anchors that headings get on the usual code-hosting sites. */
function anchorsOf(text: string): ReadonlySet<string> {
  const anchors = new Set<string>();
  // Code spans stay, since their words are part of the anchor; fenced code goes.
  const prose = text.replace(/^( *)(```+|~~~+)[^\n]*\n[\s\S]*?^\1\2[ \t]*$/gmu, "");
  for (const match of prose.matchAll(/^#{1,6}\s+(.+?)\s*#*\s*$/gmu)) {
    const anchor = anchorOf(match[1] ?? "");
    let unique = anchor;
    for (let copy = 1; anchors.has(unique); copy += 1) unique = `${anchor}-${copy}`;
    anchors.add(unique);
  }
  for (const match of prose.matchAll(/<a\b[^>]*?\b(?:id|name)="([^"]+)"/gu)) anchors.add(match[1] ?? "");
  return anchors;
}

function anchorOf(heading: string): string {
  return heading
    .replace(/\[([^\]]*)\]\([^)]*\)/gu, "$1")
    .toLowerCase()
    .replace(/[^\p{L}\p{N}\p{M}_\- ]/gu, "")
    .replaceAll(" ", "-");
}

import { execFileSync, type ExecFileSyncOptionsWithStringEncoding } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

/** A file of the project: its path from the top folder with forward slashes, and its text. */
export interface ProjectFile {
  readonly path: string;
  readonly text: string;
}

/** The top folder. */
export const root = fileURLToPath(new URL("../../..", import.meta.url)).replace(/[\\/]$/u, "");

/** Never part of the project: version control, packages, and what is built. */
const outside = new Set([".git", "node_modules", "dist"]);

let listed: readonly string[] | undefined;

/** Paths of all files that belong to the project: by git where there is one, else all but packages and built files. */
export function projectPaths(): readonly string[] {
  listed ??= (pathsByGit() ?? pathsByWalk("")).toSorted();
  return listed;
}

/** The files of the project whose path fits a pattern, read. */
export function projectFiles(pattern: RegExp): readonly ProjectFile[] {
  return projectPaths()
    .filter((path) => pattern.test(path))
    .map((path) => ({ path, text: readFileSync(join(root, path), "utf8") }));
}

function pathsByGit(): readonly string[] | undefined {
  try {
    const options: ExecFileSyncOptionsWithStringEncoding = {
      cwd: root,
      encoding: "utf8",
      stdio: ["ignore", "pipe", "ignore"],
    };
    // Files that are not yet added count too, or a check would pass until the day they are.
    const list = (...kind: readonly string[]): readonly string[] =>
      execFileSync("git", ["ls-files", "-z", ...kind], options)
        .split("\0")
        .filter(Boolean);
    const deleted = new Set(list("--deleted"));
    const paths = list("--cached", "--others", "--exclude-standard").filter((path) => !deleted.has(path));
    return paths.length > 0 ? paths : undefined;
  } catch {
    return undefined;
  }
}

function pathsByWalk(folder: string): readonly string[] {
  return readdirSync(join(root, folder), { withFileTypes: true }).flatMap((entry) => {
    const path = folder === "" ? entry.name : `${folder}/${entry.name}`;
    if (outside.has(entry.name) || entry.name.endsWith(".tgz")) return [];
    return entry.isDirectory() ? pathsByWalk(path) : [path];
  });
}

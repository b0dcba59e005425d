import { posix } from "node:path";
import { findImports } from "./find-imports.ts";
import type { ProjectFile } from "./project-files.ts";

/** Lists groups of files that import one another in a circle, types included; each as its paths in order, by Tarjan's method. */
export function findCircles(files: readonly ProjectFile[]): readonly (readonly string[])[] {
  const paths = new Set(files.map(({ path }) => path));
  const targets = new Map(
    files.map((file) => {
      const named = findImports(file).map(({ target }) => posix.join(posix.dirname(file.path), target));
      return [file.path, named.filter((path) => paths.has(path))] as const;
    }),
  );
  const order = new Map<string, number>();
  const lowest = new Map<string, number>();
  const waiting: string[] = [];
  const circles: string[][] = [];
  const visit = (path: string): number => {
    const own = order.size;
    order.set(path, own);
    waiting.push(path);
    let low = own;
    for (const target of targets.get(path) ?? []) {
      if (!order.has(target)) low = Math.min(low, visit(target));
      else if (waiting.includes(target)) low = Math.min(low, lowest.get(target) ?? order.get(target) ?? low);
      lowest.set(path, low);
    }
    if (low === own) {
      const group = waiting.splice(waiting.indexOf(path));
      if (group.length > 1 || targets.get(path)?.includes(path)) circles.push(group.sort());
    }
    return low;
  };
  for (const path of paths) if (!order.has(path)) visit(path);
  return circles;
}

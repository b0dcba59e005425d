import { posix } from "node:path";
import { findImports, type Import } from "./find-imports.ts";
import { dataFolders, rooms, steps, type Room } from "./house.ts";
import type { ProjectFile } from "./project-files.ts";

/** Which rule of the house an import breaks. */
export type Rule =
  | "no room"
  | "upward"
  | "sideways"
  | "past the door"
  | "own door"
  | "outside the house"
  | "package"
  | "node"
  | "extension"
  /** A value of a room whose types alone may be named. */
  | "value"
  /** A step of a job taken past the one service. */
  | "step";

/** One import that breaks a rule. */
export interface Breach {
  readonly rule: Rule;
  /** "file -> import", as in the list of debts. */
  readonly debt: string;
  readonly line: number;
}

const roomByName: ReadonlyMap<string, Room> = new Map(rooms.map((room) => [room.name, room]));

/** Lists every import of the given files of `src/` that the table of the house does not allow. */
export function findBreaches(files: readonly ProjectFile[]): readonly Breach[] {
  return files.flatMap((file) => {
    const room = roomOf(file.path);
    if (room === undefined) return [{ rule: "no room" as const, debt: `${file.path} -> (none)`, line: 1 }];
    return findImports(file).flatMap(({ target, line, values }) => {
      const rule = brokenRule(room, file.path, target) ?? brokenRuleOfValues(room, file.path, { target, values });
      return rule === undefined ? [] : [{ rule, debt: `${file.path} -> ${target}`, line }];
    });
  });
}

function brokenRule(room: Room, path: string, target: string): Rule | undefined {
  if (target.startsWith("node:")) return room.node ? undefined : "node";
  if (!target.startsWith(".")) return mayUsePackage(room, target) ? undefined : "package";
  return brokenRuleOfPath(room, posix.join(posix.dirname(path), target.replace(/\?.*$/u, "")));
}

function brokenRuleOfValues(
  room: Room,
  path: string,
  { target, values }: Pick<Import, "target"> & { readonly values: Import["values"] | undefined },
): Rule | undefined {
  if (!target.startsWith(".") || values?.length === 0) return undefined;
  const other = roomOf(posix.join(posix.dirname(path), target));
  if (!other || other === room) return undefined;
  if (room.values && !room.values.includes(other.name)) return "value";
  return values?.some((name) => steps.names.includes(name)) === true && !steps.allowed.test(path) ? "step" : undefined;
}

function mayUsePackage(room: Room, target: string): boolean {
  return room.packages.some((name) => target === name || target.startsWith(`${name}/`));
}

function brokenRuleOfPath(room: Room, path: string): Rule | undefined {
  const other = roomOf(path);
  if (other === undefined) {
    const allowed = dataFolders.get(room.name) ?? [];
    return allowed.some((folder) => path.startsWith(`${folder}/`)) ? undefined : "outside the house";
  }
  if (other !== room && other.floor === room.floor) return "sideways";
  if (other.floor > room.floor) return "upward";
  if (!/\.(?:ts|svelte|css|svg|json)$/u.test(path)) return "extension";
  const isDoor = path === `src/${other.name}/index.ts`;
  if (other === room) return isDoor ? "own door" : undefined;
  return isDoor ? undefined : "past the door";
}

function roomOf(path: string): Room | undefined {
  const [top, name, ...rest] = path.split("/");
  return top === "src" && name !== undefined && rest.length > 0 ? roomByName.get(name) : undefined;
}

import type { Item } from "../../connectivity/index.ts";
import type { DiagramListGroup } from "../../drawing/index.ts";

/**
 * The item that an arrow key leads to in a circuit diagram: up and down along a column, left and right to the next column. From an item
 * that is not in it, every arrow key leads to the first one.
 *
 * @param list The diagram as a list.
 * @param from The selected item.
 * @param key Name of the key.
 * @returns The item; undefined for other keys and where there is no further one.
 */
export function stepInDiagram(
  list: readonly DiagramListGroup[],
  from: Item | undefined,
  key: string,
): Item | undefined {
  const move = MOVES.get(key);
  if (!move) return undefined;
  const column = list.findIndex(({ entries }) => entries.some(({ item }) => isSame(item, from)));
  if (column < 0) return list[0]?.entries[0]?.item;
  const at = list[column]?.entries.findIndex(({ item }) => isSame(item, from)) ?? 0;
  if (move.columns === 0) return list[column]?.entries[at + move.rows]?.item ?? beyond(list, from, move.rows);
  const { entries = [] } = list[column + move.columns] ?? {};
  return entries[Math.min(at, entries.length - 1)]?.item;
}

const MOVES: ReadonlyMap<string, { readonly columns: number; readonly rows: number }> = new Map([
  ["ArrowUp", { columns: 0, rows: -1 }],
  ["ArrowDown", { columns: 0, rows: 1 }],
  ["ArrowLeft", { columns: -1, rows: 0 }],
  ["ArrowRight", { columns: 1, rows: 0 }],
]);

/** The next item over a bar or box at the end of a column: it is named in every column that it joins. */
function beyond(list: readonly DiagramListGroup[], from: Item | undefined, rows: number): Item | undefined {
  const next = list.find(({ entries }) => isSame((rows > 0 ? entries[0] : entries.at(-1))?.item, from));
  return (rows > 0 ? next?.entries[1] : next?.entries.at(-2))?.item;
}

function isSame(a: Item | undefined, b: Item | undefined): boolean {
  return a !== undefined && b !== undefined && a.type === b.type && a.id === b.id;
}

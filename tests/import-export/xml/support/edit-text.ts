/**
 * Changes a text inside one element: from the start tag with this id to its end tag.
 *
 * @param text The file.
 * @param id Id of the element; empty for the whole file.
 * @param change What to replace by what; it has to be there.
 */
export function editInside(text: string, id: string, [from, to]: readonly [string | RegExp, string]): string {
  const start = id === "" ? 0 : text.lastIndexOf("<", text.indexOf(` id="${id}"`));
  if (start < 0) throw new Error(`There is no element "${id}"`);
  const name = /^<([\w:]+)/u.exec(text.slice(start))?.[1] ?? "";
  const end = id === "" ? text.length : text.indexOf(`</${name}>`, start) + name.length + 3;
  const inside = text.slice(start, end);
  const changed = inside.replace(from, to);
  if (changed === inside) throw new Error(`Element "${id}" does not hold ${String(from)}`);
  return text.slice(0, start) + changed + text.slice(end);
}

/** The bytes of a text. */
export function bytesOf(text: string): Uint8Array {
  return new TextEncoder().encode(text);
}

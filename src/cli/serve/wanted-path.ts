/**
 * The path inside the served folder that a request target names.
 *
 * @param target The target as it came, such as `/assets/a.js?x=1`.
 * @returns A path such as `assets/a.js`, `index.html` for a folder; undefined for a target that tries to leave the folder, names a
 *   hidden file, or does not decode.
 */
export function wantedPath(target: string): string | undefined {
  const [raw = ""] = target.split(/[?#]/u);
  if (!raw.startsWith("/")) return undefined;
  const path = decode(raw);
  // A backslash is a separator on some systems, a colon names a drive or a stream, a control character ends a path early.
  if (path === undefined || /[\\:\p{Cc}]/u.test(path)) return undefined;
  const parts = path.slice(1).split("/");
  if (parts.at(-1) === "") parts[parts.length - 1] = "index.html";
  // ".", "..", hidden files and empty parts all fall here.
  return parts.some((part) => part === "" || part.startsWith(".")) ? undefined : parts.join("/");
}

function decode(text: string): string | undefined {
  try {
    return decodeURIComponent(text);
  } catch {
    // Thrown on a broken escape, which anybody may send.
    return undefined;
  }
}

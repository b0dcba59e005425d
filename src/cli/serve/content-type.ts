const TYPES: ReadonlyMap<string, string> = new Map([
  ["html", "text/html; charset=utf-8"],
  ["js", "text/javascript; charset=utf-8"],
  ["mjs", "text/javascript; charset=utf-8"],
  ["css", "text/css; charset=utf-8"],
  ["json", "application/json; charset=utf-8"],
  ["webmanifest", "application/manifest+json; charset=utf-8"],
  ["svg", "image/svg+xml; charset=utf-8"],
  ["png", "image/png"],
  ["ico", "image/x-icon"],
  ["woff2", "font/woff2"],
  ["wasm", "application/wasm"],
  ["txt", "text/plain; charset=utf-8"],
  ["map", "application/json; charset=utf-8"],
]);

/**
 * The media type of a file, told by the end of its name. Unknown ends are bytes, which a browser saves and never runs.
 *
 * Source: IANA media types; RFC 9239 for JavaScript.
 *
 * @param path Path of the file.
 */
export function contentType(path: string): string {
  const dot = path.lastIndexOf(".");
  return TYPES.get(path.slice(dot + 1).toLowerCase()) ?? "application/octet-stream";
}

/**
 * Writes data as JSON with the keys of every object in order of their code units, so that equal data gives equal text.
 *
 * @param data Plain data, as JSON holds it; members that are undefined are left out.
 */
export function plainText(data: unknown): string {
  if (Array.isArray(data)) return `[${data.map((each) => plainText(each ?? null)).join(",")}]`;
  if (typeof data !== "object" || data === null) return JSON.stringify(data);
  const members = Object.entries(data).filter(([, value]) => value !== undefined);
  members.sort(([a], [b]) => (a < b ? -1 : 1));
  return `{${members.map(([key, value]) => `${JSON.stringify(key)}:${plainText(value)}`).join(",")}}`;
}

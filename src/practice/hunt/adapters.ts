import type { Adapter, Harness } from "../../model/index.ts";

/** The connector a point belongs to, if it is a contact. */
export function ownerOf(harness: Harness, point: string): string | undefined {
  const colon = point.lastIndexOf(":");
  if (colon < 0) return undefined;
  const name = point.slice(0, colon);
  return harness.book.halves.get(name)?.connector.id ?? harness.book.connectors.get(name)?.id;
}

/** An adapter of the document. */
export function adapterOf(harness: Harness, id: string): Adapter | undefined {
  return harness.document.adapters.find((each) => each.id === id);
}

/** How an adapter on a connector or relay is written among what is fitted: the connector where it fits that, else its first place. */
export function fittedKey(harness: Harness, adapter: string, at: string): string {
  const { fits = [] } = adapterOf(harness, adapter) ?? {};
  const owner = ownerOf(harness, at) ?? at;
  const place = fits.includes(owner) ? owner : fits[0];
  return `${adapter} at ${place ?? owner}`;
}

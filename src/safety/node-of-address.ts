import { halfKey, type Harness } from "../model/index.ts";

/**
 * The node an address means: where it names a mated pair, the half that wires end in; of two such halves the first one fitted.
 *
 * @param harness The harness.
 * @param address Such as `B3.X:1`, `XF1e:2`, `G2+`.
 * @returns A node number, or undefined if nothing fitted has this address.
 */
export function nodeOfAddress(harness: Harness, address: string): number | undefined {
  const exact = harness.nodeNumbers.get(address);
  const colon = address.lastIndexOf(":");
  if (exact !== undefined || colon < 0) return exact;
  const owner = address.slice(0, colon);
  const named = harness.book.halves.get(owner);
  const connector = named?.connector ?? harness.book.connectors.get(owner);
  if (!connector) return undefined;
  const halves = named ? [named.half] : (harness.fitted.halves.get(connector.id) ?? []);
  return halves
    .toSorted((a, b) => Number(a.id === "device") - Number(b.id === "device"))
    .map((half) => harness.nodeNumbers.get(`${halfKey(connector, half)}:${address.slice(colon + 1)}`))
    .find((node) => node !== undefined);
}

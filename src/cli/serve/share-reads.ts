/**
 * Reads a file for many who ask for it: while it is read, all wait for that reading, and what holds the same bytes as before is the same
 * memory. However many ask, one reading is under way and one copy of each state of the file is held.
 *
 * @param read Reads the file; undefined if it cannot be read.
 * @returns Reads it for one who asks.
 */
export function shareReads(read: () => Promise<Uint8Array | undefined>): () => Promise<Uint8Array | undefined> {
  let held: Uint8Array | undefined;
  let underWay: Promise<Uint8Array | undefined> | undefined;
  const readOnce = async (): Promise<Uint8Array | undefined> => {
    try {
      const bytes = await read();
      if (!held || !bytes || Buffer.compare(held, bytes) !== 0) held = bytes;
      return held;
    } finally {
      underWay = undefined;
    }
  };
  return () => (underWay ??= readOnce());
}

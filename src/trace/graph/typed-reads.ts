/**
 * The number at a place of a typed array.
 *
 * Walks over the graph only read places that exist; reading beside the array is a programmer's mistake and throws here
 * instead of going on with `undefined`. Kept tiny so that the engine inlines it.
 *
 * @param numbers the array
 * @param place place in it, from 0
 * @returns the number there
 * @throws RangeError if the array has no such place
 */
export function intAt(numbers: Int32Array, place: number): number {
  const found = numbers[place];
  if (found === undefined) throw new RangeError(`Cannot read place ${place}: the array has ${numbers.length}`);
  return found;
}

/**
 * Whether a flag is set (not 0). A place outside the array throws, as in {@link intAt}.
 *
 * @param flags one byte a node or edge, 0 or 1
 * @param place place in it, from 0
 * @returns true if the byte is not 0
 * @throws RangeError if the array has no such place
 */
export function isSet(flags: Uint8Array, place: number): boolean {
  const found = flags[place];
  if (found === undefined) throw new RangeError(`Cannot read flag ${place}: the array has ${flags.length}`);
  return found !== 0;
}

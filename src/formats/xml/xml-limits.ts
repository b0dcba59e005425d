/** Caps on what is read from an XML file, so that a hostile or mistaken one ends in an answer. */
export interface XmlLimits {
  /** Most bytes of the file. */
  readonly mostBytes: number;
  /** Deepest nesting of elements; harness files nest at most a dozen levels. */
  readonly deepest: number;
  /** Most attributes of one element. */
  readonly mostAttributes: number;
  /** Most elements of the file. */
  readonly mostElements: number;
  /** Longest text of one element, in characters. */
  readonly longestText: number;
  /** Longest piece of the file without a single tag, text or comment coming to its end, in characters. */
  readonly longestToken: number;
}

/**
 * The usual caps. A harness of 100,000 wires stays below them.
 *
 * Common practice, no source; in the harness files at hand elements nest 9 deep, have 3 attributes and hold 7 kB of text at most.
 */
export const XML_LIMITS: XmlLimits = {
  mostBytes: 64 * 1024 * 1024,
  deepest: 64,
  mostAttributes: 64,
  mostElements: 3_000_000,
  longestText: 1024 * 1024,
  longestToken: 1024 * 1024 + 128 * 1024,
};

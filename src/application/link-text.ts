/**
 * Writes a text as part of the query of a link, leaving readable what a query may hold: letters, digits and `: / , @ !`.
 *
 * Source: RFC 3986, section 3.4, for what a query may hold.
 *
 * @param text Any text; half surrogate pairs become U+FFFD.
 */
export function encodePart(text: string): string {
  const whole = text.replace(/\p{Cs}/gu, "\uFFFD");
  return encodeURIComponent(whole).replace(/%(?:3A|2F|2C|40)/gu, (escape) => decodeURIComponent(escape));
}

/**
 * Reads back what {@link encodePart} wrote. A plus sign is a space, as forms write it.
 *
 * @param part The part as it stands in the link.
 * @returns The text, or undefined where an escape is not UTF-8.
 */
export function decodePart(part: string): string | undefined {
  try {
    return decodeURIComponent(part.replaceAll("+", " "));
  } catch {
    // The one thing decodeURIComponent() throws on is a broken escape, which any hand-written link may hold.
    return undefined;
  }
}

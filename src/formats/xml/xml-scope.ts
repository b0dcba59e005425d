/** Prefixes declared at an element, and those around it. */
export interface XmlScope {
  readonly around: XmlScope | undefined;
  readonly prefixes: ReadonlyMap<string, string>;
}

/** A name taken apart. */
export interface SplitName {
  readonly prefix: string;
  readonly local: string;
}

/** Namespace of `xsi:type`. */
export const XSI = "http://www.w3.org/2001/XMLSchema-instance";
const XML = "http://www.w3.org/XML/1998/namespace";

/** Takes a name apart at its first colon; the prefix is empty where there is none. */
export function splitName(name: string): SplitName {
  const colon = name.indexOf(":");
  return colon < 0 ? { prefix: "", local: name } : { prefix: name.slice(0, colon), local: name.slice(colon + 1) };
}

/**
 * Looks a prefix up in a scope and those around it; there are never more of them than the file is deep.
 *
 * @param scope The scope, undefined where nothing was declared.
 * @param prefix The prefix; empty for the default namespace.
 * @returns The namespace, or undefined if none is declared.
 */
export function namespaceOf(scope: XmlScope | undefined, prefix: string): string | undefined {
  if (prefix === "xml") return XML;
  for (let current = scope; current !== undefined; current = current.around) {
    const found = current.prefixes.get(prefix);
    if (found !== undefined) return found === "" ? undefined : found;
  }
  return undefined;
}

import type { XmlElement } from "../xml-element.ts";

/** Names the class of an element; `around` is the class of the element around it. */
export type ClassOf = (element: XmlElement, around: string) => string;

/**
 * Reads a list of classes whose elements have other names, a class a line: `Class: Element Around/Element`, the latter only inside an element
 * of the class `Around`. An `xsi:type` goes before the list; an element that is not listed has its name as its class.
 *
 * @param list The list; lines may be broken.
 */
export function classNames(list: string): ClassOf {
  const names = new Map<string, string>();
  let current = "";
  for (const word of list.split(/\s+/u).filter((each) => each !== "")) {
    if (word.endsWith(":")) current = word.slice(0, -1);
    else names.set(word, current);
  }
  return ({ name, type }, around) => type ?? names.get(`${around}/${name}`) ?? names.get(name) ?? name;
}

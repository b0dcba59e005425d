import type { ItemType } from "./item.ts";

/** What each sort of item is called, for people. */
export const ITEM_NAMES: Readonly<Record<ItemType, string>> = {
  contact: "contact",
  wire: "wire",
  splice: "splice",
  stud: "terminal stud",
  element: "circuit element",
  component: "component",
  connector: "connector",
  segment: "harness segment",
  zone: "zone",
  net: "net",
  code: "trouble code",
  inner: "internal node",
  "open-end": "open end",
};

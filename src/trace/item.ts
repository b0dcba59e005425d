/** The sorts of thing an answer can name. */
export type ItemType =
  | "contact"
  | "wire"
  | "splice"
  | "stud"
  | "element"
  | "component"
  | "connector"
  | "segment"
  | "zone"
  | "net"
  | "code"
  | "inner"
  | "open-end";

/**
 * A thing of the machine, named in an answer. A `contact` with the id `A1.X1:36` is the mated pair of both halves, with
 * `A1.X1.device:36` or `XC1m:3` one half of it.
 */
export interface Item {
  readonly type: ItemType;
  readonly id: string;
}

/** A key that is the same for the same item and differs between any two. */
export function itemKey(item: Item): string {
  return `${item.type} ${item.id}`;
}

/**
 * Makes a function that works its answer out once for each key and keeps it as long as the key lives. Only for keys that never change,
 * such as a harness.
 *
 * @example
 * ```ts
 * import { keptFor } from "ohmward/base";
 * let made = 0;
 * const lengthOf = keptFor((list: readonly string[]) => (made++, list.length));
 * const list = ["a", "b"];
 * expect([lengthOf(list), lengthOf(list), made]).toEqual([2, 2, 1]);
 * ```
 */
export function keptFor<Key extends object, Value>(make: (key: Key) => Value): (key: Key) => Value {
  const known = new WeakMap<Key, Value>();
  return (key) => keptIn(known, key, () => make(key));
}

/** Where values can be kept by key. */
interface Keeper<Key, Value> {
  get(key: Key): Value | undefined;
  has(key: Key): boolean;
  set(key: Key, value: Value): unknown;
}

/** The value a map holds for a key; where it holds none yet it is made and put in. An `undefined` that was made counts as held. */
export function keptIn<Key, Value>(map: Keeper<Key, Value>, key: Key, make: () => Value): Value {
  const known = map.get(key);
  if (known !== undefined || map.has(key)) return known as Value;
  const made = make();
  map.set(key, made);
  return made;
}

/** Puts a member at the end of the list that a map holds for a key. */
export function addTo<Key, Member>(map: Map<Key, Member[]>, key: Key, member: Member): void {
  const list = map.get(key);
  if (list) list.push(member);
  else map.set(key, [member]);
}

/** Gives things of one owner names that are told apart: a name that was used before gets a number. */
export function uniqueNames<Thing extends { readonly name: string }>(things: readonly Thing[]): readonly Thing[] {
  const taken = new Set<string>();
  return things.map((thing) => {
    let name = thing.name;
    for (let number = 2; taken.has(name); number++) name = `${thing.name}-${number}`;
    taken.add(name);
    return name === thing.name ? thing : { ...thing, name };
  });
}

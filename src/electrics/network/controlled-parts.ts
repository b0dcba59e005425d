import type { Part, PartList } from "./part.ts";

// Read once a list of parts, which never changes.
const known = new WeakMap<readonly Part[], readonly number[]>();

/** Numbers of the parts that follow the voltages around them: most parts do not. */
export function controlledParts({ parts }: PartList): readonly number[] {
  let numbers = known.get(parts);
  if (!numbers) {
    const found: number[] = [];
    for (let at = 0; at < parts.length; at++) if (parts[at]?.control) found.push(at);
    numbers = found;
    known.set(parts, numbers);
  }
  return numbers;
}

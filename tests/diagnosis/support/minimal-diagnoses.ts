/**
 * Every smallest set of parts whose failing would agree with what was observed.
 *
 * @param parts The parts that can fail.
 * @param canBe Whether the observations are possible when exactly these parts are free to behave in any way. More freedom never makes
 *   an observation impossible.
 * @param mostMembers Sets with more members than this are left out.
 * @returns The sets, smaller ones first, members in the order of the parts.
 *
 * Source: J. de Kleer and B. Williams, Diagnosing multiple faults, Artificial Intelligence 32 (1987) 97-130.
 */
export function minimalDiagnoses<Part>(
  parts: readonly Part[],
  canBe: (failed: ReadonlySet<Part>) => boolean,
  mostMembers = parts.length,
): readonly (readonly Part[])[] {
  const found: (readonly Part[])[] = [];
  let layer: readonly (readonly number[])[] = [[]];
  for (let size = 0; size <= mostMembers && layer.length > 0; size++) {
    const next: (readonly number[])[] = [];
    for (const positions of layer) {
      const set = positions.flatMap((position) => parts.slice(position, position + 1));
      if (found.some((smaller) => smaller.every((part) => set.includes(part)))) continue;
      if (canBe(new Set(set))) found.push(set);
      else for (let more = (positions.at(-1) ?? -1) + 1; more < parts.length; more++) next.push([...positions, more]);
    }
    layer = next;
  }
  return found;
}

/**
 * Every smallest set of parts that cannot all be good, given what was observed.
 *
 * @param parts The parts that can fail.
 * @param canBe As for {@link minimalDiagnoses}.
 * @returns The sets, smaller ones first, members in the order of the parts.
 */
export function minimalConflicts<Part>(
  parts: readonly Part[],
  canBe: (failed: ReadonlySet<Part>) => boolean,
): readonly (readonly Part[])[] {
  // A set of parts is in conflict when the observations stay impossible although all other parts may do as they like.
  const isConflict = (good: ReadonlySet<Part>): boolean => !canBe(new Set(parts.filter((part) => !good.has(part))));
  return minimalDiagnoses(parts, isConflict);
}

import { err, ok, type Result } from "../../base/index.ts";
import type { ConfirmedMating, ConnectorOfPart } from "../../import-export/index.ts";
import type { ImportPart } from "./join-imports.ts";

/**
 * Finds the two connectors that a text such as `TX.1A1=TX.2A1` says plug into one another. Where a name is in several files the number of
 * the file goes before it: `1/X1=2/X1`.
 *
 * @param parts The imports, in the order in which they are numbered.
 * @param text The text.
 * @returns The pair, or in words why there is none.
 * @example
 * ```ts
 * import { findPair } from "ohmward/application";
 * expect(findPair([], "X1").ok).toBe(false);
 * ```
 */
export function findPair(parts: readonly ImportPart[], text: string): Result<ConfirmedMating, string> {
  const names = text.split("=").map((name) => name.trim());
  const [one = "", two = ""] = names;
  if (names.length !== 2 || one === "" || two === "")
    return err(`"${text}" is no pair. Write two connectors that mate with = between them, such as X1=X2`);
  const found = [one, two].map((name) => ({ name, at: places(parts, name) }));
  const missing = found.find(({ at }) => at.length === 0);
  if (missing) return err(`There is no connector "${missing.name}" in ${parts.length === 1 ? "the file" : "any file"}`);
  const [firsts = [], seconds = []] = found.map(({ at }) => at);
  const all = firsts.flatMap((first) => seconds.map((second) => ({ first, second })));
  const pairs = all.filter(({ first, second }) => first.part !== second.part || first.connector !== second.connector);
  // Connectors of two files are meant before two of one file.
  const across = pairs.filter(({ first, second }) => first.part !== second.part);
  const likely = across.length > 0 ? across : pairs;
  const [pair, another] = likely;
  if (!pair) return err(`"${text}" names one connector twice. Name two connectors`);
  if (another)
    return err(`"${text}" fits several connectors. Put the number of the file first, such as 1/${one}=2/${two}`);
  return ok(pair);
}

function places(parts: readonly ImportPart[], name: string): readonly ConnectorOfPart[] {
  const [, number, rest] = /^(\d+)\/(.+)$/u.exec(name) ?? [];
  const wanted = (rest ?? name).toLowerCase();
  const hits = parts.flatMap(({ imported }, part) =>
    number !== undefined && Number(number) !== part + 1
      ? []
      : imported.document.connectors.flatMap(({ id }) =>
          id.toLowerCase() === wanted ? [{ part, connector: id }] : [],
        ),
  );
  const exact = hits.filter(({ connector }) => connector === (rest ?? name));
  return exact.length > 0 ? exact : hits;
}

import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { seededRandom, type SeededRandom } from "ohmward/base";
import {
  encodeUtf8,
  isTableFormat,
  recogniseFile,
  runReading,
  writeCsv,
  type ImportProblem,
} from "ohmward/import-export";
import type { HarnessDocument } from "ohmward/harness-model";
import { loadTables } from "../../../src/import-export/tables/load-tables.ts";
import { readHeading } from "../../../src/import-export/tables/read-heading.ts";
import { HEADING_WORDS } from "../../../src/import-export/tables/heading-words.ts";
import { root } from "../../structure/support/project-files.ts";
import { readFile } from "./read-file.ts";

/** A table as rows of cells. */
export interface BaseTable {
  readonly name: string;
  readonly rows: readonly (readonly string[])[];
}

/** The tables that are mutated: those of the fixtures that are one table, as texts. */
export function baseTables(): readonly BaseTable[] {
  return ["table-shapes", "more-tables"].flatMap((folder) => {
    const path = join(root, "tests/fixtures", folder);
    const names = readdirSync(path).filter((name) => !name.endsWith(".expected.json"));
    return names.sort().flatMap((name): readonly BaseTable[] => {
      const bytes = readFileSync(join(path, name));
      const { kind } = recogniseFile(bytes, name);
      if (!isTableFormat(kind)) return [];
      const loaded = runReading(loadTables(bytes, kind, { fileName: name }));
      const [table, second] = loaded?.ok ? loaded.value.tables : [];
      return table && !second
        ? [{ name: name.replace(/\.[a-z]+$/u, ".csv"), rows: table.rows.map(({ cells }) => cells) }]
        : [];
    });
  });
}

/** What a mutation does. */
export const MUTATIONS = [
  "heading in another word",
  "heading that says nothing",
  "column moved",
  "unit dropped",
  "cell broken",
  "cell emptied",
] as const;
export type Mutation = (typeof MUTATIONS)[number];

const GARBAGE = ["##", "???", "8oo", "!!", "%&", "x x x x x x", "n°?"];

/** One mutated table; undefined where a table has nothing for this mutation. */
export function mutate({ rows, name }: BaseTable, mutation: Mutation, random: SeededRandom): string | undefined {
  // What heads a matrix are connectors, and their names are data.
  if (name.startsWith("matrix") && mutation.startsWith("heading")) return undefined;
  const pick = <Item>(items: readonly Item[]): Item | undefined => items[Math.floor(random.next() * items.length)];
  const copy = rows.map((row) => [...row]);
  const heads = rows.flatMap((row, at) =>
    row.filter((cell) => readHeading(cell)).length >= 2 && !row.some((cell) => /^\d+$/u.test(cell)) ? [at] : [],
  );
  const head = pick(heads);
  const cells = rows.flatMap((row, at) =>
    row.flatMap((cell, column) =>
      cell.trim() !== "" && !heads.includes(at) && at > (heads[0] ?? -1) ? [[at, column] as const] : [],
    ),
  );
  const [at = 0, column = 0] = pick(cells) ?? [];
  switch (mutation) {
    case "heading in another word":
    case "heading that says nothing": {
      const known =
        head === undefined
          ? []
          : (rows[head] ?? []).flatMap((cell, place) =>
              readHeading(cell)?.end === undefined && readHeading(cell) ? [place] : [],
            );
      const place = pick(known);
      const row = copy[head ?? -1];
      if (place === undefined || !row) return undefined;
      const reading = readHeading(row[place] ?? "");
      const topic = reading?.topic;
      const words =
        topic !== undefined && topic in HEADING_WORDS
          ? HEADING_WORDS[topic as keyof typeof HEADING_WORDS].split(",")
          : [];
      const unit = /[([].*[)\]]|mm²|awg/iu.exec(row[place] ?? "")?.[0] ?? "";
      row[place] =
        mutation === "heading that says nothing" ? `Qx${place}` : `${(pick(words) ?? "Qx").trim()} ${unit}`.trim();
      return writeCsv(copy);
    }
    case "column moved": {
      const [first] = heads;
      const row = rows[first ?? -1] ?? [];
      const plain = row.map((cell) => cell.trim().toLowerCase());
      if (heads.length !== 1 || plain.includes("") || new Set(plain).size < plain.length || (first ?? 0) > 0)
        return undefined;
      const [from, to] = [Math.floor(random.next() * row.length), Math.floor(random.next() * row.length)];
      // A matrix and a list of pins side by side mean something by their order.
      if (from === 0 || to === 0 || from === to) return undefined;
      for (const each of copy) {
        while (each.length < row.length) each.push("");
        each.splice(to, 0, ...each.splice(from, 1));
      }
      return writeCsv(copy);
    }
    case "unit dropped": {
      const units = rows.flatMap((row, place) =>
        row.flatMap((cell, across) =>
          /\d\s*(?:mm2|mm²|awg|ga|cm|in|m)\b|[([](?:mm2|mm²|awg|mm|cm)[)\]]|#\d/iu.test(cell)
            ? [[place, across] as const]
            : [],
        ),
      );
      const [down, across] = pick(units) ?? [];
      const row = copy[down ?? -1];
      if (!row || across === undefined) return undefined;
      row[across] = (row[across] ?? "")
        .replace(/\s*(?:[([](?:mm2|mm²|awg|mm|cm)[)\]]|(?<=\d)\s*(?:mm2|mm²|awg|ga|cm|in|m)\b|#(?=\d)|mm²)/iu, "")
        .trim();
      return writeCsv(copy);
    }
    case "cell broken":
    case "cell emptied": {
      const row = copy[at];
      if (!row || cells.length === 0) return undefined;
      // Without its last cell a row is not there, and an empty cell of a matrix says that there is nothing.
      const empty = copy.filter((each) => (each[column] ?? "").trim() === "").length;
      // Where empty cells mean the text above, nobody can tell that one more is a slip.
      if (mutation === "cell emptied" && empty * 3 > copy.length && column < 2) return undefined;
      if (name.startsWith("matrix") && at === 0) return undefined;
      const isLast = row.filter((cell) => cell.trim() !== "").length < 2 || name.startsWith("matrix");
      if (mutation === "cell emptied" && isLast) return undefined;
      row[column] = mutation === "cell emptied" ? "" : (pick(GARBAGE) ?? "##");
      return writeCsv(copy);
    }
  }
}

/** How a mutated table came in. */
export type Verdict = "right" | "asked" | "listed" | "wrong";

interface Facts {
  /** Pairs of points that are joined. */
  readonly joined: ReadonlySet<string>;
  readonly points: ReadonlySet<string>;
  /** Colour, size and length of wires by their ends. */
  readonly wires: ReadonlyMap<string, readonly string[]>;
  readonly problems: ReadonlySet<string>;
  readonly proposals: ReadonlySet<string>;
}

/** What a table says as it stands; undefined where it is refused. */
export function factsOf(text: string, name: string): Facts | undefined {
  const read = readFile(encodeUtf8(text), name);
  if (!read.ok) return undefined;
  const { document, warnings, proposals = [] } = read.value;
  const wires = new Map<string, readonly string[]>();
  for (const { ends, colour, crossSectionMm2, lengthMm } of document.wires) {
    const key = ends
      .filter((end) => end !== undefined)
      .sort()
      .join(" ");
    wires.set(key, [colour ?? "", String(crossSectionMm2 ?? ""), String(lengthMm ?? "")]);
  }
  const say = ({ code, at, message }: ImportProblem): string => `${code} ${at.row ?? ""} ${message}`;
  return {
    ...joinsOf(document),
    wires,
    problems: new Set(warnings.map(say)),
    proposals: new Set(proposals.map(({ text: question }) => question)),
  };
}

function joinsOf(document: HarnessDocument): Pick<Facts, "joined" | "points"> {
  const group = new Map<string, Set<string>>();
  for (const { ends } of document.wires) {
    const [first, second = first] = ends;
    const all = new Set([...(group.get(first) ?? [first]), ...(group.get(second) ?? [second])]);
    for (const each of all) group.set(each, all);
  }
  const splices = new Set<string>(document.splices.map(({ id }) => id));
  const joined = new Set<string>();
  for (const net of new Set(group.values())) {
    const points = [...net].filter((point) => !splices.has(point));
    for (const one of points) for (const two of points) if (one < two) joined.add(`${one} ${two}`);
  }
  return { joined, points: new Set([...group.keys()].filter((point) => !splices.has(point))) };
}

/**
 * Compares a mutated table with the one it was made from. `wrong`: points joined that are not, or a colour, size or length of another value;
 * or something lost without a word of it.
 */
export function judge(base: Facts, made: Facts | undefined, mutation: Mutation): Verdict {
  if (!made) return "listed";
  const isKnown = (pair: string): boolean => pair.split(" ").every((point) => base.points.has(point));
  if ([...made.joined].some((pair) => isKnown(pair) && !base.joined.has(pair))) return "wrong";
  let isLost = [...base.joined].some((pair) => !made.joined.has(pair)) || base.wires.size > made.wires.size;
  for (const [ends, values] of base.wires) {
    const now = made.wires.get(ends);
    if (!now) isLost = true;
    else if (values.some((value, at) => now[at] !== "" && value !== "" && now[at] !== value)) return "wrong";
    else if (values.some((value, at) => value !== "" && now[at] === "")) isLost = true;
  }
  if (!isLost) return "right";
  // An empty cell says nothing of a colour, size or length.
  const isSameWires =
    made.joined.size === base.joined.size && [...base.wires.keys()].every((ends) => made.wires.has(ends));
  if (mutation === "cell emptied" && isSameWires) return "right";
  if ([...made.proposals].some((text) => !base.proposals.has(text))) return "asked";
  return [...made.problems].some((text) => !base.problems.has(text)) ? "listed" : "wrong";
}

/** One mutation with how it came in, for a table of results and for looking at what went wrong. */
export interface MutationResult {
  readonly table: string;
  readonly mutation: Mutation;
  readonly verdict: Verdict;
  readonly text: string;
}

/** Makes so many mutations by a seed and judges each. */
export function runMutations(count: number, seed: number): readonly MutationResult[] {
  const tables = baseTables().map((table) => ({ table, base: factsOf(writeCsv(table.rows), table.name) }));
  const random = seededRandom(seed);
  const results: MutationResult[] = [];
  for (let tries = 0; results.length < count && tries < count * 20; tries++) {
    const chosen = tables[Math.floor(random.next() * tables.length)];
    const mutation = MUTATIONS[Math.floor(random.next() * MUTATIONS.length)] ?? "cell broken";
    if (!chosen?.base) continue;
    const text = mutate(chosen.table, mutation, random);
    if (text === undefined) continue;
    const verdict = judge(chosen.base, factsOf(text, chosen.table.name), mutation);
    results.push({ table: chosen.table.name, mutation, verdict, text });
  }
  return results;
}

/** The results by mutation, as the rows of a table: mutation, how many, right, asked, listed, wrong. */
export function countResults(results: readonly MutationResult[]): readonly (readonly [string, ...number[]])[] {
  return [...MUTATIONS, "all"].map((mutation) => {
    const own = results.filter((each) => mutation === "all" || each.mutation === mutation);
    const verdicts: readonly Verdict[] = ["right", "asked", "listed", "wrong"];
    return [mutation, own.length, ...verdicts.map((verdict) => own.filter((each) => each.verdict === verdict).length)];
  });
}

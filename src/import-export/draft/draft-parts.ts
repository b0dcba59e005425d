import type { z } from "zod";
import type { HarnessDocument } from "../../harness-model/index.ts";
import type { ImportPlace, ImportProblem } from "../import-problem.ts";

/** A harness document as plain data, before it is checked: ids are plain texts. */
export type DocumentInput = z.input<typeof HarnessDocument>;

/** A thing of a list of the document, such as `Input<"wires">`, as plain data. */
export type Input<List extends keyof DocumentInput> = DocumentInput[List] extends readonly (infer Thing)[]
  ? Thing
  : never;

/** The electrical system as plain data. */
export type SystemInput = DocumentInput["system"];
/** A component as plain data. */
export type ComponentInput = Input<"components">;
/** A connector as plain data. */
export type ConnectorInput = Input<"connectors">;
/** A half of a connector as plain data. */
export type SideInput = ConnectorInput["sides"][number];
/** A part as plain data. */
export type PartInput = NonNullable<SideInput["part"]>;
/** What is fitted in a cavity, as plain data. */
export type FittedCavityInput = NonNullable<SideInput["fitted"]>[number];
/** A cavity as plain data. */
export type CavityInput = ConnectorInput["cavities"][number];
/** A cavity whose place on the face may not be known yet. */
export type LooseCavity = Omit<CavityInput, "x" | "y"> & { readonly x?: number; readonly y?: number };

/** Longest id a harness document takes, in characters. */
export const MOST_ID_CHARACTERS = 64;

/**
 * Makes a legal id of what a file calls a thing: a letter or digit first, then letters, digits and `. _ + -` only. Anything else
 * becomes one hyphen; signs before the first letter or digit go, as in the product sign of IEC 81346 (`-X1`).
 *
 * @param text The id as written in the file.
 * @returns A legal id, or undefined if nothing legal is left.
 * @example
 * ```ts
 * import { cleanId } from "ohmward/import-export";
 * expect(["A1.X1", "-X1", "Plug 4 / left", "?"].map(cleanId)).toEqual(["A1.X1", "X1", "Plug-4-left", undefined]);
 * ```
 */
export function cleanId(text: string): string | undefined {
  const sign = SIGNS.get(text.trim());
  if (sign !== undefined) return sign;
  const cleaned = text
    .normalize("NFC")
    .replace(/[^\p{L}\p{N}._+-]+/gu, "-")
    .replace(/^[._+-]+/u, "")
    .replace(/-+$/u, (end) => (text.trim().endsWith(end) ? end : ""));
  return cleaned === "" ? undefined : cut(cleaned, MOST_ID_CHARACTERS);
}

/** Battery posts and the like are often called by their sign alone. */
const SIGNS: ReadonlyMap<string, string> = new Map(Object.entries({ "+": "plus", "-": "minus", "−": "minus" }));

/** Cuts a text without leaving half a character behind. */
export function cut(text: string, most: number): string {
  if (text.length <= most) return text;
  const last = text.charCodeAt(most - 1);
  return text.slice(0, last >= 0xd800 && last < 0xdc00 ? most - 1 : most);
}

/** The name that is wanted or, where that is taken, its first `most` characters with a number behind them. */
export function freeName(wanted: string, taken: { readonly has: (name: string) => boolean }, most = 56): string {
  let name = wanted;
  for (let number = 2; taken.has(name); number++) name = `${cut(wanted, most)}-${number}`;
  return name;
}

/** What an id is of. */
export type IdKind = keyof typeof SHARED | keyof typeof OTHERS;

/** Kinds that are asked for by their id alone, and so share one space of names; with what an unnamed one is called, before its number. */
const SHARED = {
  ...{ wire: "W", splice: "SP", stud: "GND", component: "U", connector: "X", segment: "SG", zone: "Z", code: "C" },
};
const OTHERS = { place: "N", option: "OPT", build: "B" };

/** Gives out the ids of a draft: legal, used once, and the own ids of the file wherever that is possible. Files are told apart. */
class IdBook {
  readonly #taken = new Map<string, Set<string>>();
  readonly #own = new Map<string, string>();
  readonly #numbers = new Map<string, number>();
  #scope = 0;
  #prefix = "";

  /** Starts on another file: its own ids are told apart from those before, and each gets the prefix. */
  beginFile(prefix: string): void {
    this.#scope += 1;
    this.#prefix = prefix;
  }

  /** The id that a thing of the present file was given, by what the file calls it. */
  idOf(kind: IdKind, own: string): string | undefined {
    return this.#own.get(this.#key(kind, own));
  }

  /** Gives an id to a new thing by what the file calls it, an empty text gets a number; with the reason where it is another one. */
  give(kind: IdKind, own: string): { readonly id: string; readonly reason?: string } {
    const cleaned = cleanId(own);
    const wanted = cleaned === undefined ? this.#nextNumber(kind) : cut(this.#prefix + cleaned, MOST_ID_CHARACTERS);
    const id = freeName(wanted, this.#space(kind));
    this.#space(kind).add(id);
    const key = this.#key(kind, own);
    if (own !== "" && !this.#own.has(key)) this.#own.set(key, id);
    if (own === "") return { id };
    if (id !== wanted) return { id, reason: "the name is taken" };
    return wanted === this.#prefix + own
      ? { id }
      : { id, reason: "it has signs that an id cannot have, or is too long" };
  }

  /** Claims a name in the common space that belongs to no thing of its own, such as that of a half. */
  claim(name: string): boolean {
    const space = this.#space("wire");
    if (space.has(name)) return false;
    space.add(name);
    return true;
  }

  #nextNumber(kind: IdKind): string {
    const prefix = this.#prefix + { ...SHARED, ...OTHERS }[kind];
    for (;;) {
      const number = (this.#numbers.get(prefix) ?? 0) + 1;
      this.#numbers.set(prefix, number);
      if (!this.#space(kind).has(`${prefix}${number}`)) return `${prefix}${number}`;
    }
  }

  #space(kind: IdKind): Set<string> {
    const name = kind in SHARED ? "shared" : kind;
    const space = this.#taken.get(name) ?? new Set();
    this.#taken.set(name, space);
    return space;
  }

  #key(kind: IdKind, own: string): string {
    return `${this.#scope} ${kind} ${own}`;
  }
}

/** A connector of which not everything may be known yet. */
export type PartialConnector = Pick<ConnectorInput, "id" | "label" | "sides"> &
  Partial<Omit<ConnectorInput, "id" | "label" | "sides" | "cavities">> & { cavities: LooseCavity[] };

/** What a draft knows before the first thing is added. */
export interface DraftStart {
  /** Name of the file that is read first. */
  readonly file: string;
  /** Put before every own id of that file; useful when several files become one document. */
  readonly prefix?: string;
  readonly title?: string;
  readonly machine?: string;
  /** Where the data comes from, in words; absent means the file names. */
  readonly source?: string;
  readonly notes?: readonly string[];
  readonly system?: SystemInput;
  /** Whether each wire says in which row or part of the file it was found; absent means yes. */
  readonly tellsOrigin?: boolean;
}

/** What a draft has collected. Each thing is kept with its place in the file; the lists are in the order of the file. */
export class DraftParts {
  readonly components: ComponentInput[] = [];
  readonly connectors: PartialConnector[] = [];
  readonly wires: Input<"wires">[] = [];
  readonly splices: Input<"splices">[] = [];
  readonly terminalStuds: Input<"terminalStuds">[] = [];
  readonly topologyNodes: Input<"topologyNodes">[] = [];
  readonly segments: Input<"segments">[] = [];
  readonly zones: Input<"zones">[] = [];
  readonly options: Input<"options">[] = [];
  readonly builds: Input<"builds">[] = [];
  readonly states: Input<"states">[] = [];
  readonly nets: Input<"nets">[] = [];
  /** Texts of the file that became nothing else. */
  readonly notes: string[] = [];
  /** Addresses that are joined inside the component of a connector, in groups. */
  readonly joinedInside = new Map<object, readonly (readonly string[])[]>();
  readonly found = new Map<object, ImportPlace>();
  readonly problems: ImportProblem[] = [];
  readonly ids = new IdBook();
}

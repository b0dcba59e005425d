import { cleanId, cut, MOST_ID_CHARACTERS } from "./clean-id.ts";

/** What an id is of. */
export type IdKind =
  "wire" | "splice" | "stud" | "component" | "connector" | "segment" | "zone" | "code" | "place" | "option" | "build";

/** An id that was given, and why it is not the one of the file. */
export interface GivenId {
  readonly id: string;
  /** Absent where the id is the one of the file. */
  readonly reason?: string;
}

/** What an unnamed thing of each kind is called, before its number. */
const NAMELESS: Readonly<Record<IdKind, string>> = {
  wire: "W",
  splice: "SP",
  stud: "GND",
  component: "U",
  connector: "X",
  segment: "SG",
  zone: "Z",
  code: "C",
  place: "N",
  option: "OPT",
  build: "B",
};
/** Kinds that are asked for by their id alone, and so share one space of names. */
const SHARED: ReadonlySet<IdKind> = new Set([
  "wire",
  "splice",
  "stud",
  "component",
  "connector",
  "segment",
  "zone",
  "code",
]);

/** Gives out the ids of a draft: legal, used once, and the own ids of the file wherever that is possible. Files are told apart. */
export class IdBook {
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

  /**
   * Gives an id to a new thing.
   *
   * @param kind What it is.
   * @param own What the file calls it; an empty text gets a number.
   */
  give(kind: IdKind, own: string): GivenId {
    const cleaned = cleanId(own);
    const wanted = cleaned === undefined ? this.#nextNumber(kind) : cut(this.#prefix + cleaned, MOST_ID_CHARACTERS);
    const id = this.#free(kind, wanted);
    this.#space(kind).add(id);
    const key = this.#key(kind, own);
    if (own !== "" && !this.#own.has(key)) this.#own.set(key, id);
    if (own === "") return { id };
    if (id !== wanted) return { id, reason: "the name is taken" };
    return wanted === this.#prefix + own ? { id } : { id, reason: "it holds signs an id cannot have, or is too long" };
  }

  /** Claims a name in the common space that belongs to no thing of its own, such as that of a half. */
  claim(name: string): boolean {
    const space = this.#space("wire");
    if (space.has(name)) return false;
    space.add(name);
    return true;
  }

  #free(kind: IdKind, wanted: string): string {
    const space = this.#space(kind);
    if (!space.has(wanted)) return wanted;
    for (let number = 2; ; number++) {
      const candidate = `${cut(wanted, MOST_ID_CHARACTERS - 8)}-${number}`;
      if (!space.has(candidate)) return candidate;
    }
  }

  #nextNumber(kind: IdKind): string {
    const prefix = this.#prefix + NAMELESS[kind];
    for (;;) {
      const number = (this.#numbers.get(prefix) ?? 0) + 1;
      this.#numbers.set(prefix, number);
      if (!this.#space(kind).has(`${prefix}${number}`)) return `${prefix}${number}`;
    }
  }

  #space(kind: IdKind): Set<string> {
    const name = SHARED.has(kind) ? "shared" : kind;
    const space = this.#taken.get(name) ?? new Set();
    this.#taken.set(name, space);
    return space;
  }

  #key(kind: IdKind, own: string): string {
    return `${this.#scope} ${kind} ${own}`;
  }
}

import { err, ok, type Result } from "../../base/index.ts";
import { importProblem, type ImportPlace, type ImportProblem } from "../import-problem.ts";
import type { EndPoint, EndText } from "./end-text.ts";
import type { TableOptions } from "./table-options.ts";

/** How names of splices begin in several languages. Common practice, no source; reported whenever they are used unconfirmed. */
export const SPLICE_PREFIXES: readonly string[] = [
  "SP",
  "SPL",
  "SPLICE",
  "SPLEISS",
  "EPISSURE",
  "EMPALME",
  "GIUNZIONE",
  "LAS",
  "SKARV",
];
/** How names of ground points begin in several languages. Common practice, no source. */
export const GROUND_PREFIXES: readonly string[] = [
  "GND",
  "GROUND",
  "EARTH",
  "MASSE",
  "MASSA",
  "MASA",
  "TIERRA",
  "JORD",
];

const TYPES: ReadonlyMap<string, "contact" | "splice" | "ground" | "supply" | "terminal"> = new Map([
  ["connector", "contact"],
  ["contact", "contact"],
  ["pin", "contact"],
  ["splice", "splice"],
  ["ground", "ground"],
  ["earth", "ground"],
  ["supply", "supply"],
  ["stud", "terminal"],
  ["terminal", "terminal"],
]);

/** Decides what the ends of wires are, and remembers which names it had to judge by their beginning alone. */
export class PointNamer {
  readonly #options: TableOptions;
  readonly #assumed = { splice: new Set<string>(), ground: new Set<string>() };

  constructor(options: TableOptions) {
    this.#options = options;
  }

  /**
   * Says what an end is.
   *
   * @param end What the row says.
   * @param at Its place, for problems.
   */
  point(end: EndText, at: ImportPlace): Result<EndPoint, ImportProblem> {
    const type = end.type === "" ? undefined : TYPES.get(end.type.toLowerCase());
    if (end.type !== "" && type === undefined)
      return err(importProblem("end-type-unknown", at, { text: end.type.slice(0, 80) }));
    const name = end.connector;
    switch (type) {
      case "splice":
        return ok({ kind: "splice", id: name });
      case "ground":
      case "supply":
      case "terminal":
        return ok({ kind: "stud", id: name, role: type, component: end.component });
      case "contact":
        return this.#contact(end, at);
      case undefined:
        if (end.pin !== "") return this.#contact(end, at);
        return this.#bareName(end, at);
    }
  }

  /** A warning for each sort of point that was only known by how its name begins. */
  problems(): readonly ImportProblem[] {
    const problems: ImportProblem[] = [];
    for (const [sort, names, given] of [
      ["splices", this.#assumed.splice, this.#options.splicePrefixes],
      ["ground points", this.#assumed.ground, this.#options.groundPrefixes],
    ] as const) {
      if (given !== undefined || names.size === 0) continue;
      const more = names.size > 12 ? ` and ${names.size - 12} more` : "";
      problems.push(importProblem("points-assumed", {}, { sort, names: [...names].slice(0, 12).join(", ") + more }));
    }
    return problems;
  }

  #contact(end: EndText, at: ImportPlace): Result<EndPoint, ImportProblem> {
    if (end.pin === "") return err(importProblem("pin-missing", at, { connector: end.connector.slice(0, 80) }));
    if (end.connector === "" && end.component === "")
      return err(importProblem("connector-missing", at, { pin: end.pin.slice(0, 80) }));
    const { component, connector, half, pin } = end;
    return ok({ kind: "contact", component, connector, half, pin });
  }

  #bareName(end: EndText, at: ImportPlace): Result<EndPoint, ImportProblem> {
    const name = end.connector;
    if (name === "") return err(importProblem("pin-missing", at, { connector: end.component.slice(0, 80) }));
    if (startsWithOne(name, this.#options.splicePrefixes ?? SPLICE_PREFIXES)) {
      this.#assumed.splice.add(name);
      return ok({ kind: "splice", id: name });
    }
    if (startsWithOne(name, this.#options.groundPrefixes ?? GROUND_PREFIXES)) {
      this.#assumed.ground.add(name);
      return ok({ kind: "stud", id: name, role: "ground", component: end.component });
    }
    return err(importProblem("end-unclear", at, { text: name.slice(0, 80) }));
  }
}

/** Whether a name begins with one of the prefixes, and what follows is no letter: `SP1` and `SP-4`, not `SPARE`. */
function startsWithOne(name: string, prefixes: readonly string[]): boolean {
  const upper = name.toUpperCase();
  return prefixes.some((prefix) => {
    if (prefix === "" || !upper.startsWith(prefix.toUpperCase())) return false;
    return !/^\p{L}/u.test(upper.slice(prefix.length));
  });
}

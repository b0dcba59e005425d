import { err, ok, type Result } from "../../base/index.ts";
import { findAnswerTarget, type AnswerTarget } from "./answer-target.ts";
import { HarnessDocument, type Statement } from "../../harness-model/index.ts";
import { readAnswerValue, type AnswerWhat, type AnswerValue } from "./read-answer-value.ts";

/** An answer to a gap, as a person gives it. */
export interface GapAnswer {
  /** Id of the item, a cavity as `A1.X1:36`, or `machine`. */
  readonly about: string;
  /** What is answered: see {@link AnswerWhat}. */
  readonly what: string;
  /** The value in words, such as `no`, `unplug,front-probe`, `0.64`, `5 min any`. */
  readonly value: string;
  readonly by: string;
  /** Date, as `2026-11-30`. */
  readonly on: string;
  /** Needed for `harmless`. */
  readonly reason?: string;
}

/** Why an answer was not taken. */
export interface AnswerProblem {
  readonly about: string;
  readonly message: string;
  readonly hint: string;
}

/**
 * Takes the answer to a gap: sets the field in the document and writes down who said it and when. `harmless` sets no field: it is the
 * statement of a person that a line is neither airbag nor high voltage.
 *
 * @param document The document; it is not changed.
 * @param answer The answer.
 * @returns The new document, or why the answer does not fit.
 */
export function answerGap(document: HarnessDocument, answer: GapAnswer): Result<HarnessDocument, AnswerProblem> {
  const about = answer.about.trim();
  const refuse = (message: string, hint: string): Result<never, AnswerProblem> => err({ about, message, hint });
  const by = answer.by.trim();
  if (by === "") return refuse("The name is missing.", "Give a name: --by NAME.");
  const target = findAnswerTarget(document, about);
  if (!target) return refuse(`Nothing has the name "${about}".`, "Name an item of the document by its id, or machine.");
  const read = readAnswerValue(document, target, { what: answer.what, value: answer.value });
  if (!read.ok) return refuse(read.error.message, read.error.hint);
  const reason = answer.reason?.trim() ?? "";
  if (answer.what === "harmless" && reason === "")
    return refuse(
      "The reason why the line is harmless is missing.",
      'Give the reason: --reason "heater of the mirror".',
    );
  const statement = {
    about,
    what: STATED[read.value.what],
    by,
    on: answer.on,
    ...(reason === "" ? {} : { reason }),
  };
  const changed = { ...setValue(document, target, read.value), statements: withStatement(document, statement) };
  const shaped = HarnessDocument.safeParse(changed);
  if (shaped.success) return ok(shaped.data);
  return refuse(
    shaped.error.issues[0]?.message ?? "The answer does not fit the document.",
    "Correct the value or the date (2026-11-30).",
  );
}

/** What a statement calls each answer. */
const STATED: Readonly<Record<AnswerWhat, Statement["what"]>> = {
  harmless: "harmless",
  sealed: "sealed",
  permits: "permits",
  "terminal-size": "terminal-size",
  access: "access",
  zone: "zone",
  hazards: "zone",
  conditions: "conditions",
  "net-kind": "net-kind",
};

/** A later statement about the same takes the place of an earlier one. */
function withStatement(
  { statements = [] }: HarnessDocument,
  statement: object & Pick<Statement, "about" | "what">,
): unknown[] {
  return [...statements.filter(({ about, what }) => about !== statement.about || what !== statement.what), statement];
}

type Loose = { readonly [Key in keyof HarnessDocument]: unknown };

function setValue(document: HarnessDocument, target: AnswerTarget, value: AnswerValue): Loose {
  const { sort, id } = target;
  const inList = (name: keyof HarnessDocument, change: (item: Record<string, unknown>) => object): Loose => {
    const list: readonly unknown[] = document[name] as readonly unknown[];
    return { ...document, [name]: list.map((item) => (isOf(item, id) ? { ...item, ...change(item) } : item)) };
  };
  switch (value.what) {
    case "harmless":
      return document;
    case "sealed":
      return sort === "cavity"
        ? inCavities(document, target, { sealed: value.sealed })
        : inList("connectors", () => ({ sealed: value.sealed }));
    case "permits":
      return inList("connectors", () => ({ permits: value.permits }));
    case "terminal-size":
      return inCavities(document, target, { terminalMm: value.terminalMm });
    case "access": {
      const { access } = value;
      if (sort === "machine")
        return {
          ...document,
          system: { ...document.system, usualAccess: { ...document.system.usualAccess, ...access } },
        };
      const withAccess = (item: Record<string, unknown>): object => ({
        access: { ...(item["access"] as object | undefined), ...access },
      });
      return inList(sort === "stud" ? "terminalStuds" : "connectors", withAccess);
    }
    case "zone": {
      const zones = document.zones.some((zone) => zone.id === value.zone)
        ? document.zones
        : [...document.zones, { id: value.zone, label: value.zone }];
      return { ...inList(LISTS[sort] ?? "connectors", () => ({ zone: value.zone })), zones };
    }
    case "hazards":
      return inList("zones", () => ({ hazards: value.hazards }));
    case "conditions":
      return inList("states", () => ({ conditions: value.conditions }));
    case "net-kind": {
      // Once a document lists its nets it lists all of them.
      const listed = new Set(document.nets.map((net) => net.id));
      const used = new Set(document.wires.flatMap(({ net }) => net ?? []));
      const missing = [...used].filter((net) => !listed.has(net)).map((net) => ({ id: net }));
      return {
        ...document,
        nets: [...document.nets, ...missing].map((net) => (net.id === id ? { ...net, kind: value.kind } : net)),
      };
    }
  }
}

const LISTS: Partial<Readonly<Record<AnswerTarget["sort"], keyof HarnessDocument>>> = {
  connector: "connectors",
  stud: "terminalStuds",
  component: "components",
  splice: "splices",
  segment: "segments",
};

function isOf(item: unknown, id: string): item is Record<string, unknown> {
  return typeof item === "object" && item !== null && "id" in item && item.id === id;
}

/** Sets a fact of one cavity, or of all cavities of a connector that do not have it yet. */
function inCavities(
  document: HarnessDocument,
  { id, cavity }: AnswerTarget,
  fact: { terminalMm: number } | { sealed: boolean },
): Loose {
  const [name = ""] = Object.keys(fact);
  const connectors = document.connectors.map((connector) => {
    if (connector.id !== id) return connector;
    const cavities = connector.cavities.map((each) => {
      const isMeant = cavity === undefined ? !(name in each) : each.id === cavity;
      return isMeant ? { ...each, ...fact } : each;
    });
    return { ...connector, cavities };
  });
  return { ...document, connectors };
}

import { err, ok, type Result } from "../../base/index.ts";
import { findAnswerTarget, type AnswerTarget } from "./answer-target.ts";
import { HarnessDocument, isKeyOn, type Permit, type State, type Statement } from "../../harness-model/index.ts";
import { ADAPTERS, type AdapterName } from "./part-library.ts";
import type { Inside } from "./read-inside.ts";
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
  const typical = read.value.what === "inside" ? read.value.inside.typical : [];
  const reason = answer.reason?.trim() ?? (typical.length === 0 ? "" : `${TYPICAL}${[...new Set(typical)].join(", ")}`);
  if (answer.what === "harmless" && reason === "")
    return refuse(
      "The reason why the line is harmless is missing.",
      'Give the reason: --reason "heater of the mirror".',
    );
  if (read.value.what === "inside" && isOfTheData(document, target))
    return refuse(
      `The data has the inside of ${target.id} already.`,
      "Correct it there; an answer only fills in what is missing.",
    );
  const connector = document.connectors.find(({ id }) => id === target.id);
  if (read.value.what === "adapter" && connector?.permits === undefined)
    return refuse(`It is not known whether ${target.id} may be disconnected.`, "Answer permits first, then adapter.");
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
  inside: "inside",
  adapter: "adapter",
};

/** A later statement about the same takes the place of an earlier one. */
function withStatement(
  { statements = [] }: HarnessDocument,
  statement: object & Pick<Statement, "about" | "what">,
): unknown[] {
  return [...statements.filter(({ about, what }) => about !== statement.about || what !== statement.what), statement];
}

/** How the reason of a statement begins that rests on typical values. */
export const TYPICAL = "Typical values: ";

/** Whether the inside of a component comes from the data, not from an answer. */
function isOfTheData({ components, statements = [] }: HarnessDocument, { id }: AnswerTarget): boolean {
  const isStated = statements.some(({ about, what }) => about === id && what === "inside");
  return !isStated && components.some((each) => each.id === id && each.elements.length > 0);
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
    case "inside":
      return withInside(document, id, value.inside);
    case "adapter":
      return withAdapter(document, id, value.adapter);
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

/** Adds an adapter of the library that fits a connector, and permits its use there. */
function withAdapter(document: HarnessDocument, id: string, name: AdapterName): Loose {
  const adapters = ADAPTERS.flatMap(({ name: own, ...adapter }) =>
    own === name ? [{ id: `${id}-${name}`, ...adapter, fits: [id], points: "all" }] : [],
  );
  const connectors = document.connectors.map((connector) =>
    connector.id === id
      ? { ...connector, permits: [...new Set<Permit>([...(connector.permits ?? []), "adapter"])] }
      : connector,
  );
  const others = document.adapters.filter((each) => each.id !== `${id}-${name}`);
  return { ...document, connectors, adapters: [...others, ...adapters] };
}

/**
 * Puts the inside into a component: its elements, the states they have by themselves, and the supply of the machine where it has none.
 * A kind that the data names stays.
 */
function withInside(document: HarnessDocument, id: string, { kind, elements, follows, supply }: Inside): Loose {
  const components = document.components.map((component) =>
    component.id === id
      ? { ...component, kind: component.kind === "other" ? kind : component.kind, elements }
      : component,
  );
  const isOwn = ({ of }: { readonly of: string }): boolean => of.slice(0, of.lastIndexOf(".")) === id;
  const states = document.states.map((state) => {
    const own = follows.flatMap(({ of, part }) => settingIn(state, of, part));
    const settings = [...(state.settings ?? []).filter((setting) => !isOwn(setting)), ...own];
    return settings.length === 0 && state.settings === undefined ? state : { ...state, settings };
  });
  const system = supply && !document.system.supply ? { ...document.system, supply } : document.system;
  return { ...document, components, states, system };
}

/** How a part stands in a state: without the battery there is no supply, without the key nothing that follows it. */
function settingIn({ conditions, ...state }: State, of: string, part: "key" | "battery"): readonly object[] {
  if (conditions.length === 0) return [];
  const isOn = part === "key" ? isKeyOn({ ...state, conditions }) : !conditions.includes("battery-disconnected");
  return [{ of, is: isOn ? "on" : "off" }];
}

import type { Harness, HarnessDocument } from "../../harness-model/index.ts";
import type { Conditions, Question } from "../../application/index.ts";
import type { AppState } from "./app.svelte.ts";
import { writePageLink } from "./page-link.ts";

/** What differs from the document for a reading, apart from faults, which have switches of their own. */
export type ReadingConditions = Omit<Conditions, "faults">;
/** The lists of conditions. */
export type ConditionList = "unplugged" | "adapters" | "settings";

/** The conditions a question is asked under; none for one that is not about readings. */
export function conditionsOf(question: Question | undefined): ReadingConditions {
  if (question?.kind !== "expected" && question?.kind !== "table") return {};
  const { unplugged = [], adapters = [], settings = [] } = question;
  return { unplugged, adapters, settings };
}

/** Conditions with one more text in a list; a setting takes the place of an earlier one of the same item. */
export function withCondition(conditions: ReadingConditions, list: ConditionList, text: string): ReadingConditions {
  const before = conditions[list] ?? [];
  const name = (each: string): string => (each.split("=")[0] ?? each).trim().toLowerCase();
  return { ...conditions, [list]: [...before.filter((each) => name(each) !== name(text)), text] };
}

/** Conditions without a text of a list. */
export function withoutCondition(conditions: ReadingConditions, list: ConditionList, text: string): ReadingConditions {
  return { ...conditions, [list]: (conditions[list] ?? []).filter((each) => each !== text) };
}

/** The conditions in words, one a phrase. */
export function conditionWords({ unplugged = [], adapters = [], settings = [] }: ReadingConditions): readonly string[] {
  return [
    ...unplugged.map((id) => `${id} disconnected`),
    ...adapters.map((id) => `${id} fitted`),
    ...settings.map((text) => text.replace("=", " = ")),
  ];
}

/** A quantity of the outside world that a reading may depend on. */
export interface QuantityRow {
  readonly name: string;
  readonly unit: string;
  /** What the state of the machine says. */
  readonly ofState: number | undefined;
}

/** Quantities that parts follow or that states give, by name. */
export function quantityRows(
  { states, components }: HarnessDocument,
  stateId: string | undefined,
): readonly QuantityRow[] {
  const units = new Map(
    states.flatMap(({ quantities = [] }) => quantities.map(({ name, unit }) => [name, unit] as const)),
  );
  const ofParts = components.flatMap(({ elements }) =>
    elements.flatMap((each) => ("quantity" in each ? [each.quantity] : [])),
  );
  const ofState = states.find(({ id }) => id === stateId)?.quantities ?? [];
  return [...new Set([...units.keys(), ...ofParts])].toSorted().map((name) => ({
    name,
    unit: units.get(name) ?? "",
    ofState: ofState.find((each) => each.name === name)?.value,
  }));
}

/** How a part may be set by hand; a percentage is a duty cycle. */
export const STANDS = ["open", "closed", "on", "off", "25%", "50%", "75%"] as const;

/** Parts that can be set by hand: what opens, closes, drives or is switched. */
export function settableParts(harness: Harness): readonly string[] {
  return harness.edges.flatMap((edge) => {
    if (edge.kind !== "element") return [];
    const isSettable = ["switch", "contact", "driver", "source", "load", "lamp"].includes(edge.element.kind);
    return isSettable ? [`${edge.component.id}.${edge.element.id}`] : [];
  });
}

/** Asks a question that has no fields of its own, such as a table: by its link, as if a person had followed it. */
export function askByLink(app: AppState, question: Question): void {
  const link = writePageLink(app.link(question));
  window.history.pushState(null, "", window.location.pathname + link + window.location.hash);
  app.readAddress();
}

/** Asks what was asked last once more, under other conditions. */
export function askUnder(app: AppState, conditions: ReadingConditions): void {
  const { asked } = app;
  if (asked?.kind === "table") askByLink(app, { ...asked, ...conditions });
  else if (asked?.kind === "expected") app.askFor({ conditions });
  else app.edit({ conditions });
}

/** Where a lead may go; `unplug` is the connector that has to be disconnected for it. */
export interface LeadTarget {
  readonly at: string;
  readonly unplug?: string | undefined;
}

/** Puts a lead on a point where it may go, and asks. */
export function putLead(app: AppState, lead: "red" | "black", to: LeadTarget): void {
  const { conditions } = app.draft;
  const more = to.unplug === undefined ? conditions : withCondition(conditions, "unplugged", to.unplug);
  app.edit({ kind: "expected", ...(lead === "red" ? { from: to.at } : { to: to.at }), conditions: more });
  if (app.question) app.ask();
}

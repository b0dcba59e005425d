import { readMeter, type Probe, type OperatingConditions } from "../../simulation/index.ts";
import type { Item } from "../../connectivity/index.ts";
import type { UnresolvedAnswer } from "../answer.ts";
import { cautionsFor, forbiddenTexts } from "../cautions.ts";
import { makeHeader } from "../header.ts";
import type { ExpectMeter, ExpectQuestion } from "../question.ts";
import type { MachineContext } from "../machine-context.ts";
import type { ExpectedReadingAnswer, LeadFacts } from "./expected-answer.ts";
import { withoutBoosted } from "./boosted-advice.ts";
import {
  contactMeter,
  METER_ASSUMPTION,
  MODEL_ASSUMPTIONS,
  stateAssumption,
  typicalAssumption,
} from "./expected-parts.ts";
import { judgeLead, type JudgedLead } from "./judge-lead.ts";
import { meaningOf } from "./meaning.ts";
import { placeLeads } from "./place-leads.ts";
import { readConditions, type Understood } from "./read-conditions.ts";
import { isToldApart, readingFacts, reasonsOf, type ReadingFacts, type TrueReading } from "./reading-facts.ts";
import { wrongQuestion } from "./wrong-question.ts";
import type { WrongQuestionAnswer } from "./wrong-question-answer.ts";

const UNDERSTANDING_ONLY =
  " Not every lead is permitted there now. Use the value for understanding only, do not measure.";

type Because = ExpectedReadingAnswer["because"][number];

/** A question whose leads stand and whose conditions are understood. */
interface ResolvedQuestion {
  readonly meter: ExpectMeter;
  readonly probe: Probe;
  readonly leads: readonly JudgedLead[];
  readonly understood: Understood;
  readonly notes: readonly string[];
  /** What is said of airbag and high-voltage circuits that a lead would touch. */
  readonly forbidden: readonly string[];
  readonly calculateOnly: boolean;
}

/**
 * Expected reading between two points, healthy or faulty. A lead goes on permitted points only: where it may not go there is no
 * figure, but why, and the nearest points where it may; unless the question says that the figure is for understanding.
 *
 * @param context The machine in its build and state.
 * @param question The points as typed, the meter, and what differs from the document.
 * @returns The reading; or the answer that asks for other names, or says what is wrong with the question.
 */
export function askExpectedReading(
  context: MachineContext,
  question: ExpectQuestion,
): ExpectedReadingAnswer | UnresolvedAnswer | WrongQuestionAnswer {
  const understood = readConditions(context, question);
  if (!understood.ok) return understood.error;
  const { operatingConditions } = understood.value;
  const placed = placeLeads(context, question, understood.value);
  if (!placed.ok) return placed.error;
  const resolved: ResolvedQuestion = {
    meter: question.meter ?? "dc-voltage",
    understood: understood.value,
    forbidden: [],
    calculateOnly: question.calculateOnly === true,
    ...placed.value,
  };
  const forbidden = forbiddenTexts(context.harness, itemsOf(resolved));
  if (forbidden.length > 0) return makeAnswer(context, { ...resolved, forbidden }, NOT_READ);
  const reading = readMeter(context.harness, { operatingConditions, probe: resolved.probe });
  if (reading.kind === "wrong-question") return wrongQuestion(context, reading.problems);
  return makeAnswer(context, resolved, reading);
}

/** No figure is given where no check is suggested. */
const NOT_READ: TrueReading = { kind: "refused", disconnect: [], because: [], holdsIn: [] };

function itemsOf({ leads }: ResolvedQuestion): readonly Item[] {
  return leads.map((lead) => lead.item);
}

function makeAnswer(context: MachineContext, resolved: ResolvedQuestion, taken: TrueReading): ExpectedReadingAnswer {
  const { understood, meter, probe, forbidden } = resolved;
  const leads = resolved.leads.map((lead) =>
    judgeLead(context, lead, { meter: contactMeter(context, meter, lead.item), opened: understood.opened }),
  );
  const notPlaced = leads.filter(({ access }) => access !== "permitted");
  const isWithheld = hasFigure(taken) && notPlaced.length > 0 && !resolved.calculateOnly;
  const reading = isWithheld ? NOT_READ : taken;
  const facts = readingFacts(reading, meter);
  const because: readonly Because[] = [
    ...forbidden.map((text) => ({ code: "forbidden", text })),
    ...(isWithheld ? notPlaced.map(({ text }) => ({ code: "not-placed", text })) : []),
    ...reasonsOf(reading).map((reason) => withoutBoosted(context, resolved.leads, reason)),
  ];
  const assumed = because.filter(({ code }) => code === "assumption").map(({ text }) => text);
  const ofWays = leads.flatMap(({ access, ways }) => (access === "permitted" ? (ways[0]?.cautions ?? []) : []));
  const isSound = forbidden.length === 0 && !isWithheld;
  return {
    ...makeHeader(context, {
      cautions: [...new Set([...cautionsFor(context, itemsOf(resolved)), ...ofWays])],
      assumptions: [
        ...stateAssumption(context),
        ...resolved.notes,
        ...typicalAssumption(context),
        ...MODEL_ASSUMPTIONS,
        METER_ASSUMPTION,
        ...assumed,
      ],
    }),
    ...facts,
    meter,
    red: probe.kind === "dc-current" ? probe.wire : probe.red,
    ...(probe.kind === "dc-current" ? {} : { black: probe.black }),
    ...understood.facts,
    because,
    text: isWithheld ? notPlacedText(notPlaced) : textOf(facts, notPlaced),
    disconnect: reading.kind === "refused" ? reading.disconnect : [],
    holdsIn: reading.holdsIn.filter((id) => meter !== "resistance" || isFitForOhms(context, id)),
    ...(understood.normal && isSound && normalFacts(context, resolved, understood.normal, facts)),
    leads,
    notPlaced: notPlaced.map(({ lead }) => lead),
    canBeMeasured: hasFigure(reading) && notPlaced.length === 0,
  };
}

function hasFigure({ kind }: TrueReading): boolean {
  return kind === "value" || kind === "floating" || kind === "overload";
}

function textOf(facts: ReadingFacts, notPlaced: readonly LeadFacts[]): string {
  const isSeen = facts.kind === "value" || facts.kind === "floating" || facts.kind === "overload";
  return `${meaningOf(facts)}${isSeen && notPlaced.length > 0 ? UNDERSTANDING_ONLY : ""}`;
}

function notPlacedText(leads: readonly LeadFacts[]): string {
  const which = leads.map(
    ({ lead, at }) => `${lead === "clamp" ? "the clamp" : `the ${lead} lead`} is not permitted at ${at}`,
  );
  const isUnknown = leads.some(({ access }) => access === "unknown");
  const why = isUnknown
    ? "it is not known whether it is permitted there"
    : "there is no permitted test point there now";
  return `No reading: ${which.join(" and ")}. Reason: ${why}.`;
}

function normalFacts(
  context: MachineContext,
  { meter, probe }: ResolvedQuestion,
  operatingConditions: OperatingConditions,
  faulty: Parameters<typeof isToldApart>[0],
): Pick<ExpectedReadingAnswer, "normal"> {
  const reading = readMeter(context.harness, { operatingConditions, probe, compareWith: [] });
  if (reading.kind === "wrong-question") return {};
  const facts = readingFacts(reading, meter);
  return { normal: { ...facts, isToldApart: isToldApart(facts, faulty) } };
}

/** That ohms would read the same in a state with the battery connected is no reason to measure them there. */
function isFitForOhms({ machine, state }: MachineContext, id: string): boolean {
  return (
    id === state?.id ||
    machine.document.states.some((each) => each.id === id && each.conditions.includes("battery-disconnected"))
  );
}

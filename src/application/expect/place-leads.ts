import { err, ok, type Result } from "../../base/index.ts";
import { readMeter, type Reading } from "../../simulation/index.ts";
import { nodeItem } from "../../connectivity/index.ts";
import { mainTerminals } from "../../harness-model/index.ts";
import type { UnresolvedAnswer } from "../answer.ts";
import type { ExpectMeter, ExpectQuestion } from "../question.ts";
import type { MachineContext } from "../machine-context.ts";
import { placeClamp } from "./place-clamp.ts";
import { probeBetween } from "./expected-parts.ts";
import { findLead, leadAtNode, type Lead } from "./find-lead.ts";
import type { JudgedLead } from "./judge-lead.ts";
import type { PlacedLeads } from "./placed-leads.ts";
import type { Understood } from "./read-conditions.ts";
import { unresolved } from "./unresolved.ts";
import type { WrongQuestionAnswer } from "./wrong-question-answer.ts";
import { wrongQuestion } from "./wrong-question.ts";

type QuestionError = UnresolvedAnswer | WrongQuestionAnswer;
type Placed = Result<PlacedLeads, QuestionError>;

/**
 * Puts the leads of a question in their places.
 *
 * Of a mated contact the harness half is taken, since both halves read the same within the drop of the contact. Where they do not, as in a
 * connector that is unplugged, the other half of a device connector is only mentioned, because a meter has no business there; of a
 * connector between harnesses the answer asks which half is meant.
 *
 * @param context The machine in its build and state.
 * @param question The points as typed, and the meter.
 * @param understood The situation to read in, and the connectors that are unplugged in it.
 */
export function placeLeads(context: MachineContext, question: ExpectQuestion, understood: Understood): Placed {
  const meter = question.meter ?? "dc-voltage";
  if (meter === "dc-current") return placeClamp(context, question);
  const red = findLead(context, question.red);
  if (!red.ok) return red;
  const black = findBlack(context, question.black, meter);
  if (!black.ok) return black;
  const pair = { red: red.value, black: black.value };
  if (pair.red.at === pair.black.at) {
    const text = `Both leads are at ${pair.red.at}. Name two points, or the two sides of a contact.`;
    return err(wrongQuestion(context, [{ code: "same-point", of: question.red, text }]));
  }
  return settleSides(context, pair, { meter, understood });
}

/** The point of the black lead: as typed, or the negative supply terminal. */
export function findBlack(
  context: MachineContext,
  asked: string | undefined,
  meter: ExpectMeter,
): Result<Lead, QuestionError> {
  if (asked !== undefined) return findLead(context, asked);
  const negative = mainTerminals(context.harness).negative;
  const node = negative === undefined ? undefined : context.harness.nodes[negative];
  if (node && negative !== undefined && meter !== "voltage-drop")
    return ok(leadAtNode(node.key, negative, nodeItem(node)));
  const why =
    meter === "voltage-drop"
      ? "A voltage drop is measured between two points of one path"
      : "There is no negative supply terminal";
  return err(
    wrongQuestion(context, [{ code: "no-black", of: "", text: `${why}. Name the point of the black (COM) lead too.` }]),
  );
}

interface Pair {
  readonly red: Lead;
  readonly black: Lead;
}

interface Task {
  readonly meter: Exclude<ExpectMeter, "dc-current">;
  readonly understood: Understood;
}

function settleSides(context: MachineContext, pair: Pair, { meter, understood }: Task): Placed {
  const { operatingConditions, opened } = understood;
  const read = (red: string, black: string): Reading =>
    readMeter(context.harness, { operatingConditions, probe: probeBetween(meter, red, black), compareWith: [] });
  const reading = read(pair.red.at, pair.black.at);
  const notes: string[] = [];
  const leads: JudgedLead[] = [];
  for (const name of ["red", "black"] as const) {
    const lead = pair[name];
    const { other } = lead;
    const isSame =
      other !== undefined &&
      !opened.has(other.connector) &&
      agrees(reading, name === "red" ? read(other.at, pair.black.at) : read(pair.red.at, other.at));
    if (other?.isOpen === true) {
      if (!isSame && !other.isDevice) return err(whichSide(context, lead, other.at));
      notes.push(sideNote(lead, other.at, isSame));
    }
    const { asked, at, item, node } = lead;
    leads.push({ lead: name, asked, at, item, nodes: [node], twin: isSame ? other.at : undefined });
  }
  if (pair.black.asked === undefined)
    notes.push(`The black (COM) lead is at ${pair.black.at}. No other point was named.`);
  return ok({ probe: probeBetween(meter, pair.red.at, pair.black.at), leads, notes });
}

/** Whether the reading at the other half lies in the band of the reading. */
function agrees(reading: Reading, other: Reading): boolean {
  if (reading.kind !== "value" || other.kind !== "value") return reading.kind === other.kind;
  return other.value >= reading.low && other.value <= reading.high;
}

function sideNote({ asked = "", at }: Lead, other: string, isSame: boolean): string {
  const note = `${asked.trim()} has two sides. Assumed: ${at}`;
  return isSame
    ? `${note}. The contact is mated, so ${other} reads the same within the voltage drop of the contact.`
    : `${note}. ${other} is separate from it in these conditions. Name it to ask for it.`;
}

function whichSide(context: MachineContext, { asked = "", at }: Lead, other: string): UnresolvedAnswer {
  const text = `"${asked.trim()}" has two sides. They are separate in these conditions. Name one of them.`;
  const items = [at, other].map((id) => ({ type: "contact", id }) as const);
  return unresolved(context, { kind: "ambiguous", asked, text, items });
}

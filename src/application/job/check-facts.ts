import { cavityContents, connectorFace, type ConnectorFace } from "../../drawing/index.ts";
import {
  changeSetup,
  checkTitle,
  conditionOf,
  COSTS,
  describeCheck,
  isMeterCheck,
  outcomesOf,
  type Check,
  type JobState,
} from "../../diagnosis/index.ts";
import { describeColour, type Harness } from "../../harness-model/index.ts";
import type { ProbePoint } from "../../measurement-safety/index.ts";
import { describeItem } from "../../connectivity/index.ts";
import { checkCodes, type PermittedCheck } from "./check-codes.ts";
import type { CheckFacts, CheckLine, LeadPlace } from "./job-answers.ts";

/**
 * A check in full: what to do, where both leads go, what a machine without a fault shows.
 *
 * @param state The job.
 * @param check One of its checks.
 */
export function checkFacts({ harness, model, setup }: JobState, check: PermittedCheck): CheckFacts {
  const { cautions: _, ...described } = describeCheck(harness, check);
  const { unplugged } = check.need;
  const common = {
    ...described,
    code: checkCodes(model.checks).get(check.key) ?? "",
    toUnplug: unplugged.filter((id) => !setup.unplugged.includes(id)),
    toPlugIn: setup.unplugged.filter((id) => !unplugged.includes(id)),
    isNewState: setup.state !== check.need.state,
    choices: choicesOf(check),
  };
  if (!isMeterCheck(check)) return { ...common, leads: [], of: describeItem(harness, check.at) };
  const leads = [leadPlace(harness, "red", check.red), leadPlace(harness, "black", check.black)];
  return { ...common, leads };
}

/** The outcomes that a person may choose from, for a check without a meter; none for a meter check. */
export function choicesOf(check: Check): CheckFacts["choices"] {
  return isMeterCheck(check) ? [] : outcomesOf(check).map(({ id, label, isNormal }) => ({ id, label, isNormal }));
}

/** The cautions of a check: those of its contact points and of its place. */
export function cautionsOfCheck({ harness }: JobState, check: PermittedCheck): readonly string[] {
  return describeCheck(harness, check).cautions;
}

/**
 * A check in one line.
 *
 * @param state The job.
 * @param check One of its checks.
 * @param bits Information it gives, where that is known.
 */
export function checkLine(state: JobState, check: PermittedCheck, bits?: number): CheckLine {
  const { key, need } = check;
  return {
    code: checkCodes(state.model.checks).get(key) ?? "",
    key,
    title: checkTitle(state.harness, check),
    condition: conditionOf(state.harness, check),
    unplugged: need.unplugged,
    minutes: minutesFromHere(state, check),
    ...(bits === undefined ? {} : { bits }),
    isDone: state.facts.readings.some((reading) => reading.check.key === key),
  };
}

/** Minutes of a check from where the work stands, getting ready included. */
export function minutesFromHere({ harness, setup }: JobState, { need, minutes }: PermittedCheck): number {
  const { states } = harness.document;
  const byId = new Map(states.map((state): [string, (typeof states)[number]] => [state.id, state]));
  return changeSetup(setup, need, { byId, costs: COSTS }).minutes + minutes;
}
/**
 * Where one lead goes: point, cavity with the view it is counted in, the wires there, the adapter.
 *
 * @param harness The harness.
 * @param lead Which lead.
 * @param point The permitted point.
 */
export function leadPlace(harness: Harness, lead: LeadPlace["lead"], point: ProbePoint): LeadPlace {
  const { adapter, unplug, item, how, method, minutes, isEstimated } = point;
  const at = point.at ?? item.id;
  const owned = harness.document.adapters.find(({ id }) => id === adapter);
  return {
    lead,
    at,
    of: describeItem(harness, item),
    how,
    class: point.class,
    method,
    minutes,
    isEstimated,
    ...(owned && { adapter: { id: owned.id, label: owned.label } }),
    ...(unplug === undefined ? {} : { unplug }),
    ...cavityOf(harness, at, unplug !== undefined),
  };
}

/** The cavity of a contact. An opened connector is seen from its mating face, a mated one from its wire entry only. */
function cavityOf(harness: Harness, at: string, isOpened: boolean): Pick<LeadPlace, "cavity" | "wires"> {
  const colon = at.lastIndexOf(":");
  const named = harness.book.sides.get(at.slice(0, colon));
  if (colon < 0 || !named) return { wires: [] };
  const { connector, side } = named;
  const id = at.slice(colon + 1);
  const view = isOpened ? ("mating-side" as const) : ("wire-side" as const);
  const face = connectorFace(connector, side, view);
  const wires = cavityContents(harness, connector, side).get(id)?.wires ?? [];
  return {
    cavity: { connector: connector.id, side: face.side, id, view, seen: seenAt(face, id) },
    wires: wires.map((wire) => wireFacts(harness, wire.id)),
  };
}

function wireFacts(harness: Harness, id: string): LeadPlace["wires"][number] {
  const { colour, crossSectionMm2, net } = harness.fitted.wires.get(id) ?? {};
  return {
    id,
    ...(colour === undefined ? {} : { colour, colourName: describeColour(colour) }),
    ...(crossSectionMm2 === undefined ? {} : { crossSectionMm2 }),
    ...(net === undefined ? {} : { net }),
  };
}

/** "mating-face view, lock at the top: row 1 of 2 from the top, position 3 of 6 from the left". */
function seenAt(face: ConnectorFace, id: string): string {
  const marks = [face.latch && `lock ${sideWords(face.latch.side)}`, face.key && `keying ${sideWords(face.key.side)}`];
  const held = [face.viewName.toLowerCase(), ...marks].filter((part) => part !== undefined).join(", ");
  const own = face.cavities.find((cavity) => cavity.id === id);
  // Around a circle there is no row to count along.
  if (!own || face.shape === "round") return held;
  const rows = [...new Set(face.cavities.map(({ y }) => y))].sort((a, b) => a - b);
  const row = face.cavities.filter(({ y }) => y === own.y).sort((a, b) => a.x - b.x);
  const which = rows.length > 1 ? `row ${rows.indexOf(own.y) + 1} of ${rows.length} from the top, ` : "";
  return `${held}: ${which}position ${row.indexOf(own) + 1} of ${row.length} from the left`;
}

function sideWords(side: NonNullable<ConnectorFace["latch"]>["side"]): string {
  return side === "top" || side === "bottom" ? `at the ${side}` : `on the ${side}`;
}

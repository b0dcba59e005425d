import type { Harness, State } from "../harness-model/index.ts";
import type { Contact } from "./findings.ts";
import { isAtRest, type NetFacts } from "./net-facts.ts";
import { hazardsIn } from "./reaching.ts";
import { METHODS, type Meter } from "./rule.ts";
import { isOfState } from "./safety-index.ts";

/** Said with every answer about where to put a meter. */
export const MAKER_FIRST =
  "The maker's procedure, local rules and licensed practice come first. If they differ from this answer, follow them.";

/** Said with every reading in volts, and to be asked for wherever 0 V or an open line is entered. */
export const METER_PROVEN =
  "A reading of 0 V or of an open line counts only if you proved the meter on a live point just before and just after.";

/** Said with every reading in ohms. */
export const OHMS_DEAD =
  "Measure resistance only with the battery disconnected and no other path between the two leads. Disconnect everything in parallel, control units first.";

const KEY_OFF_FIRST =
  "Turn the key off and wait until the control units are asleep. Then disconnect the connector, or fit or remove the adapter.";
const FITTED_BEFORE =
  "Stop the machine. Fit the lead and tie it clear of moving and hot parts. Keep hands away. Then bring the machine into the state.";
const ONE_CAVITY =
  "Work gently, one cavity at a time. Afterwards inspect the contact, seals and locks. Then mate the connector again.";
const UNNAMED_LINE =
  "The harness data does not say what this line is for. Before contact, make sure that it is not an airbag or high-voltage line.";
const UNKNOWN_ZONE =
  "The harness data does not say where this is or which hazards are there. Look for moving and hot parts first.";

/** What is known of a contact when its cautions are gathered. */
interface Cautioned {
  readonly state: State;
  readonly net: NetFacts;
  readonly meters: readonly Meter[];
}

/** The cautions of one contact: dangers of the place that hold, what the document warns of, what the method and meters ask for. */
export function contactCautions(harness: Harness, contact: Contact, about: Cautioned): readonly string[] {
  const { method, reaching, component } = contact;
  const { state, net, meters } = about;
  const leadSetup = hazardsIn(reaching, state);
  const isMoving = leadSetup.some(
    ({ kind, states }) => kind === "rotating" || (kind === "crush" && isOfState({ states })),
  );
  const isFitted = METHODS[method].isFittedBefore;
  const needsUnplugging = method === "in-line" || method === "relay-extension" || method === "front-probe";
  return [
    ...new Set([
      ...leadSetup.map((hazard) => hazard.text),
      ...documentCautions(harness, { nets: net.labels, zone: reaching.zone, component }),
      ...(reaching.isPlaceUnknown ? [UNKNOWN_ZONE] : []),
      ...(net.kinds.size === 0 ? [UNNAMED_LINE] : []),
      ...(isFitted && (isMoving || !isAtRest(state)) ? [FITTED_BEFORE] : []),
      ...(needsUnplugging ? [KEY_OFF_FIRST] : []),
      ...(method === "front-probe" ? [ONE_CAVITY] : []),
      ...(contact.adapter?.note === undefined ? [] : [contact.adapter.note]),
      ...(meters.includes("dc-voltage") ? [METER_PROVEN] : []),
      ...(meters.includes("resistance") ? [OHMS_DEAD] : []),
    ]),
  ];
}

/** What cautions of the document concern. */
interface CautionScope {
  readonly nets: Iterable<string>;
  readonly zone?: string | undefined;
  readonly component?: string | undefined;
  readonly state?: string | undefined;
}

/**
 * The cautions of the document that name one of the things concerned.
 *
 * @param concerned What is touched, where and when.
 */
export function documentCautions(harness: Harness, concerned: CautionScope): readonly string[] {
  const nets = new Set(concerned.nets);
  const names = (list: readonly string[] | undefined, id: string | undefined): boolean =>
    id !== undefined && (list?.includes(id) ?? false);
  return harness.document.cautions.flatMap(({ on, text }) => {
    if (!on) return [];
    const isMeant =
      names(on.zones, concerned.zone) ||
      names(on.components, concerned.component) ||
      names(on.states, concerned.state) ||
      (on.nets?.some((net) => nets.has(net)) ?? false);
    return isMeant ? [text] : [];
  });
}

/** The cautions every answer in a state carries: the maker first, those of the document without a place, those of the state. */
export function generalCautions(harness: Harness, state: State): readonly string[] {
  const everywhere = harness.document.cautions.filter((caution) => !caution.on).map((caution) => caution.text);
  return [...new Set([MAKER_FIRST, ...everywhere, ...documentCautions(harness, { nets: [], state: state.id })])];
}

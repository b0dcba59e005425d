import type { Harness, State } from "../model/index.ts";
import { METER_PROVEN, OHMS_DEAD } from "./caution-texts.ts";
import type { Contact } from "./contact.ts";
import { documentCautions } from "./document-cautions.ts";
import { METHODS, type Meter } from "./method.ts";
import type { NetFacts } from "./net-facts.ts";
import { isOfState } from "./hazards.ts";
import { hazardsIn } from "./reaching.ts";
import { isAtRest } from "./rest.ts";

const KEY_OFF_FIRST =
  "Key off and control units asleep before the connector is unplugged or the adapter is fitted or taken out.";
const FITTED_BEFORE =
  "Fit the lead with the machine stopped, tie it clear of moving and hot parts, and keep all hands away before the machine is brought into the state.";
const ONE_CAVITY =
  "Gently, one cavity at a time; afterwards check the grip of the contact, seals and locks, and mate the connector again.";
const UNNAMED_LINE =
  "The harness document does not say what this line is for: make sure that it is no airbag or high-voltage line before touching it.";
const UNKNOWN_ZONE =
  "The harness data does not say where this is or what its dangers are: look for moving and hot parts first.";

/** What is known of a contact when its cautions are gathered. */
export interface Cautioned {
  readonly state: State;
  readonly net: NetFacts;
  readonly meters: readonly Meter[];
}

/** The cautions of one contact: dangers of the place that hold, what the document warns of, what the method and meters ask for. */
export function contactCautions(harness: Harness, contact: Contact, about: Cautioned): readonly string[] {
  const { method, reaching, component } = contact;
  const { state, net, meters } = about;
  const holding = hazardsIn(reaching, state);
  const isMoving = holding.some(
    ({ kind, states }) => kind === "rotating" || (kind === "crush" && isOfState({ states })),
  );
  const isFitted = METHODS[method].isFittedBefore;
  const needsUnplugging = method === "in-line" || method === "relay-extension" || method === "front-probe";
  return [
    ...new Set([
      ...holding.map((hazard) => hazard.text),
      ...documentCautions(harness, { nets: net.labels, zone: reaching.zone, component }),
      ...(reaching.isPlaceUnknown ? [UNKNOWN_ZONE] : []),
      ...(net.kinds.size === 0 ? [UNNAMED_LINE] : []),
      ...(isFitted && (isMoving || !isAtRest(state)) ? [FITTED_BEFORE] : []),
      ...(needsUnplugging ? [KEY_OFF_FIRST] : []),
      ...(method === "front-probe" ? [ONE_CAVITY] : []),
      ...(contact.adapter?.note === undefined ? [] : [contact.adapter.note]),
      ...(meters.includes("volts") ? [METER_PROVEN] : []),
      ...(meters.includes("ohms") ? [OHMS_DEAD] : []),
    ]),
  ];
}

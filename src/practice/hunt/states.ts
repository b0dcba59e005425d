import type { Fault } from "../../electrics/index.ts";
import type { Access, Harness, State } from "../../model/index.ts";
import { isReachableIn } from "../../safety/index.ts";
import { complaintWords } from "./complaint.ts";
import type { HuntState, Seen } from "./hunt-state.ts";
import { findSigns } from "./signs.ts";
import { faultsNow } from "./situation-now.ts";

/** Minutes to try the complaint and read the codes. Common practice, no source. */
export const TRY_MINUTES = 2;

/** A state of the machine by its id. */
export function stateOf({ document }: Harness, id: string): State | undefined {
  return document.states.find((state) => state.id === id);
}

/** Dangers that hurt who reaches in while they hold. */
const DANGERS: ReadonlySet<string> = new Set(["rotating", "crush", "hot", "boosted-voltage"]);

/** Stops who reaches where something turns, crushes, burns or carries raised voltage in the state the machine is in, and only in such. */
export function dangerIn(
  { harness, setup }: HuntState,
  { states, zone }: { readonly states: Access["states"]; readonly zone?: string | undefined },
): Seen | undefined {
  const hazards = harness.document.zones.find(({ id }) => id === zone)?.hazards ?? [];
  const hazard = hazards.find(
    ({ kind, states }) => DANGERS.has(kind) && (states?.some((id) => id === setup.state) ?? false),
  );
  if (hazard) {
    const reason = `${hazard.text}: nobody reaches in there in this state of the machine.`;
    return { kind: "stopped", rule: "danger-of-place", reason, source: "harness document", mayInsist: false };
  }
  const state = harness.document.states.find(({ id }) => id === setup.state);
  const isOut = state !== undefined && !isReachableIn(states, state);
  return isOut ? { kind: "not-ready", text: "This place cannot be reached in this state of the machine." } : undefined;
}

/** What a driver and a code reader find now: connectors left open show as well. */
export function tryComplaint(hunt: HuntState): Seen {
  const { harness, setup } = hunt;
  const faults: readonly Fault[] = [
    ...faultsNow(hunt, true),
    ...setup.unplugged.map((of): Fault => ({ kind: "unplugged", of })),
  ];
  const signs = findSigns(harness, faults);
  if (!signs)
    return { kind: "outcome", outcome: "unsteady", text: "Something keeps switching on and off.", isHealthy: false };
  const words = complaintWords(harness, signs, false);
  return { kind: "tried", signs, words: words.length > 0 ? words : ["Everything works, and no code comes back."] };
}

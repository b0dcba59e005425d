import type { HuntEvent } from "../../records/index.ts";
import { isSilent, liveStates } from "../hunt/signs.ts";
import type { HuntState, HuntStep } from "../hunt/hunt-state.ts";
import { isKeyOn } from "../../model/index.ts";
import { stateOf } from "../hunt/states.ts";
import { stepHunt } from "../hunt/step-hunt.ts";
import { keyOffState } from "./check-events.ts";

/**
 * Names a cause, repairs it, plugs everything in again, takes the last reading again that was taken, and tries the complaint.
 *
 * @param hunt The hunt.
 * @param cause The cause.
 * @returns The hunt after it, and whether the complaint is gone.
 */
export function repairAndProve(
  hunt: HuntState,
  cause: Extract<HuntEvent, { kind: "name" }>,
): { readonly hunt: HuntState; readonly isGone: boolean } {
  const off = keyOffState(hunt, hunt.setup.state);
  let now = stepHunt(hunt, cause);
  if (now.setup.state !== off) now = stepHunt(now, { kind: "state", to: off });
  now = stepHunt(now, { ...cause, kind: "repair" });
  const again = now.isMended ? lastReading(hunt) : undefined;
  if (again) now = takeAgain(now, again);
  now = closeAll(now);
  now = stepHunt(now, { kind: "try", state: complaintState(hunt) });
  const seen = now.steps.at(-1)?.seen;
  return { hunt: now, isGone: seen?.kind === "tried" && isSilent(seen.signs) };
}

/** The state in which the complaint shows: of the first bad function, otherwise key on. */
function complaintState({ harness, task }: HuntState): string {
  const [first] = task.signs.functions;
  return first?.state ?? liveStates(harness)[0]?.id ?? "";
}

function lastReading({ steps }: HuntState): HuntStep | undefined {
  return steps.findLast(({ seen, event }) => seen.kind === "reading" && event.kind === "measure");
}

/** The same leads in the same state with the same connectors open. */
function takeAgain(hunt: HuntState, { event, standing }: HuntStep): HuntState {
  let now = hunt;
  const close = now.setup.unplugged.filter((id) => !standing.unplugged.includes(id));
  const open = standing.unplugged.filter((id) => !now.setup.unplugged.includes(id));
  for (const connector of close) now = stepHunt(now, { kind: "close", connector });
  for (const connector of open) now = stepHunt(now, { kind: "open", connector });
  if (now.setup.state !== standing.state) now = stepHunt(now, { kind: "state", to: standing.state });
  return stepHunt(now, event);
}

function closeAll(hunt: HuntState): HuntState {
  let now = hunt;
  const state = stateOf(now.harness, now.setup.state);
  if (now.setup.unplugged.length > 0 && state && isKeyOn(state))
    now = stepHunt(now, { kind: "state", to: keyOffState(now, "") });
  for (const connector of now.setup.unplugged) now = stepHunt(now, { kind: "close", connector });
  return now;
}

import { isMeterCheck, type Check } from "../../diagnosis/index.ts";
import { isKeyOn } from "../../harness-model/index.ts";
import type { ExerciseEvent } from "../../job-records/index.ts";
import type { ProbePoint } from "../../measurement-safety/index.ts";
import { adapterOf, fittedKey, ownerOf, stateOf, type ExerciseState } from "../exercise/exercise-state.ts";

/**
 * What a person does for a check from where the hunt stands: key off, close and open connectors, fit adapters, set the state, place the
 * leads or look.
 */
export function eventsOfCheck(exercise: ExerciseState, check: Check): readonly ExerciseEvent[] {
  const { setup } = exercise;
  const { need } = check;
  const close = setup.unplugged.filter((id) => !need.unplugged.includes(id));
  const open = need.unplugged.filter((id) => !setup.unplugged.includes(id));
  const fit = isMeterCheck(check) ? adaptersFor(exercise, [check.red, check.black]) : [];
  const events: ExerciseEvent[] = [];
  let state = setup.state;
  if (close.length + open.length + fit.length > 0) {
    const off = keyOffState(exercise, need.state);
    if (off !== state) events.push({ kind: "state", to: off });
    state = off;
  }
  events.push(...close.map((connector): ExerciseEvent => ({ kind: "close", connector })));
  events.push(...open.map((connector): ExerciseEvent => ({ kind: "open", connector })));
  events.push(...fit);
  if (need.state !== state) events.push({ kind: "state", to: need.state });
  if (isMeterCheck(check)) {
    if (check.kind === "resistance" && !exercise.areLeadsZeroed) events.push({ kind: "zero-leads" });
    events.push({
      kind: "measure",
      meter: check.kind,
      red: leadOf(exercise, check.red),
      black: leadOf(exercise, check.black),
    });
  } else events.push(handEvent(check));
  return events;
}

function handEvent({ kind, at }: Exclude<Check, { kind: "dc-voltage" | "resistance" }>): ExerciseEvent {
  // A check names things of the machine only; nets, zones and codes are nothing to be looked at.
  const { type } = at;
  if (type === "zone" || type === "net" || type === "code" || type === "inner" || type === "open-end")
    throw new RangeError(`Cannot do "${kind}" at a ${type}`);
  return { kind, at: { type, id: at.id } };
}

/** The state in which connectors are worked on: that of the check if its key is off, otherwise isolated or at rest. */
export function keyOffState({ harness, setup }: ExerciseState, wanted: string): string {
  const { states } = harness.document;
  const asWanted = stateOf(harness, wanted);
  if (asWanted && !isKeyOn(asWanted)) return wanted;
  const now = stateOf(harness, setup.state);
  if (now && !isKeyOn(now)) return now.id;
  return (states.find((state) => !isKeyOn(state)) ?? asWanted)?.id ?? wanted;
}

function adaptersFor({ harness, fitted }: ExerciseState, points: readonly ProbePoint[]): readonly ExerciseEvent[] {
  const events = new Map<string, ExerciseEvent>();
  for (const { adapter, at } of points) {
    if (adapter === undefined || at === undefined) continue;
    const key = fittedKey(harness, adapter, at);
    if (fitted.includes(key)) continue;
    const fits = adapterOf(harness, adapter)?.fits ?? [];
    const owner = ownerOf(harness, at) ?? at;
    events.set(key, { kind: "fit", adapter, at: fits.includes(owner) ? owner : (fits[0] ?? owner) });
  }
  return [...events.values()];
}

function leadOf(
  { harness }: ExerciseState,
  { at, item, method, adapter }: ProbePoint,
): Extract<ExerciseEvent, { kind: "measure" }>["red"] {
  const point = at !== undefined && harness.nodeNumbers.has(at) ? at : item.id;
  return { point, method, ...(adapter === undefined ? {} : { adapter }) };
}

import { solveCircuit, type Fault, type Settled } from "../../electrics/index.ts";
import { isKeyOn, type Harness, type State } from "../../model/index.ts";
import { codesSet } from "./code-signs.ts";
import type { FaultyMachine } from "./faulty-machine.ts";
import { findWatched, type Watched } from "./watched.ts";

/** A function that a driver finds wrong: nothing works, works weakly, works when it should not, or a switch that is not noticed. */
export interface FunctionSign {
  readonly component: string;
  readonly what: "dead" | "weak" | "on" | "unseen";
  /** The first state in which it shows. */
  readonly state: string;
}

/** What shows of a fault without any tool but a code reader. */
export interface Signs {
  readonly codes: readonly string[];
  readonly functions: readonly FunctionSign[];
  /** Control units that are dead; their codes cannot be read. */
  readonly deadModules: readonly string[];
}

/** Below this share of its healthy voltage a consumer does nothing, below the other it is weak. Common practice, no source. */
const DEAD_SHARE = 0.5;
const WEAK_SHARE = 0.88;
/** A share of the nominal voltage that counts as on. */
const ON_SHARE = 0.3;

/**
 * Works out from the solver what a driver and a code reader find: codes as the prediction of the diagnosis has them, functions by the
 * voltage across each consumer in each state, control units without supply.
 *
 * @param harness The machine.
 * @param faults What is wrong; an unplugged connector counts as a fault here.
 * @returns The signs; undefined where the machine has no steady state with these faults.
 */
export function findSigns(harness: Harness, faults: readonly Fault[]): Signs | undefined {
  if (faults.length === 0) return { codes: [], functions: [], deadModules: [] };
  const functions = new Map<string, FunctionSign>();
  const dead = new Set<string>();
  const live: FaultyMachine["live"][number][] = [];
  for (const state of liveStates(harness)) {
    const healthy = healthyIn(harness, state);
    const now = solveCircuit(harness, { state: state.id, faults });
    if (now.kind !== "settled") return undefined;
    if (!healthy) continue;
    live.push({ state, healthy, now });
    for (const id of now.modes.dead) {
      if (healthy.modes.dead.has(id)) continue;
      dead.add(id);
      functions.set(id, functions.get(id) ?? { component: id, what: "dead", state: state.id });
    }
    for (const watched of findWatched(harness)) {
      const what = judge(harness, watched, { healthy, now });
      const known = functions.get(watched.component);
      if (what && (!known || (known.what === "weak" && what === "dead")))
        functions.set(watched.component, { component: watched.component, what, state: state.id });
    }
  }
  return {
    codes: codesSet({ harness, faults, dead, live }),
    functions: [...functions.values()],
    deadModules: [...dead],
  };
}

/** Whether nothing at all shows. */
export function isSilent({ codes, functions }: Signs): boolean {
  return codes.length === 0 && functions.length === 0;
}

/** States in which functions are tried: those with the key on. */
export function liveStates({ document }: Harness): readonly State[] {
  return document.states.filter(isKeyOn);
}

// The healthy machine in a state is asked for again and again; kept a harness, which never changes.
const healthyKnown = new WeakMap<Harness, Map<string, Settled | undefined>>();

function healthyIn(harness: Harness, state: State): Settled | undefined {
  const known = healthyKnown.get(harness) ?? new Map<string, Settled | undefined>();
  healthyKnown.set(harness, known);
  if (!known.has(state.id)) {
    const answer = solveCircuit(harness, { state: state.id });
    known.set(state.id, answer.kind === "settled" ? answer : undefined);
  }
  return known.get(state.id);
}

function judge(
  harness: Harness,
  { kind, from, to }: Watched,
  { healthy, now }: { readonly healthy: Settled; readonly now: Settled },
): FunctionSign["what"] | undefined {
  const before = Math.abs(voltAcross(healthy, from, to));
  const after = Math.abs(voltAcross(now, from, to));
  const on = ON_SHARE * harness.document.system.nominalVolt;
  if (kind === "input") return Math.abs(after - before) > on ? "unseen" : undefined;
  if (before < on) return after > DEAD_SHARE * harness.document.system.nominalVolt ? "on" : undefined;
  if (after < DEAD_SHARE * before) return "dead";
  return after < WEAK_SHARE * before ? "weak" : undefined;
}

/** Volts across two nodes; none where one of them hangs on nothing. */
function voltAcross({ solved }: Settled, from: number, to: number): number {
  if (solved.islands[from] !== solved.islands[to]) return 0;
  return (solved.volts[from] ?? 0) - (solved.volts[to] ?? 0);
}

import { isKeyOn, type State } from "../../harness-model/index.ts";
import type { SetupModel } from "../plan/plan-problem.ts";
import type { CheckNeed } from "./check.ts";
import { COSTS, type CostTable } from "./cost-table.ts";

/** Where the work stands: machine state, what is unplugged, what has been reached. */
export interface WorkSetup {
  readonly state: string;
  readonly unplugged: readonly string[];
  readonly reached: readonly string[];
}

/** Set-ups and needs by number, for the planner. */
export interface Setups extends SetupModel {
  readonly numberOf: (setup: WorkSetup) => number;
  readonly needOf: (need: CheckNeed) => number;
  readonly setupOf: (number: number) => WorkSetup;
}

/**
 * Makes the set-up model of a machine: what is open stays open until a check needs it closed, what has been reached stays reached, changes
 * of state and of what is plugged in take time.
 *
 * Numbers are given out as set-ups are met; what a change costs depends on nothing else.
 *
 * @param states States of the machine.
 */
export function makeSetups(states: readonly State[], costs: CostTable = COSTS): Setups {
  const setups = makeRegister<WorkSetup>(setupKey);
  const needs = makeRegister<CheckNeed>(
    (need) =>
      `${need.state}|${need.unplugged.join()}|${need.places.map(({ key, minutes }) => `${key}=${minutes}`).join()}`,
  );
  const byId = new Map(states.map((state): [string, State] => [state.id, state]));
  const known = new Map<number, { readonly minutes: number; readonly next: number }>();
  return {
    numberOf: setups.numberOf,
    needOf: needs.numberOf,
    setupOf: setups.item,
    change: (from, to) => {
      const key = from * 65_536 + to;
      const before = known.get(key);
      if (before) return before;
      const { minutes, next } = changeSetup(setups.item(from), needs.item(to), { byId, costs });
      const change = { minutes, next: setups.numberOf(next) };
      known.set(key, change);
      return change;
    },
  };
}

/** What a change of set-up takes, and where the work stands after it. */
export function changeSetup(
  setup: WorkSetup,
  need: CheckNeed,
  { byId, costs }: { readonly byId: ReadonlyMap<string, State>; readonly costs: CostTable },
): { readonly minutes: number; readonly next: WorkSetup } {
  const opened = need.unplugged.filter((id) => !setup.unplugged.includes(id));
  const closed = setup.unplugged.filter((id) => !need.unplugged.includes(id));
  const fresh = need.places.filter(({ key }) => !setup.reached.includes(key));
  let minutes = fresh.reduce((sum, place) => sum + place.minutes, 0);
  minutes += closed.length * costs.closeMinutes;
  minutes += opened.filter((id) => setup.reached.includes(`connector ${id}`)).length * costs.reopenMinutes;
  const isReplugged = opened.length + closed.length > 0;
  const from = byId.get(setup.state);
  const to = byId.get(need.state);
  // Nothing is unplugged or plugged in with the key on.
  if (isReplugged && from && isKeyOn(from)) minutes += costs.keyMinutes;
  if (setup.state !== need.state || (isReplugged && to && isKeyOn(to))) minutes += stateMinutes(to, from, costs);
  const reached = [...new Set([...setup.reached, ...need.places.map(({ key }) => key)])].sort();
  return { minutes, next: { state: need.state, unplugged: need.unplugged, reached } };
}

function stateMinutes(to: State | undefined, from: State | undefined, costs: CostTable): number {
  const conditions = to?.conditions ?? [];
  const leaving =
    from?.conditions.includes("battery-disconnected") && !conditions.includes("battery-disconnected")
      ? costs.isolateMinutes / 2
      : 0;
  if (conditions.includes("battery-disconnected")) return costs.isolateMinutes;
  if (conditions.includes("running")) return leaving + costs.runMinutes;
  if (conditions.includes("cranking")) return leaving + costs.crankMinutes;
  return leaving + costs.keyMinutes;
}

function setupKey({ state, unplugged, reached }: WorkSetup): string {
  return `${state}|${unplugged.join()}|${reached.join()}`;
}

function makeRegister<Thing>(keyOf: (item: Thing) => string): {
  readonly numberOf: (item: Thing) => number;
  readonly item: (number: number) => Thing;
} {
  const numbers = new Map<string, number>();
  const items: Thing[] = [];
  return {
    numberOf: (item) => {
      const key = keyOf(item);
      const known = numbers.get(key);
      if (known !== undefined) return known;
      numbers.set(key, items.length);
      return items.push(item) - 1;
    },
    item: (number) => {
      const item = items[number];
      if (item === undefined) throw new RangeError(`There is no set-up ${number}`);
      return item;
    },
  };
}

import type { Fault } from "../../electrics/index.ts";
import type { Item } from "../../trace/index.ts";
import type { Candidate, CandidatePlaces, FaultMode, WeightFactor } from "./candidate.ts";
import type { PriorTable, ThingSort } from "./prior-table.ts";

/** A thing that may fail, before its ways of failing are listed. */
export interface FailingThing {
  readonly item: Item;
  readonly sort: ThingSort;
  readonly name: string;
  readonly repair: string;
  readonly places: CandidatePlaces;
  /** Factors that hold for every way it fails, its own weight aside. */
  readonly factors: readonly WeightFactor[];
  /** How many metres, for a wire. */
  readonly amount?: number;
}

/** Words of each way of failing. */
const MODE_WORDS: Readonly<Record<FaultMode, string>> = {
  open: "open",
  resistance: "high resistance",
  "short-to-ground": "short to ground",
  "short-to-supply": "short to a supply wire",
  bridge: "shorted",
  blown: "blown",
  "stuck-open": "does not close",
  "stuck-closed": "does not open",
  dead: "gives nothing",
  "always-on": "always on",
  drift: "wrong value",
  unplugged: "not plugged in",
  swapped: "wires swapped",
  intermittent: "comes and goes",
};

/**
 * Lists a thing's ways of failing as candidates, each with its share of the thing's weight.
 *
 * @param priors The weights.
 * @param thing The thing.
 * @param ways What is put into the solver for each way, at each severity; ways without a share in the table are left out.
 */
export function makeCandidates(
  priors: PriorTable,
  thing: FailingThing,
  ways: Readonly<Partial<Record<FaultMode, readonly (readonly Fault[])[]>>>,
): readonly Candidate[] {
  const { item, sort, name, repair, places, factors, amount = 1 } = thing;
  const own = { factor: priors.things[sort] * amount, why: sort.replaceAll("-", " ") };
  return (Object.keys(MODE_WORDS) as FaultMode[]).flatMap((mode) => {
    const share = priors.modes[sort][mode];
    const levels = ways[mode];
    if (share === undefined || levels === undefined || levels.length === 0) return [];
    const id = `${mode} ${item.id}`;
    const label = `${name}: ${MODE_WORDS[mode]}`;
    const shared = [
      own,
      { factor: share, why: `${MODE_WORDS[mode]}, share of a ${sort.replaceAll("-", " ")}` },
      ...factors,
    ];
    return [{ id, mode, item, label, repair, levels, factors: shared, places }];
  });
}

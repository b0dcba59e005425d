import type { Fault, Settled } from "../../electrics/index.ts";
import type { Harness, State } from "../../model/index.ts";

/** The machine with some faults, as far as codes look at it. */
export interface FaultyMachine {
  readonly harness: Harness;
  readonly faults: readonly Fault[];
  /** Control units without supply. */
  readonly dead: ReadonlySet<string>;
  /** The states with the key on, healthy and with the faults. */
  readonly live: readonly { readonly state: State; readonly healthy: Settled; readonly now: Settled }[];
}

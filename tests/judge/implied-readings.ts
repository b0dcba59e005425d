import type { MeterSetting } from "./truth/machine.ts";
import { Islands } from "./truth/circuit.ts";

/**
 * Counts the readings that earlier ones foretell without any thinking about the machine: the same leads once more, the leads the other way
 * round, or volts between two points that a chain of earlier voltages joins, all in one state with the same connectors off.
 */
export class ImpliedReadings {
  readonly #setups = new Map<string, Islands>();

  /** Whether this reading was implied; it is known from now on. */
  take({ meter, state, red, black, unplugged }: MeterSetting): boolean {
    // Ohms of two stretches do not give those of both: only the same two points count.
    const pair = meter === "ohms" ? [red, black].sort().join(" ") : "";
    const key = JSON.stringify([meter, state, [...unplugged].sort(), pair]);
    const known = this.#setups.get(key) ?? new Islands();
    this.#setups.set(key, known);
    const isImplied = known.of(red) === known.of(black);
    known.join(red, black);
    return isImplied;
  }
}

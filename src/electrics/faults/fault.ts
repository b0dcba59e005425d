/**
 * What is wrong with the machine, as data. Targets are named as everywhere: a wire `W78`, a mated contact `XE1:1` (or either half of it),
 * an element `S4.contact`, a wire's end at a splice or stud `W78@SP13`.
 */
export type Fault =
  /** No current passes. */
  | { readonly kind: "open"; readonly of: string }
  /** So many ohms more in the way. */
  | { readonly kind: "resistance"; readonly of: string; readonly ohm: number }
  /** A wire or point touches another point, wire or net; `atPercent` is where on the wire, from its first end, 50 when left out. */
  | {
      readonly kind: "short";
      readonly of: string;
      readonly to: string;
      readonly ohm: number;
      readonly atPercent?: number;
    }
  /** Water or metal between two cavities. */
  | { readonly kind: "bridge"; readonly between: readonly [string, string]; readonly ohm: number }
  /** A fuse or lamp. */
  | { readonly kind: "blown"; readonly of: string }
  /** A switch or relay contact that does not move, a driver or source that does not follow. */
  | { readonly kind: "stuck-open" | "stuck-closed" | "stuck-on" | "stuck-off"; readonly of: string }
  /** A sensor, resistance or regulator whose value is `factor` times what it should be, plus `offset` (ohm, volt, or share of the supply). */
  | { readonly kind: "drift"; readonly of: string; readonly factor: number; readonly offset: number }
  /** A connector, or the half that is left off. */
  | { readonly kind: "unplugged"; readonly of: string }
  /** The ring of one wire on its stud, `W06@GND-C1`; without ohm it makes no contact at all. */
  | { readonly kind: "loose"; readonly of: string; readonly ohm?: number }
  /** The wires of two cavities of one half stand in each other's place. */
  | { readonly kind: "swapped"; readonly cavities: readonly [string, string] };

/** Every kind of fault. */
export const FAULT_KINDS = [
  "open",
  "resistance",
  "short",
  "bridge",
  "blown",
  "stuck-open",
  "stuck-closed",
  "stuck-on",
  "stuck-off",
  "drift",
  "unplugged",
  "loose",
  "swapped",
] as const satisfies readonly Fault["kind"][];

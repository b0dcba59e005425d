/** What is wrong with the machine, in the plain form of the workshop cases. */
export type Fault =
  | { readonly kind: "open" | "blown"; readonly of: string }
  | { readonly kind: "resistance" | "value"; readonly of: string; readonly ohm: number }
  | {
      readonly kind: "short";
      readonly of: string;
      readonly to: string;
      readonly ohm: number;
      /** Share of the wire from its first end, 0 to 1; the middle where it is missing. */
      readonly at?: number;
    }
  | { readonly kind: "bridge"; readonly of: readonly [string, string]; readonly ohm: number }
  | { readonly kind: "unplugged"; readonly of: string }
  | { readonly kind: "swapped"; readonly of: readonly [string, string] }
  | { readonly kind: "stuck"; readonly of: string; readonly is: "open" | "closed" }
  | {
      readonly kind: "source";
      readonly of: string;
      readonly emf?: number;
      readonly ohm?: number;
      readonly off?: boolean;
    }
  | { readonly kind: "drift"; readonly of: string; readonly factor?: number; readonly plus?: number };

import type { Dash } from "./shapes.ts";

/** Lengths of the dashes of each sort of broken line in px, as `stroke-dasharray` has them; `stripe` is that of a wire. */
export const DASHES: Readonly<Record<Dash | "stripe", string>> = {
  link: "7 4",
  outline: "10 3 2 3",
  short: "3 2",
  stripe: "7 5",
};

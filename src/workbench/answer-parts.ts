import { z } from "zod";

export { Item as item, ItemFacts as facts } from "../trace/index.ts";

/** What every answer carries: the machine, build and state it holds for, where its figures come from, cautions. */
export const header = {
  machine: z.string(),
  build: z.string(),
  state: z.string().optional(),
  /** `data`: as written in the harness document; `computed`: worked out from it by the named assumptions. */
  origin: z.enum(["data", "computed"]),
  assumptions: z.array(z.string()),
  cautions: z.array(z.string()),
  /** What the data leaves open about the things of the answer; absent where it is nothing. */
  notKnown: z.array(z.string()).optional(),
};

import { z } from "zod";

export { Item as item, ItemFacts as facts } from "../connectivity/index.ts";

/** What every answer carries: the machine, build and state it holds for, where its figures come from, cautions. */
export const header = {
  machine: z.string().describe("Name of the machine"),
  build: z.string().describe("Id of the variant (build)"),
  state: z.string().optional().describe("Id of the state of the machine"),
  origin: z
    .enum(["data", "computed"])
    .describe("`data`: as written in the harness document; `computed`: calculated from it with the assumptions named"),
  assumptions: z.array(z.string()).describe("What is assumed, in sentences"),
  cautions: z.array(z.string()).describe("Warnings to read before touching the machine"),
  notKnown: z
    .array(z.string())
    .optional()
    .describe("What the data leaves open about the items of the answer; absent where it is nothing"),
};

import { z } from "zod";
import type { Frozen } from "../frozen.ts";

const machine = z.object({
  machine: z.string().describe("Name of the machine"),
  revision: z.string().optional().describe("Revision of the data"),
  build: z.string().optional().describe("The one build that is compared; absent where all are"),
});
const value = z.union([z.string(), z.number(), z.boolean()]);
const ids = z.array(z.string());

const change = z.object({
  item: z.string().describe("Sort of item"),
  what: z.enum(["added", "removed", "moved", "renamed", "renumbered", "changed"]).describe("What happened to it"),
  before: z.string().optional().describe("Id before; absent where it is added"),
  after: z.string().optional().describe("Id after; absent where it is removed"),
  fields: z
    .array(
      z.object({
        field: z.string().describe("Name of the field in the harness document"),
        before: value.optional().describe("Value before; absent where there was none"),
        after: value.optional().describe("Value after; absent where there is none"),
        text: z.string().describe("The difference in words"),
      }),
    )
    .describe("What differs; where a field names several items, those that differ"),
  match: z
    .object({
      by: z.enum(["id", "structure", "likeness"]).describe("Found by its id, its place in the wiring, or likeness"),
      agreement: z.number().describe("How much of the two agrees, 0 to 1"),
    })
    .optional()
    .describe("How the two were found to be the same item; absent where there is one only"),
  equivalent: z
    .object({ before: ids.describe("Ids before"), after: ids.describe("Ids after") })
    .describe("Items that would do as well; nothing in the data separates them"),
});

/** What differs between two documents, two builds or two machines. */
export const CompareAnswer = z.object({
  kind: z.literal("compare").describe("Sort of answer"),
  text: z.string().describe("The answer in words, for people"),
  before: machine.describe("What is compared"),
  after: machine.describe("What it is compared with"),
  groups: z
    .array(
      z.object({
        part: z.string().optional().describe("Id of the component; absent where the changes are at none"),
        connector: z.string().optional().describe("Id of the connector; absent where the changes are at none"),
        label: z.string().describe("Label for people"),
        changes: z.array(change).describe("Changes there"),
      }),
    )
    .describe("Changes by component and connector"),
  readings: z
    .object({
      state: z.string().optional().describe("Id of the state of the machine"),
      compared: z.number().describe("How many points were compared"),
      differ: z
        .array(
          z.object({
            before: z.string().describe("Address before"),
            after: z.string().describe("Address after"),
            reads: z
              .object({ before: z.string().describe("Before"), after: z.string().describe("After") })
              .optional()
              .describe("Expected DC voltage against the negative supply terminal, where a meter can separate the two"),
            testPoint: z
              .object({ before: z.string().describe("Before"), after: z.string().describe("After") })
              .optional()
              .describe("Whether the red (V/Ω) lead is permitted there, where that differs"),
          }),
        )
        .describe("Points at which the reading or the permission differs"),
    })
    .describe("Expected readings and test points that differ"),
  notCompared: z.array(z.string()).describe("What was not compared and why, in sentences"),
});

export type CompareAnswer = Frozen<z.infer<typeof CompareAnswer>>;
/** One change of an answer. */
export type ComparedChange = CompareAnswer["groups"][number]["changes"][number];

import { z } from "zod";

/** The sorts of thing an answer names. */
const itemType = z.enum([
  "contact",
  "wire",
  "splice",
  "stud",
  "element",
  "component",
  "connector",
  "segment",
  "zone",
  "net",
  "code",
  "inner",
  "open-end",
]);
/** A thing an answer names. */
export const item = z.object({ type: itemType, id: z.string() });
/** A thing with what the document says of it: lengths in mm, cross-sections in mm², times in minutes. */
export const facts = item.extend({
  label: z.string(),
  zone: z.string().optional(),
  component: z.string().optional(),
  colour: z.string().optional(),
  colourName: z.string().optional(),
  crossSectionMm2: z.number().optional(),
  lengthMm: z.number().optional(),
  net: z.string().optional(),
  harness: z.string().optional(),
  wireNumber: z.string().optional(),
  wireType: z.string().optional(),
  route: z.array(z.string()).optional(),
  ends: z.array(z.string()).optional(),
  connector: z.string().optional(),
  cavity: z.string().optional(),
  terminalMm: z.number().optional(),
  cavityNote: z.string().optional(),
  isSealed: z.boolean().optional(),
  minutes: z.number().optional(),
  remove: z.string().optional(),
  position: z.string().optional(),
  sort: z.string().optional(),
  /** Parts it is made of: what each is there, on which half of a connector, and how it is ordered. */
  parts: z
    .array(
      z.object({
        what: z.enum(["part", "wire", "housing", "terminal", "seal", "plug"]),
        half: z.string().optional(),
        number: z.string(),
        maker: z.string().optional(),
        description: z.string().optional(),
      }),
    )
    .optional(),
});

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

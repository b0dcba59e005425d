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
export const item = z
  .object({ type: itemType.describe("Sort of item"), id: z.string().describe("Id or address of the item") })
  .describe("An item, by sort and id");
/** A thing with what the document says of it: lengths in mm, cross-sections in mm², times in minutes. */
export const facts = item.extend({
  label: z.string().describe("Label for people"),
  zone: z.string().optional().describe("Id of the zone of the machine"),
  component: z.string().optional().describe("Id of the component it belongs to"),
  colour: z.string().optional().describe("Colour code of the wire (IEC 60757), such as `GN/YE`"),
  colourName: z.string().optional().describe("Colour in words"),
  crossSectionMm2: z.number().optional().describe("Conductor size in mm²"),
  lengthMm: z.number().optional().describe("Length in mm"),
  net: z.string().optional().describe("Signal or net label"),
  harness: z.string().optional().describe("Name of the harness it belongs to"),
  wireNumber: z.string().optional().describe("Number of the wire as the data writes it"),
  wireType: z.string().optional().describe("Type of the wire, such as FLRY-B"),
  route: z.array(z.string()).optional().describe("Ids of the harness segments the wire runs through, in order"),
  ends: z.array(z.string()).optional().describe("Addresses the wire ends at"),
  connector: z.string().optional().describe("Id of the connector"),
  cavity: z.string().optional().describe("Id of the cavity"),
  terminalMm: z.number().optional().describe("Width of the terminal in mm"),
  cavityNote: z.string().optional().describe("Remark on the cavity"),
  isSealed: z.boolean().optional().describe("Whether the connector is sealed"),
  minutes: z.number().optional().describe("Time to reach it, in minutes"),
  remove: z.string().optional().describe("What has to come off to reach it"),
  position: z.string().optional().describe("Position in words"),
  sort: z.string().optional().describe("Sort, in words"),
  parts: z
    .array(
      z.object({
        what: z.enum(["part", "wire", "housing", "terminal", "seal", "plug"]).describe("What the part is there"),
        half: z.string().optional().describe("Id of the side of the connector"),
        number: z.string().describe("Part number"),
        maker: z.string().optional().describe("Company whose part number it is"),
        description: z.string().optional().describe("Description in words"),
      }),
    )
    .optional()
    .describe("Parts it is made of: what each is there, on which half of a connector, and how it is ordered"),
});

/** What every answer carries: the machine, build and state it holds for, where its figures come from, cautions. */
export const header = {
  machine: z.string().describe("Name of the machine"),
  build: z.string().describe("Id of the variant (build)"),
  state: z.string().optional().describe("Id of the state of the machine"),
  origin: z
    .enum(["data", "computed"])
    .describe("`data`: as written in the harness document; `computed`: worked out from it by the named assumptions"),
  assumptions: z.array(z.string()).describe("What is assumed, in sentences"),
  cautions: z.array(z.string()).describe("Warnings to read before touching the machine"),
  notKnown: z
    .array(z.string())
    .optional()
    .describe("What the data leaves open about the things of the answer; absent where it is nothing"),
};

import { z } from "zod";

const Id = z.string().min(1).max(130);

const ThingType = z.enum(["contact", "wire", "splice", "stud", "element", "component", "connector", "segment"]);

/** The sorts of thing that can be looked at, moved or suspected in a hunt. */
export const HUNT_THING_TYPES = ThingType.options;

/** A thing of the machine, named as in answers. */
const Thing = z.strictObject({ type: ThingType, id: Id });

/** Where one lead goes and how; the last three methods are what people are tempted by, and are stopped. */
const Lead = z.strictObject({
  point: Id,
  method: z.enum([
    "clamp",
    "tip",
    "clip",
    "fuse-window",
    "mating-adapter",
    "in-line",
    "relay-extension",
    "front-probe",
    "screw",
    "back-probe",
    "pierce",
    "tip-in-socket",
  ]),
  adapter: Id.optional(),
});

/** One thing the trainee did in a fault hunt. The whole hunt follows from the task and these, so a file of them can be played again. */
export const HuntEvent = z.discriminatedUnion("kind", [
  /** What is suspected now; written down before each action where the task asks for it. */
  z.strictObject({
    kind: z.literal("hypothesis"),
    suspects: z.array(Thing).max(20),
    text: z.string().max(600).optional(),
  }),
  z.strictObject({ kind: z.literal("state"), to: Id }),
  z.strictObject({ kind: z.literal("open"), connector: Id }),
  z.strictObject({ kind: z.literal("close"), connector: Id }),
  /** `at` is the connector or relay the adapter sits on. */
  z.strictObject({ kind: z.literal("fit"), adapter: Id, at: Id }),
  z.strictObject({ kind: z.literal("remove"), adapter: Id, at: Id }),
  /** Leads held together and the meter set to zero on ohms. */
  z.strictObject({ kind: z.literal("zero-leads") }),
  /** The meter held to a point known to be live; counts until the state of the machine changes. */
  z.strictObject({ kind: z.literal("prove-meter") }),
  /** `range` is the highest value of the range chosen by hand; `insists` goes on where the rules stopped. A clamp has no black lead. */
  z.strictObject({
    kind: z.literal("measure"),
    meter: z.enum(["volts", "ohms", "clamp", "test-lamp"]),
    red: Lead,
    black: Lead.optional(),
    range: z.number().positive().max(1e9).optional(),
    insists: z.boolean().optional(),
  }),
  z.strictObject({ kind: z.literal("look"), at: Thing }),
  z.strictObject({ kind: z.literal("wiggle"), at: Thing }),
  z.strictObject({ kind: z.literal("drag"), at: Thing }),
  /** A known-good part put in to try, and taken out again. */
  z.strictObject({ kind: z.literal("swap"), at: Thing }),
  z.strictObject({ kind: z.literal("hint"), level: z.union([z.literal(1), z.literal(2), z.literal(3)]) }),
  /** The cause as the trainee names it, by the id of a possible fault of the machine, such as `open W78`. */
  z.strictObject({ kind: z.literal("name"), cause: z.string().min(1).max(400) }),
  z.strictObject({ kind: z.literal("repair"), cause: z.string().min(1).max(400) }),
  /** The complaint tried again. */
  z.strictObject({ kind: z.literal("try"), state: Id }),
  z.strictObject({ kind: z.literal("end") }),
]);

export type HuntEvent = z.infer<typeof HuntEvent>;

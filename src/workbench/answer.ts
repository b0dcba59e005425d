import { z } from "zod";
import { facts, header, item } from "./answer-parts.ts";
import { ExpectAnswer } from "./expect/expect-answer.ts";
import { TableAnswer } from "./expect/table-answer.ts";
import { WrongQuestionAnswer } from "./expect/wrong-question-answer.ts";
import type { Frozen } from "./frozen.ts";

const hazard = z.object({ kind: z.string(), text: z.string(), states: z.array(z.string()).optional() });
const route = z.object({
  steps: z.array(
    z.object({
      segment: z.string(),
      from: z.string(),
      to: z.string(),
      lengthMm: z.number(),
      zone: z.string().optional(),
      covering: z.string().optional(),
      clips: z.string().optional(),
      hazards: z.array(hazard),
      wires: z.array(z.string()),
    }),
  ),
  zones: z.array(z.object({ zone: z.string(), label: z.string(), hazards: z.array(hazard) })),
  unrouted: z.array(z.string()),
});
const through = z.enum(["conductors", "series", "circuit", "everything"]);

/** What lies between two things. */
export const BetweenAnswer = z.object({
  kind: z.literal("between"),
  ...header,
  from: item,
  to: item,
  through,
  path: z.array(facts),
  between: z.array(z.string()),
  mustPass: z.array(z.string()),
  alternatives: z.array(z.array(z.string())),
  alternativesComplete: z.boolean(),
  branches: z.array(z.object({ at: item, ways: z.array(z.object({ wire: z.string(), to: item })) })),
  /** Sum of the lengths of the wires on the path, in mm; absent if one of them has none. */
  wireLengthMm: z.number().optional(),
  route,
});

/** There is no path between two things, and where it is cut. */
export const NoPathAnswer = z.object({
  kind: z.literal("no-path"),
  ...header,
  from: item,
  to: item,
  through,
  cut: z.object({
    kind: z.enum(["element", "rail", "apart", "same"]),
    at: item.optional(),
    rail: z.enum(["supply", "ground"]).optional(),
  }),
  /** Other builds on which there is a path. */
  joinedIn: z.array(z.string()),
  text: z.string(),
});

/** The net and the circuits of a point. */
export const TraceAnswer = z.object({
  kind: z.literal("trace"),
  ...header,
  of: facts,
  net: z.object({ labels: z.array(z.string()), items: z.array(facts) }),
  circuits: z.array(
    z.object({
      serves: facts,
      sides: z.array(
        z.object({
          role: z.enum(["supply", "ground", "module", "outlet", "nothing"]),
          ways: z.array(z.array(facts)),
          items: z.array(z.string()),
        }),
      ),
    }),
  ),
  fuses: z.array(z.string()),
  switches: z.array(z.object({ id: z.string(), coil: z.string().optional() })),
  route,
});

/** What circuits have in common. */
export const SharedAnswer = z.object({
  kind: z.literal("shared"),
  ...header,
  /** What each thing stands for: its circuits, or also what conductors join to it. */
  basis: z.enum(["circuits", "conductors"]),
  asked: z.array(item.extend({ mark: z.enum(["bad", "good", "unknown"]), circuitCount: z.number() })),
  items: z.array(
    facts.extend({
      circuits: z.array(z.string()),
      bad: z.number(),
      good: z.number(),
      isSuspect: z.boolean(),
      circuitsInAll: z.number(),
    }),
  ),
});

/** What stops if a thing opens or is unplugged. */
export const WithoutAnswer = z.object({
  kind: z.literal("without"),
  ...header,
  of: facts,
  stopped: z.array(
    facts.extend({
      lost: z.array(z.enum(["itself", "supply", "ground", "module", "outlet"])),
      because: item.optional(),
    }),
  ),
  stillFed: z.array(z.string()),
  /** Where no circuit is known to pass it: the points that it joins, in the groups that are left when it opens. */
  parted: z.array(z.array(z.string())),
});

const meter = z.enum(["volts", "ohms", "clamp", "test-lamp"]);

/** Where a meter may be put. */
export const ProbeAnswer = z.object({
  kind: z.literal("probe"),
  ...header,
  of: facts,
  points: z.array(
    z.object({
      id: z.string(),
      class: z.enum(["P0", "P1", "P2", "P3", "P4"]),
      method: z.string(),
      /** What is done, as a sentence. */
      how: z.string(),
      /** What is touched or embraced. */
      item,
      /** The electrical point that is reached, as a canonical address; absent where nothing is touched. */
      at: z.string().optional(),
      /** `itself`, on the `same-net`, or `parted`: on the same net only until the connector is unplugged for the reading. */
      relation: z.enum(["itself", "same-net", "parted"]),
      /** What lies between the thing asked about and this point, in order. */
      between: z.array(z.string()),
      adapter: z.string().optional(),
      terminalMm: z.number().optional(),
      unplug: z.string().optional(),
      minutes: z.number(),
      /** The document gives no time for this place; the figure is borrowed from the nearest thing or typical. */
      isEstimated: z.boolean(),
      remove: z.string().optional(),
      zone: z.string().optional(),
      /** The segment in which a wire is embraced. */
      segment: z.string().optional(),
      meters: z.array(meter),
      notFor: z.array(z.object({ meter, rule: z.string(), reason: z.string(), source: z.string() })),
      cautions: z.array(z.string()),
    }),
  ),
  refused: z.array(
    z.object({
      id: z.string(),
      method: z.string(),
      item,
      at: z.string().optional(),
      rule: z.string(),
      reason: z.string(),
      source: z.string(),
      /** Id of the nearest point that is allowed. */
      instead: z.string().optional(),
    }),
  ),
});

/** Hits of a search. */
export const FindAnswer = z.object({
  kind: z.literal("find"),
  ...header,
  text: z.string(),
  hits: z.array(facts),
  /** Where nothing is found in this build: other builds in which something is. */
  foundIn: z.array(z.string()),
});

/** The text names no single thing: nothing like it, several things, a thing this build does not have, an empty cavity. */
export const UnresolvedAnswer = z.object({
  kind: z.enum(["unknown", "ambiguous", "not-fitted", "empty"]),
  machine: z.string(),
  build: z.string(),
  text: z.string(),
  /** What was typed. */
  asked: z.string(),
  items: z.array(facts),
  fittedIn: z.array(z.string()).optional(),
});

/** The build or the state asked for does not exist, or none was asked for and there are several. */
export const ChooseAnswer = z.object({
  kind: z.enum(["choose-build", "choose-state"]),
  machine: z.string(),
  text: z.string(),
  /** What was typed, if anything was. */
  asked: z.string().optional(),
  choices: z.array(z.object({ id: z.string(), label: z.string() })),
});

/** Any answer. */
export const Answer = z.discriminatedUnion("kind", [
  BetweenAnswer,
  NoPathAnswer,
  TraceAnswer,
  SharedAnswer,
  WithoutAnswer,
  ProbeAnswer,
  FindAnswer,
  ExpectAnswer,
  TableAnswer,
  UnresolvedAnswer,
  ChooseAnswer,
  WrongQuestionAnswer,
]);

export type BetweenAnswer = Frozen<z.infer<typeof BetweenAnswer>>;
export type NoPathAnswer = Frozen<z.infer<typeof NoPathAnswer>>;
export type TraceAnswer = Frozen<z.infer<typeof TraceAnswer>>;
export type SharedAnswer = Frozen<z.infer<typeof SharedAnswer>>;
export type WithoutAnswer = Frozen<z.infer<typeof WithoutAnswer>>;
export type ProbeAnswer = Frozen<z.infer<typeof ProbeAnswer>>;
export type FindAnswer = Frozen<z.infer<typeof FindAnswer>>;
export type UnresolvedAnswer = Frozen<z.infer<typeof UnresolvedAnswer>>;
export type ChooseAnswer = Frozen<z.infer<typeof ChooseAnswer>>;
export type Answer = Frozen<z.infer<typeof Answer>>;
/** A thing with what the document says of it. */
export type Facts = Frozen<z.infer<typeof facts>>;
/** Where the wires of an answer run: segments, zones, hazards. */
export type RouteFacts = Frozen<z.infer<typeof route>>;
/** What every answer to a question that could be asked carries. */
export type AnswerHeader = Omit<FindAnswer, "kind" | "text" | "hits" | "foundIn">;

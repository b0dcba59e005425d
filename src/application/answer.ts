import { z } from "zod";
import { facts, header, item } from "./answer-parts.ts";
import { ExpectedReadingAnswer } from "./expect/expected-answer.ts";
import { TableAnswer } from "./expect/table-answer.ts";
import { WrongQuestionAnswer } from "./expect/wrong-question-answer.ts";
import { FIND_GROUPS } from "./find-groups.ts";
import type { Frozen } from "./frozen.ts";
import { ITEM_ACTIONS } from "./item-actions.ts";

const hazard = z.object({
  kind: z.string().describe("Sort of hazard"),
  text: z.string().describe("The hazard in words"),
  states: z.array(z.string()).optional().describe("States in which it holds; absent means always"),
});
const route = z
  .object({
    steps: z
      .array(
        z.object({
          segment: z.string().describe("Id of the segment"),
          from: z.string().describe("Id of the branch point where it starts"),
          to: z.string().describe("Id of the branch point where it ends"),
          lengthMm: z.number().describe("Length in mm"),
          zone: z.string().optional().describe("Id of the zone of the machine"),
          covering: z.string().optional().describe("What covers the segment, such as tape or conduit"),
          clips: z.string().optional().describe("How the segment is fastened"),
          hazards: z.array(hazard).describe("Hazards at this location"),
          wires: z.array(z.string()).describe("Ids of the wires of the answer that run here"),
        }),
      )
      .describe("Harness segments in order"),
    zones: z
      .array(
        z.object({
          zone: z.string().describe("Id of the zone of the machine"),
          label: z.string().describe("Label for people"),
          hazards: z.array(hazard).describe("Hazards at this location"),
        }),
      )
      .describe("Zones on the route, with their hazards"),
    unrouted: z.array(z.string()).describe("Ids of the wires whose route is not known"),
  })
  .describe("Where the wires run: segments, zones, hazards");
const through = z
  .enum(["conductors", "switches-and-fuses", "loads", "control-units"])
  .describe("How far the path may go");

/** Path between two points. */
export const PathAnswer = z.object({
  kind: z.literal("path").describe("Sort of answer"),
  ...header,
  from: item.describe("First end"),
  to: item.describe("Second end"),
  through,
  path: z.array(facts).describe("The shortest path, item by item"),
  between: z.array(z.string()).describe("Ids of everything on any path between the two"),
  mustPass: z.array(z.string()).describe("Ids of the items on every path"),
  alternatives: z.array(z.array(z.string())).describe("Other paths, each as ids in order"),
  alternativesComplete: z.boolean().describe("Whether all other paths are listed"),
  branches: z
    .array(
      z.object({
        at: item.describe("The item of the path they leave at"),
        ways: z
          .array(
            z.object({ wire: z.string().describe("Id of the wire"), to: item.describe("The item at its far end") }),
          )
          .describe("Where they go"),
      }),
    )
    .describe("Wires that leave the path"),
  wireLengthMm: z
    .number()
    .optional()
    .describe("Sum of the lengths of the wires on the path, in mm; absent if one of them has none"),
  route,
});

/** There is no path between two things, and where it is cut. */
export const NoPathAnswer = z.object({
  kind: z.literal("no-path").describe("Sort of answer"),
  ...header,
  from: item.describe("First end"),
  to: item.describe("Second end"),
  through,
  cut: z
    .object({
      kind: z
        .enum(["element", "rail", "apart", "same"])
        .describe("What cuts it: an element, a rail, nothing joins them (`apart`), or both are the same"),
      at: item.optional().describe("The item that cuts it"),
      rail: z.enum(["supply", "ground"]).optional().describe("Rail at which the path ends"),
    })
    .describe("Where the path is cut"),
  joinedIn: z.array(z.string()).describe("Other builds on which there is a path"),
  text: z.string().describe("The answer in words, for people"),
});

/** The net and the circuits of a point. */
export const CircuitAnswer = z.object({
  kind: z.literal("circuit").describe("Sort of answer"),
  ...header,
  of: facts.describe("The item asked about"),
  net: z
    .object({
      labels: z.array(z.string()).describe("Net labels of its wires"),
      items: z.array(facts).describe("Its items"),
    })
    .describe("What is conductively joined to it"),
  circuits: z
    .array(
      z.object({
        serves: facts.describe("The load that is served"),
        sides: z
          .array(
            z.object({
              role: z.enum(["supply", "ground", "module", "outlet", "nothing"]).describe("What the side leads to"),
              ways: z.array(z.array(facts)).describe("Paths of the side, each item by item"),
              items: z.array(z.string()).describe("Ids of everything on the side"),
            }),
          )
          .describe("Supply side, ground side and control units"),
      }),
    )
    .describe("Circuits it belongs to, one for each load"),
  fuses: z.array(z.string()).describe("Ids of its fuses"),
  switches: z
    .array(
      z.object({
        id: z.string().describe("Id of the switch or contact"),
        coil: z.string().optional().describe("Id of the coil that moves it"),
      }),
    )
    .describe("Its switches and relay contacts"),
  route,
});

/** Common wiring of circuits. */
export const CommonAnswer = z.object({
  kind: z.literal("common").describe("Sort of answer"),
  ...header,
  basis: z
    .enum(["circuits", "conductors"])
    .describe("What each item stands for: its circuits, or also what conductors join to it"),
  asked: z
    .array(
      item.extend({
        mark: z.enum(["bad", "good", "unknown"]).describe("`bad`: fails; `good`: works; `unknown`"),
        circuitCount: z.number().describe("How many circuits it belongs to"),
      }),
    )
    .describe("The items asked about, with their marks"),
  items: z
    .array(
      facts.extend({
        circuits: z.array(z.string()).describe("Ids of the items asked about whose circuits pass it"),
        bad: z.number().describe("How many circuits that fail pass it"),
        good: z.number().describe("How many circuits that work pass it"),
        isSuspect: z.boolean().describe("Whether it is in every circuit that fails and in none that works"),
        circuitsInAll: z.number().describe("How many circuits of the machine pass it"),
      }),
    )
    .describe("Common items, likeliest common cause first"),
});

/** What stops if a thing opens or is unplugged. */
export const OpenEffectAnswer = z.object({
  kind: z.literal("effect").describe("Sort of answer"),
  ...header,
  of: facts.describe("The item that opens"),
  stopped: z
    .array(
      facts.extend({
        lost: z
          .array(z.enum(["itself", "supply", "ground", "module", "outlet"]))
          .describe("What it loses: supply, ground, its control unit, or itself"),
        because: item.optional().describe("The item that stops first and makes it stop"),
      }),
    )
    .describe("What stops"),
  stillFed: z.array(z.string()).describe("Ids of what still works over another path"),
  parted: z
    .array(z.array(z.string()))
    .describe(
      "Where no circuit is known to pass it: the points that it joins, in the groups that are left when it opens",
    ),
});

const meter = z.enum(["dc-voltage", "resistance", "clamp", "test-lamp"]).describe("Function of the meter");

/** Test points. */
export const TestPointsAnswer = z.object({
  kind: z.literal("test-points").describe("Sort of answer"),
  ...header,
  of: facts.describe("The item asked about"),
  points: z
    .array(
      z.object({
        id: z.string().describe("Id of the test point"),
        class: z
          .enum(["P0", "P1", "P2", "P3", "P4"])
          .describe("Class of the test point, from P0 (no contact) to P4 (exposed screw)"),
        method: z.string().describe("How the lead goes there, such as `clamp`, `in-line`, `front-probe`"),
        how: z.string().describe("What to do, as a sentence"),
        /** What is touched or embraced. */
        item,
        at: z
          .string()
          .optional()
          .describe("The electrical point that is reached, as a canonical address; absent where nothing is touched"),
        relation: z
          .enum(["itself", "same-net", "parted"])
          .describe(
            "`itself`, on the `same-net`, or `parted`: on the same net only until the connector is disconnected for the reading",
          ),
        between: z.array(z.string()).describe("Items between the item asked about and this point, in order"),
        adapter: z.string().optional().describe("Id of the test adapter"),
        terminalMm: z.number().optional().describe("Width of the terminal in mm"),
        unplug: z.string().optional().describe("Id of the connector to disconnect first"),
        minutes: z.number().describe("Time needed, in minutes"),
        isEstimated: z
          .boolean()
          .describe("The document gives no time for this point; the value is typical or taken from the nearest item"),
        remove: z.string().optional().describe("What to remove to reach it"),
        zone: z.string().optional().describe("Id of the zone of the machine"),
        segment: z.string().optional().describe("The segment where the clamp goes round the wire"),
        meters: z.array(meter).describe("Functions of the meter that may be used there"),
        notFor: z
          .array(
            z.object({
              meter,
              rule: z.string().describe("Id of the safety rule"),
              reason: z.string().describe("Reason in words"),
              source: z.string().describe("Where the reason comes from"),
            }),
          )
          .describe("Functions that may not be used there, with the rule"),
        cautions: z.array(z.string()).describe("Warnings to read before touching the machine"),
      }),
    )
    .describe("Test points, best first"),
  refused: z
    .array(
      z.object({
        id: z.string().describe("Id of the point that is not permitted"),
        method: z.string().describe("How the lead goes there, such as `clamp`, `in-line`, `front-probe`"),
        item,
        at: z.string().optional().describe("Address of the point; absent where nothing is touched"),
        rule: z.string().describe("Id of the safety rule"),
        reason: z.string().describe("Reason in words"),
        source: z.string().describe("Where the reason comes from"),
        instead: z.string().optional().describe("Id of the nearest point that is allowed"),
      }),
    )
    .describe("Points that are not permitted, with the rule"),
});

const findGroup = z.enum(FIND_GROUPS).describe("Group of hits");

/** Hits of a search. */
export const FindAnswer = z.object({
  kind: z.literal("find").describe("Sort of answer"),
  ...header,
  text: z.string().describe("The words searched for"),
  groups: z
    .array(z.object({ group: findGroup, count: z.number().int().describe("Number of items found in the group") }))
    .describe("Groups in which something was found, that of the best hit first"),
  hits: z
    .array(
      facts.extend({
        group: findGroup,
        actions: z.array(z.enum(ITEM_ACTIONS).describe("A question")).describe("What can be asked of it"),
      }),
    )
    .describe("The first hits of each group, in the order of the groups, best first"),
  nearest: z.array(facts).describe("Where nothing fits all words: what fits most of them"),
  foundIn: z.array(z.string()).describe("Where nothing is found in this build: other builds in which something is"),
});

/** The text names no single thing: nothing like it, several things, a thing this build does not have, an empty cavity. */
export const UnresolvedAnswer = z.object({
  kind: z
    .enum(["unknown", "ambiguous", "not-fitted", "empty"])
    .describe("Why: nothing has the name, several items fit, not fitted in this variant, or an empty cavity"),
  machine: z.string().describe("Name of the machine"),
  build: z.string().describe("Id of the variant (build)"),
  text: z.string().describe("The answer in words, for people"),
  asked: z.string().describe("What was typed"),
  items: z.array(facts).describe("Items that are meant or suggested"),
  fittedIn: z.array(z.string()).optional().describe("Ids of the variants (builds) that have it"),
});

/** The build or the state asked for does not exist, or none was asked for and there are several. */
export const ChooseAnswer = z.object({
  kind: z.enum(["choose-build", "choose-state"]).describe("What has to be chosen: a variant (build) or a state"),
  machine: z.string().describe("Name of the machine"),
  text: z.string().describe("The answer in words, for people"),
  asked: z.string().optional().describe("What was typed, if anything was"),
  choices: z
    .array(
      z.object({
        id: z.string().describe("Id of the variant (build) or state"),
        label: z.string().describe("Label for people"),
      }),
    )
    .describe("What may be chosen"),
});

/** Any answer. */
export const Answer = z.discriminatedUnion("kind", [
  PathAnswer,
  NoPathAnswer,
  CircuitAnswer,
  CommonAnswer,
  OpenEffectAnswer,
  TestPointsAnswer,
  FindAnswer,
  ExpectedReadingAnswer,
  TableAnswer,
  UnresolvedAnswer,
  ChooseAnswer,
  WrongQuestionAnswer,
]);

export type PathAnswer = Frozen<z.infer<typeof PathAnswer>>;
export type NoPathAnswer = Frozen<z.infer<typeof NoPathAnswer>>;
export type CircuitAnswer = Frozen<z.infer<typeof CircuitAnswer>>;
export type CommonAnswer = Frozen<z.infer<typeof CommonAnswer>>;
export type OpenEffectAnswer = Frozen<z.infer<typeof OpenEffectAnswer>>;
export type TestPointsAnswer = Frozen<z.infer<typeof TestPointsAnswer>>;
export type FindAnswer = Frozen<z.infer<typeof FindAnswer>>;
export type UnresolvedAnswer = Frozen<z.infer<typeof UnresolvedAnswer>>;
export type ChooseAnswer = Frozen<z.infer<typeof ChooseAnswer>>;
export type Answer = Frozen<z.infer<typeof Answer>>;
/** A thing with what the document says of it. */
export type Facts = Frozen<z.infer<typeof facts>>;
/** Where the wires of an answer run: segments, zones, hazards. */
export type RouteFacts = Frozen<z.infer<typeof route>>;
/** What every answer to a question that could be asked carries. */
export type AnswerHeader = Omit<FindAnswer, "kind" | "text" | "groups" | "hits" | "nearest" | "foundIn">;

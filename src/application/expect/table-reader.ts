import { readMeter, type QuestionProblem, type OperatingConditions } from "../../simulation/index.ts";
import { nodeItem, type Item } from "../../connectivity/index.ts";
import { forbiddenTexts } from "../cautions.ts";
import type { MachineContext } from "../machine-context.ts";
import type { LeadFacts } from "./expected-answer.ts";
import { judgeLead } from "./judge-lead.ts";
import { readingFacts, reasonsOf } from "./reading-facts.ts";
import type { TableReading } from "./table-answer.ts";

/** What a table reads from: each point once, however many ways pass it. */
export interface TableReader {
  readonly read: (node: number) => TableReading;
  /** Whether the red lead may go to a point, which may be either of two halves that read the same. */
  readonly judge: (point: TablePoint) => LeadFacts;
  /** Why there are no values, each reason once. */
  readonly reasons: () => readonly { readonly code: string; readonly text: string }[];
  readonly problems: () => readonly QuestionProblem[];
}

/** A point of a table: the halves of a contact that read the same are one. */
export interface TablePoint {
  readonly item: Item;
  readonly nodes: readonly number[];
}

/**
 * Makes a reader for the points of a table.
 *
 * @param context The machine in its build and state.
 * @param how The situation, where the black lead stays, and the connectors that are unplugged.
 */
export function tableReader(
  context: MachineContext,
  how: {
    readonly operatingConditions: OperatingConditions;
    readonly black: string;
    readonly opened: ReadonlySet<string>;
  },
): TableReader {
  const { harness } = context;
  const known = new Map<number, TableReading>();
  const judged = new Map<string, LeadFacts>();
  const reasons = new Map<string, { readonly code: string; readonly text: string }>();
  const problems: QuestionProblem[] = [];
  const readNew = (node: number): TableReading => {
    const at = harness.nodes[node];
    const none = { value: null, unit: "V", low: null, high: null } as const;
    if (!at || forbiddenTexts(harness, [nodeItem(at)]).length > 0) return { kind: "refused", ...none };
    const probe = { kind: "dc-voltage", red: at.key, black: how.black } as const;
    const reading = readMeter(harness, { operatingConditions: how.operatingConditions, probe, compareWith: [] });
    if (reading.kind === "wrong-question") {
      problems.push(...reading.problems);
      return { kind: "refused", ...none };
    }
    const isFigure = reading.kind === "value" || reading.kind === "floating" || reading.kind === "overload";
    if (!isFigure) for (const { code, text } of reasonsOf(reading)) reasons.set(text, { code, text });
    return readingFacts(reading, "dc-voltage");
  };
  return {
    read(node) {
      const before = known.get(node);
      if (before) return before;
      const reading = readNew(node);
      known.set(node, reading);
      return reading;
    },
    judge(point) {
      const key = point.nodes.join(" ");
      const before = judged.get(key);
      if (before) return before;
      const [at = "", twin] = point.nodes.map((node) => harness.nodes[node]?.key ?? "");
      const lead = { lead: "red", asked: undefined, at, item: point.item, nodes: point.nodes, twin } as const;
      const facts = judgeLead(context, lead, { meter: "dc-voltage", opened: how.opened });
      judged.set(key, facts);
      return facts;
    },
    reasons: () => [...reasons.values()],
    problems: () => problems,
  };
}

import { naturalOrder } from "../base/index.ts";
import type { Harness } from "../harness-model/index.ts";
import type { TestPointsAnswer } from "./answer.ts";

type Point = TestPointsAnswer["points"][number];
type Refusal = TestPointsAnswer["refused"][number];

/** The test points of one cavity. */
export interface CavityPoints {
  /** Address of the cavity, such as `A1.X1:36`. */
  readonly cavity: string;
  /** The safest first; but one that gives a voltage before a clamp, which does not. Empty where nothing is permitted. */
  readonly points: readonly Point[];
}

/** What one rule does not permit. */
export interface RuleRefusals {
  readonly rule: string;
  readonly reason: string;
  readonly source: string;
  /** Ways of putting a lead on that the rule concerns. */
  readonly methods: readonly string[];
  readonly refused: readonly Refusal[];
}

/**
 * The test points of a whole connector or part, cavity by cavity in natural order.
 *
 * @param harness The harness.
 * @param answer The test points; of one point alone there are no cavities to tell apart.
 * @returns One row a cavity; empty where the answer is about something else.
 */
export function pointsByCavity(harness: Harness, answer: TestPointsAnswer): readonly CavityPoints[] {
  const { of, points, refused } = answer;
  const own = (connector: string): boolean =>
    of.type === "component"
      ? harness.fitted.connectors.get(connector)?.component === of.id
      : of.type === "connector" && connector === of.id;
  const cavityOf = (address: string): string | undefined => {
    const colon = address.lastIndexOf(":");
    const owner = address.slice(0, Math.max(colon, 0));
    const connector = harness.book.sides.get(owner)?.connector.id ?? owner;
    return colon > 0 && own(connector) ? `${connector}:${address.slice(colon + 1)}` : undefined;
  };
  const rows = new Map<string, Point[]>();
  for (const { at, item } of refused) {
    const cavity = cavityOf(at ?? item.id);
    if (cavity !== undefined && !rows.has(cavity)) rows.set(cavity, []);
  }
  for (const point of points) {
    const cavity = cavityOf(point.between[0] ?? "") ?? cavityOf(point.at ?? point.item.id);
    if (cavity !== undefined) rows.set(cavity, [...(rows.get(cavity) ?? []), point]);
  }
  return [...rows]
    .sort(([a], [b]) => naturalOrder(a, b))
    .map(([cavity, list]) => ({ cavity, points: voltageFirst(list) }));
}

/**
 * Test points in the order in which they are told: the safest first, but what gives a voltage before a clamp, which gives a current only.
 *
 * @param points The points, the safest first.
 */
export function voltageFirst(points: readonly Point[]): readonly Point[] {
  const isClamp = ({ method }: Point): number => Number(method === "clamp");
  return points.toSorted((a, b) => isClamp(a) - isClamp(b));
}

/**
 * What is not permitted, rule by rule, the rule that concerns the most points first.
 *
 * @param refused The refusals of an answer.
 */
export function refusalsByRule(refused: TestPointsAnswer["refused"]): readonly RuleRefusals[] {
  const rules = new Map<string, Refusal[]>();
  for (const each of refused) {
    const key = `${each.rule} ${each.reason}`;
    rules.set(key, [...(rules.get(key) ?? []), each]);
  }
  return [...rules.values()]
    .flatMap((list): RuleRefusals[] => {
      const [first] = list;
      if (!first) return [];
      const { rule, reason, source } = first;
      return [{ rule, reason, source, methods: [...new Set(list.map(({ method }) => method))], refused: list }];
    })
    .sort((a, b) => b.refused.length - a.refused.length);
}

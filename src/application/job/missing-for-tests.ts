import { isMeterCheck } from "../../diagnosis/index.ts";
import { gapsOfConnector } from "../gaps/find-gaps.ts";
import type { OpenJob } from "./open-job.ts";

/** Connectors that are named in one sentence. */
const MOST_NAMES = 6;

/**
 * Where no meter test is permitted or can be calculated in a job: what is missing in the data for one, as questions with the connectors they
 * are about.
 *
 * @param job The job.
 * @returns The sentences; none where there are meter tests.
 */
export function missingForTests({ machine, state: { harness, model } }: OpenJob): readonly string[] {
  if (model.hypotheses.length === 0 || [...model.checks.values()].some(isMeterCheck)) return [];
  const questions = new Map<string, string[]>();
  const seen = new Set<string>();
  for (const number of model.scope.nodes) {
    const node = harness.nodes[number];
    if (node?.kind !== "contact" || seen.has(node.connector.id)) continue;
    seen.add(node.connector.id);
    for (const { question, blocks } of gapsOfConnector(machine.document, node.connector))
      if (blocks.includes("meter tests"))
        questions.set(question, [...(questions.get(question) ?? []), node.connector.id]);
  }
  const named = (ids: readonly string[]): string =>
    ids.length > MOST_NAMES
      ? `${ids.slice(0, MOST_NAMES).join(", ")} and ${ids.length - MOST_NAMES} more`
      : ids.join(", ");
  const asked = [...questions].map(([question, ids]) => `${named(ids)}: ${question}`);
  return [
    "No meter test is permitted or can be calculated here.",
    ...asked,
    ...(asked.length > 0
      ? ["Answer with ohmward answer, or on the page Open, save. To list all missing data: ohmward gaps."]
      : []),
  ];
}

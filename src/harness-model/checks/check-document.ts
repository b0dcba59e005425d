import { buildAddressBook } from "../address-book.ts";
import type { Problem } from "../problem.ts";
import type { HarnessDocument } from "../schema/document.ts";
import { checkBuilds } from "./check-builds.ts";
import type { CheckContext } from "./check-context.ts";
import { checkConnectors } from "./check-connectors.ts";
import { checkElements } from "./check-elements.ts";
import { checkExpressions } from "./check-expressions.ts";
import { checkIds } from "./check-ids.ts";
import { checkReferences } from "./check-references.ts";
import { checkRouting } from "./check-routing.ts";
import { checkWires } from "./check-wires.ts";

/**
 * Checks everything that the shape of a document cannot say: ids, references, ends, routes, colours, sizes, option expressions, and per
 * build that no cavity is used twice and no fitted thing hangs on one that is not.
 *
 * @param document A document of the right shape.
 * @returns All problems, errors and warnings, in the order of the checks.
 */
export function checkDocument(document: HarnessDocument): readonly Problem[] {
  const problems: Problem[] = [];
  const context: CheckContext = {
    document,
    book: buildAddressBook(document),
    report: (problem) => problems.push(problem),
  };
  checkIds(context);
  checkExpressions(context);
  checkReferences(context);
  checkConnectors(context);
  checkElements(context);
  checkWires(context);
  checkRouting(context);
  // What is fitted with what means nothing while names do not resolve.
  if (!problems.some((problem) => problem.severity === "error" && HIDES_BUILDS.has(problem.code))) checkBuilds(context);
  return problems;
}

const HIDES_BUILDS: ReadonlySet<string> = new Set(["duplicate-id", "option-expression"]);

import { makeFitting, optionsNamed, parseOptionExpression } from "../../model/index.ts";
import { importProblem } from "../import-problem.ts";
import type { BuildInput, ConnectorInput } from "./draft-types.ts";
import type { DraftParts } from "./draft-parts.ts";

/** Most builds that are made where a file lists none. */
const MOST_BUILDS = 40;

/**
 * Lists the options that expressions name, and makes builds where the file has none: one without any option, then one for each
 * expression that no build so far fits, with just the options it names. Combinations beyond those are for a person to add.
 */
export function completeOptions(parts: DraftParts, connectors: readonly ConnectorInput[]): void {
  const listed = new Set(parts.options.map((option) => option.id));
  const expressions = usedExpressions(parts, connectors);
  for (const text of expressions) {
    const parsed = parseOptionExpression(text);
    if (!parsed.ok) continue;
    for (const option of optionsNamed(parsed.value)) {
      if (listed.has(option)) continue;
      listed.add(option);
      parts.options.push({ id: option, label: option });
      parts.problems.push(importProblem("option-added", {}, { option }));
    }
  }
  if (parts.builds.length > 0) return;
  parts.builds.push(...assumedBuilds(expressions));
  if (parts.builds.length > 1) {
    const builds = parts.builds.map((build) => build.id).join(", ");
    parts.problems.push(importProblem("builds-assumed", {}, { builds }));
  }
}

function usedExpressions(parts: DraftParts, connectors: readonly ConnectorInput[]): ReadonlySet<string> {
  const expressions = new Set<string>();
  const take = (thing: { readonly when?: string | undefined }): void => {
    if (thing.when !== undefined) expressions.add(thing.when);
  };
  [...parts.wires, ...parts.splices, ...parts.studs, ...parts.components, ...connectors].forEach(take);
  for (const component of parts.components) component.elements.forEach(take);
  for (const connector of connectors) connector.halves.forEach(take);
  return expressions;
}

function assumedBuilds(expressions: ReadonlySet<string>): readonly BuildInput[] {
  const builds: BuildInput[] = [{ id: "base", label: "Without any option", options: [] }];
  const isFittedIn = (text: string, options: readonly string[]): boolean =>
    // Only the options of a build decide what is fitted; the rest of it is for people.
    makeFitting({ id: "", label: "", options } as unknown as Parameters<typeof makeFitting>[0])(text);
  for (const text of expressions) {
    const parsed = parseOptionExpression(text);
    if (!parsed.ok || builds.length >= MOST_BUILDS) continue;
    if (builds.some((build) => isFittedIn(text, build.options))) continue;
    const options = optionsNamed(parsed.value);
    const choices = [[...options], ...options.map((option) => [option])];
    const fitting = choices.find((choice) => isFittedIn(text, choice));
    if (!fitting) continue;
    const id = fitting.join("+").slice(0, 64);
    if (!builds.some((build) => build.id === id))
      builds.push({ id, label: `With ${fitting.join(", ")}`, options: fitting });
  }
  return builds;
}

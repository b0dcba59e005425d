import { optionsNamed, parseOptionExpression } from "../option-expression.ts";
import { problem } from "../problem.ts";
import type { CheckContext } from "./check-context.ts";

/** Every option expression parses and names options that exist. */
export function checkExpressions({ document, report }: CheckContext): void {
  const known = new Set<string>(document.options.map((option) => option.id));
  const check = (when: string | undefined, path: string): void => {
    if (when === undefined) return;
    const parsed = parseOptionExpression(when);
    if (!parsed.ok) {
      const { message: reason, position } = parsed.error;
      report(problem("option-expression", { path }, { text: when, reason, position }));
      return;
    }
    for (const id of optionsNamed(parsed.value)) {
      if (!known.has(id)) report(problem("unknown-reference", { path }, { what: "option", id }));
    }
  };
  for (const name of ["wires", "splices", "terminalStuds", "components", "connectors", "codes"] as const) {
    document[name].forEach((item, at) => {
      check(item.when, `${name}[${at}].when`);
    });
  }
  document.connectors.forEach((connector, at) => {
    connector.sides.forEach((side, place) => {
      check(side.when, `connectors[${at}].sides[${place}].when`);
    });
  });
  document.components.forEach((component, at) => {
    component.elements.forEach((element, place) => {
      check(element.when, `components[${at}].elements[${place}].when`);
    });
  });
}

import { sideKey } from "../address-book.ts";
import { problem } from "../problem.ts";
import type { CheckContext } from "./check-context.ts";

/**
 * No id twice. Everything that can be asked for by its id shares one space of names; places, options, builds, states, nets, adapters
 * and cautions have one each; halves, cavities and elements are unique inside their owner.
 */
export function checkIds({ document, report }: CheckContext): void {
  const claimer = () => {
    const first = new Map<string, string>();
    return (id: string, path: string): void => {
      const before = first.get(id);
      if (before === undefined) first.set(id, path);
      else report(problem("duplicate-id", { path, id }, { id, first: before }));
    };
  };
  const claim = claimer();
  const list = (
    name: keyof typeof document,
    items: readonly { readonly id: string }[],
    take: (id: string, path: string) => void,
  ) => {
    items.forEach((item, at) => {
      take(item.id, `${name}[${at}].id`);
    });
  };
  for (const name of [
    "wires",
    "splices",
    "terminalStuds",
    "components",
    "connectors",
    "segments",
    "zones",
    "codes",
  ] as const) {
    list(name, document[name], claim);
  }
  for (const name of ["topologyNodes", "options", "builds", "states", "nets", "adapters", "cautions"] as const) {
    list(name, document[name], claimer());
  }
  document.connectors.forEach((connector, at) => {
    const claimCavity = claimer();
    connector.cavities.forEach((cavity, place) => {
      claimCavity(cavity.id, `connectors[${at}].cavities[${place}].id`);
    });
    connector.sides.forEach((side, place) => {
      claim(`${connector.id}.${side.id}`, `connectors[${at}].sides[${place}].id`);
      if (side.name !== undefined) claim(sideKey(connector, side), `connectors[${at}].sides[${place}].name`);
    });
  });
  document.components.forEach((component, at) => {
    component.elements.forEach((element, place) => {
      const path = `components[${at}].elements[${place}].id`;
      const key = `${component.id}.${element.id}`;
      claim(key, path);
      // A divider becomes two edges, whose keys nothing else may have.
      if (element.kind === "divider") for (const part of ["top", "bottom"]) claim(`${key}.${part}`, path);
    });
  });
}

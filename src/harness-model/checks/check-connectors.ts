import { problem } from "../problem.ts";
import type { Connector, Half } from "../schema/connector.ts";
import type { CheckContext } from "./check-context.ts";

/** Cavity lists of halves, and what is fitted in cavities, name cavities that exist, faces name a half, and device connectors have their component. */
export function checkConnectors({ document, report }: CheckContext): void {
  document.connectors.forEach((connector, at) => {
    const path = `connectors[${at}]`;
    const cavities = new Set<string>(connector.cavities.map((cavity) => cavity.id));
    const want = (id: string, where: string): void => {
      if (cavities.has(id)) return;
      const at = { path: `${path}.${where}`, id: connector.id };
      report(problem("unknown-reference", at, { what: "cavity", id }));
    };
    connector.halves.forEach((half, place) => {
      half.cavities?.forEach((id, position) => {
        want(id, `halves[${place}].cavities[${position}]`);
      });
      half.fitted?.forEach(({ cavity }, position) => {
        want(cavity, `halves[${place}].fitted[${position}].cavity`);
      });
    });
    if (!connector.halves.some((half) => half.id === connector.face.ofHalf)) {
      report(
        problem(
          "unknown-reference",
          { path: `${path}.face.ofHalf`, id: connector.id },
          { what: "half", id: connector.face.ofHalf },
        ),
      );
    }
    if (connector.halves.some((half) => half.id === "device") && connector.component === undefined) {
      report(
        problem(
          "shape",
          { path, id: connector.id },
          { reason: `Connector "${connector.id}" has a device half but names no component` },
        ),
      );
    }
  });
}

/** Cavities that one of two halves has and the other has not, in connector order. */
export function cavitiesThatDiffer(connector: Connector, first: Half, second: Half): readonly string[] {
  if (!first.cavities && !second.cavities) return [];
  const [inFirst, inSecond] = [first, second].map((half) => half.cavities && new Set<string>(half.cavities));
  return connector.cavities
    .map((cavity) => cavity.id)
    .filter((id) => (inFirst?.has(id) ?? true) !== (inSecond?.has(id) ?? true));
}

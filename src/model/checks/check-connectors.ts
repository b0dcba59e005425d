import { problem } from "../problem.ts";
import type { Connector, Half } from "../schema/connector.ts";
import type { CheckContext } from "./check-context.ts";

/** Cavity lists of halves name cavities that exist, faces name a half, and device connectors have their component. */
export function checkConnectors({ document, report }: CheckContext): void {
  document.connectors.forEach((connector, at) => {
    const path = `connectors[${at}]`;
    const cavities = new Set<string>(connector.cavities.map((cavity) => cavity.id));
    connector.halves.forEach((half, place) => {
      half.cavities?.forEach((id, position) => {
        if (!cavities.has(id)) {
          report(
            problem(
              "unknown-reference",
              { path: `${path}.halves[${place}].cavities[${position}]`, id: connector.id },
              { what: "cavity", id },
            ),
          );
        }
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

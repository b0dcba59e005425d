import { problem } from "../problem.ts";
import type { Connector, ConnectorSide } from "../schema/connector.ts";
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
    connector.sides.forEach((side, place) => {
      side.cavities?.forEach((id, position) => {
        want(id, `sides[${place}].cavities[${position}]`);
      });
      side.fitted?.forEach(({ cavity }, position) => {
        want(cavity, `sides[${place}].fitted[${position}].cavity`);
      });
    });
    if (!connector.sides.some((side) => side.id === connector.face.ofSide)) {
      report(
        problem(
          "unknown-reference",
          { path: `${path}.face.ofSide`, id: connector.id },
          { what: "half", id: connector.face.ofSide },
        ),
      );
    }
    if (connector.sides.some((side) => side.id === "device") && connector.component === undefined) {
      report(
        problem(
          "shape",
          { path, id: connector.id },
          { reason: `Connector "${connector.id}" has a component side but names no component` },
        ),
      );
    }
  });
}

/** Cavities that one of two halves has and the other has not, in connector order. */
export function cavitiesThatDiffer(
  connector: Connector,
  first: ConnectorSide,
  second: ConnectorSide,
): readonly string[] {
  if (!first.cavities && !second.cavities) return [];
  const [inFirst, inSecond] = [first, second].map((side) => side.cavities && new Set<string>(side.cavities));
  return connector.cavities
    .map((cavity) => cavity.id)
    .filter((id) => (inFirst?.has(id) ?? true) !== (inSecond?.has(id) ?? true));
}

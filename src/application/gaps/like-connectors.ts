import type { Connector, HarnessDocument } from "../../harness-model/index.ts";

/**
 * The connectors that have the shape of another one: the same sort, face and cavities in the same places. What holds for one of them often
 * holds for all; whether it does is for a person to say.
 *
 * @param document The document.
 * @param id Id of the connector.
 * @returns The other connectors, in the order of the document.
 */
export function likeConnectors({ connectors }: HarnessDocument, id: string): readonly Connector[] {
  const shape = connectors.find((each) => each.id === id);
  if (!shape) return [];
  const wanted = shapeOf(shape);
  return connectors.filter((each) => each.id !== id && shapeOf(each) === wanted);
}

/** One text for the shape of a connector: its sort, its face, and its cavities in their places. */
export function shapeOf({ kind, face, cavities }: Connector): string {
  return JSON.stringify([kind, face.shape, face.latch, face.key, cavities.map(({ id, x, y }) => [id, x, y])]);
}

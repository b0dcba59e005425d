import type { Connector, ConnectorSide, Harness } from "ohmward/harness-model";
import { fitDemo, openDemo } from "../demo-harness/open-demo.ts";

/** The demo machine in its base build. */
export const demo: Harness = fitDemo(openDemo(), "base");

/** A half of a connector of the demo machine; throws where there is none. */
export function demoSide(connectorId: string, sideId: string): readonly [Connector, ConnectorSide] {
  const connector = demo.document.connectors.find((each) => each.id === connectorId);
  const side = connector?.sides.find((each) => each.id === sideId);
  if (!connector || !side) throw new Error(`There is no half ${connectorId}.${sideId}`);
  return [connector, side];
}

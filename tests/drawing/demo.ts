import type { Connector, Half, Harness } from "ohmward/harness-model";
import { fitDemo, openDemo } from "../demo-harness/open-demo.ts";

/** The demo machine in its base build. */
export const demo: Harness = fitDemo(openDemo(), "base");

/** A half of a connector of the demo machine; throws where there is none. */
export function demoHalf(connectorId: string, halfId: string): readonly [Connector, Half] {
  const connector = demo.document.connectors.find((each) => each.id === connectorId);
  const half = connector?.halves.find((each) => each.id === halfId);
  if (!connector || !half) throw new Error(`There is no half ${connectorId}.${halfId}`);
  return [connector, half];
}

import { solveCircuit, type OperatingPoint } from "ohmward/simulation";
import { fitBuild, type HarnessDocument } from "ohmward/harness-model";
import { settledNetwork } from "./settled-network.ts";
import type { DeckNetwork } from "./write-deck.ts";

/** The demo machine settled in one state of one build, with its network for a deck. */
export interface DemoDeck extends DeckNetwork {
  readonly settled: OperatingPoint;
}

/** The demo machine in every state and build, under names such as `base_KOEO`. */
export function demoDecks(document: HarnessDocument): readonly DemoDeck[] {
  return document.builds.flatMap((build) => {
    const harness = fitBuild(document, build.id);
    if (!harness) throw new Error(`no build ${build.id}`);
    return document.states.map((state) => {
      const settled = solveCircuit(harness, { state: state.id });
      if (settled.kind !== "settled") throw new Error(`${build.id} ${state.id}: ${settled.kind}`);
      const name = `${build.id}_${state.id}`.replaceAll("-", "").toLowerCase();
      return { name, network: settledNetwork(settled), reference: settled.list.reference, settled };
    });
  });
}

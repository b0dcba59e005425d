import { seededRandom } from "ohmward/base";
import { randomNetwork } from "../../simulation/support/networks.ts";
import type { DeckNetwork } from "./write-deck.ts";

/** The generated networks: 100 with resistances of 10 ohm to 100 kohm (`w...`), 100 with 1 mohm to 1 Mohm (`x...`). */
export function referenceNetworks(): readonly DeckNetwork[] {
  const random = seededRandom(1970);
  return ["w", "x"].flatMap((letter) =>
    Array.from({ length: 100 }, (_, at): DeckNetwork => {
      const nodes = random.integer(5, 60);
      const spread = letter === "w" ? { leastOhm: 10, mostOhm: 1e5 } : { leastOhm: 1e-3, mostOhm: 1e6 };
      const network = randomNetwork(random, { nodes, extra: random.integer(0, nodes), ...spread });
      // A meter of 10 Mohm at the last node, and every fourth branch with a source in it.
      const branches = network.branches.map((branch, branchAt) =>
        branchAt % 4 === 2 ? { ...branch, volt: random.pick([5, -3.3, 14.3]) } : branch,
      );
      const meter = { from: nodes - 1, to: 0, ohm: 1e7 };
      return { name: `${letter}${at}`, network: { nodeCount: nodes, branches: [...branches, meter] }, reference: 0 };
    }),
  );
}

import { halfKey, isPermittedAt, type Cavity, type Connector } from "../../model/index.ts";
import type { Candidate } from "./candidate.ts";
import type { CandidateContext } from "./conductor-candidates.ts";
import { makeCandidates } from "./make-candidate.ts";
import { hazardFactors } from "./place-factors.ts";

/** Ohm between two cavities: metal or brine, and damp. Common practice, no source. */
const BRIDGE_OHMS = [0.7, 2000] as const;

/** Candidates of a connector as a whole: left off, bridged between neighbours, two wires in each other's place. */
export function connectorCandidates(context: CandidateContext, connector: Connector): readonly Candidate[] {
  const { harness, priors, scope } = context;
  const halves = harness.fitted.halves.get(connector.id) ?? [];
  const places = {
    connectors: [connector.id],
    segments: [],
    zones: connector.zone === undefined ? [] : [connector.zone],
  };
  const factors = hazardFactors(harness, priors, places);
  const common = { places, factors };
  const isUsed = connector.cavities.some((cavity) =>
    scope.edges.has(harness.edgeNumbers.get(`${connector.id}:${cavity.id}`) ?? -1),
  );
  const plug = {
    ...common,
    item: { type: "connector", id: connector.id } as const,
    sort: "plug" as const,
    name: `Connector ${connector.id}`,
    repair: `plug ${connector.id}`,
  };
  const isPluggable = halves.length === 2 && isPermittedAt(connector, "unplug");
  const off =
    isUsed && isPluggable
      ? makeCandidates(priors, plug, { unplugged: [[{ kind: "unplugged", of: connector.id }]] })
      : [];
  return [...off, ...neighbours(connector).flatMap((pair) => pairCandidates(context, connector, pair))];
}

function pairCandidates(
  context: CandidateContext,
  connector: Connector,
  [first, second]: readonly [Cavity, Cavity],
): readonly Candidate[] {
  const { harness, priors, scope } = context;
  const half = (harness.fitted.halves.get(connector.id) ?? []).find((each) => each.id !== "device");
  if (!half) return [];
  const nameOf = (cavity: Cavity): string => `${halfKey(connector, half)}:${cavity.id}`;
  const [one, other] = [nameOf(first), nameOf(second)];
  const numbers = [one, other].flatMap((name) => harness.nodeNumbers.get(name) ?? []);
  const near = numbers.filter((number) => scope.nodes.has(number) || scope.besideNodes.has(number));
  if (numbers.length < 2 || near.length === 0) return [];
  const places = {
    connectors: [connector.id],
    segments: [],
    zones: connector.zone === undefined ? [] : [connector.zone],
  };
  const pair = {
    item: { type: "connector", id: connector.id } as const,
    sort: "cavity-pair" as const,
    name: `Cavities ${connector.id}:${first.id} and ${second.id}`,
    repair: `cavities ${connector.id}:${first.id} ${second.id}`,
    places,
    factors: hazardFactors(harness, priors, places),
  };
  const bridges = BRIDGE_OHMS.map((ohm) => [{ kind: "bridge" as const, between: [one, other] as const, ohm }]);
  const swapped = near.length === 2 ? [[{ kind: "swapped" as const, cavities: [one, other] as const }]] : [];
  return makeCandidates(priors, pair, { bridge: bridges, swapped }).map((each) => ({
    ...each,
    id: `${each.mode} ${connector.id}:${first.id} ${connector.id}:${second.id}`,
  }));
}

/** Cavities that stand next to each other on the face. */
function neighbours({ cavities }: Connector): readonly (readonly [Cavity, Cavity])[] {
  return cavities.flatMap((first, index) =>
    cavities
      .slice(index + 1)
      .filter((second) => Math.hypot(first.x - second.x, first.y - second.y) < 1.25)
      .map((second): readonly [Cavity, Cavity] => [first, second]),
  );
}

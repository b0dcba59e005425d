import { endAddresses, type Connector, type HarnessDocument, type Wire } from "../../model/index.ts";

/** A connector of one of several documents. */
export interface ConnectorOfPart {
  /** Position of the document in the list, from 0. */
  readonly part: number;
  readonly connector: string;
}

/** One cavity that both connectors use, with what each wire there says. */
interface CavityEvidence {
  readonly cavity: string;
  /** Undefined where one of the two does not say. */
  readonly sameNet: boolean | undefined;
  readonly sameColour: boolean | undefined;
  readonly sameCrossSection: boolean | undefined;
}

/** Two connectors of different documents that may plug into one another, for a person to confirm. */
export interface MatingProposal {
  readonly first: ConnectorOfPart;
  readonly second: ConnectorOfPart;
  /** Whether the names differ in one number only, as the two sides of one coupling often do. */
  readonly namesAlike: boolean;
  readonly evidence: readonly CavityEvidence[];
  /** Higher is likelier; of use for sorting only. */
  readonly score: number;
}

/** What one cavity carries. */
interface CavityWire {
  readonly net: string | undefined;
  readonly colour: string | undefined;
  readonly crossSectionMm2: number | undefined;
}

interface Candidate extends ConnectorOfPart {
  readonly thing: Connector;
  readonly wires: ReadonlyMap<string, CavityWire>;
}

/**
 * Proposes which connectors of several documents plug into one another. No file states it, so each proposal carries the evidence for a
 * person to judge: names that differ in one number, and cavities whose wires agree. Nothing is joined here.
 *
 * @param documents The documents.
 * @returns Proposals, the likeliest first. A connector may appear in several.
 */
export function proposeMatings(documents: readonly HarnessDocument[]): readonly MatingProposal[] {
  const candidates = documents.flatMap((document, part) => candidatesOf(document, part));
  const proposals: MatingProposal[] = [];
  candidates.forEach((first, at) => {
    for (const second of candidates.slice(at + 1)) {
      if (first.part === second.part) continue;
      const proposal = judge(first, second);
      if (proposal) proposals.push(proposal);
    }
  });
  return proposals.sort((one, two) => two.score - one.score);
}

function candidatesOf(document: HarnessDocument, part: number): readonly Candidate[] {
  const wires = new Map<string, Map<string, CavityWire>>();
  for (const wire of document.wires) {
    for (const end of endAddresses(wire)) takeEnd(wires, end, wire);
  }
  const known = new Set(document.components.filter(({ elements }) => elements.length > 0).map(({ id }) => id));
  return document.connectors
    .filter((connector) => connector.component === undefined || !known.has(connector.component))
    .filter((connector) => connector.halves.filter((half) => half.id !== "device").length === 1)
    .flatMap((connector) => {
      const own = wires.get(connector.id);
      return own ? [{ part, connector: connector.id, thing: connector, wires: own }] : [];
    });
}

function takeEnd(wires: Map<string, Map<string, CavityWire>>, end: string, wire: Wire): void {
  const colon = end.lastIndexOf(":");
  if (colon < 0) return;
  const owner = end.slice(0, colon).replace(/\.harness$/u, "");
  const cavities = wires.get(owner) ?? new Map<string, CavityWire>();
  wires.set(owner, cavities);
  const { net, colour, crossSectionMm2 } = wire;
  cavities.set(end.slice(colon + 1), { net, colour, crossSectionMm2 });
}

function judge(first: Candidate, second: Candidate): MatingProposal | undefined {
  const evidence: CavityEvidence[] = [];
  for (const [cavity, one] of first.wires) {
    const two = second.wires.get(cavity);
    if (!two) continue;
    evidence.push({
      cavity,
      sameNet: same(one.net, two.net),
      sameColour: same(one.colour, two.colour),
      sameCrossSection: same(one.crossSectionMm2, two.crossSectionMm2),
    });
  }
  const namesAlike = areAlike(first.connector, second.connector);
  const agreeing = evidence.filter((each) => each.sameNet === true).length;
  const isLikely = namesAlike ? evidence.length > 0 : agreeing >= 2 && agreeing === evidence.length;
  if (!isLikely) return undefined;
  const colours = evidence.filter((each) => each.sameColour === true).length;
  const against = evidence.filter((each) => each.sameNet === false || each.sameColour === false).length;
  const score = (namesAlike ? 10 : 0) + 2 * agreeing + colours - 3 * against;
  const of = ({ part, connector }: Candidate): ConnectorOfPart => ({ part, connector });
  return { first: of(first), second: of(second), namesAlike, evidence, score };
}

function same<Value>(one: Value | undefined, two: Value | undefined): boolean | undefined {
  return one === undefined || two === undefined ? undefined : one === two;
}

/** Whether two names are the same but for one number. */
function areAlike(one: string, two: string): boolean {
  const [first, second] = [one, two].map((name) => name.match(/[0-9]+|[^0-9]+/gu) ?? []);
  if (!first || first.length !== second?.length) return false;
  const differing = first.filter((part, at) => part !== second[at]);
  const others = second.filter((part, at) => part !== first[at]);
  return differing.length === 1 && [...differing, ...others].every((part) => /^[0-9]+$/u.test(part));
}

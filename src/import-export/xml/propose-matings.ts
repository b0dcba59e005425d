import { endAddresses, type HarnessDocument, type Wire } from "../../harness-model/index.ts";

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

interface Candidate extends ConnectorOfPart {
  /** The wire in each cavity that has one. */
  readonly wires: ReadonlyMap<string, Wire>;
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
  const proposals = candidates.flatMap((first, at) =>
    candidates.slice(at + 1).flatMap((second) => (first.part === second.part ? [] : (judge(first, second) ?? []))),
  );
  return proposals.sort((one, two) => two.score - one.score);
}

function candidatesOf(document: HarnessDocument, part: number): readonly Candidate[] {
  const wires = new Map<string, Map<string, Wire>>();
  for (const wire of document.wires) {
    for (const end of endAddresses(wire)) {
      const [, owner, cavity] = /^(.*?)(?:\.harness)?:([^:]*)$/su.exec(end) ?? [];
      if (owner === undefined || cavity === undefined) continue;
      wires.set(owner, (wires.get(owner) ?? new Map<string, Wire>()).set(cavity, wire));
    }
  }
  const known = new Set(document.components.filter(({ elements }) => elements.length > 0).map(({ id }) => id));
  return document.connectors
    .filter((connector) => connector.component === undefined || !known.has(connector.component))
    .filter((connector) => connector.sides.filter((side) => side.id !== "device").length === 1)
    .flatMap(({ id: connector }) => {
      const own = wires.get(connector);
      return own ? [{ part, connector, wires: own }] : [];
    });
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

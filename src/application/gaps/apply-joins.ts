import { err, ok, type Result } from "../../base/index.ts";
import { HarnessDocument, type Wire } from "../../harness-model/index.ts";
import type { JoinProposal } from "./gap.ts";
import { proposeJoins } from "./propose-joins.ts";

/** Who confirms joins, and when (`2026-11-30`). */
export interface Confirmed {
  readonly by: string;
  readonly on: string;
}

/**
 * Joins wires with open ends that a person has confirmed to be one: two become one wire, three and more meet in a splice whose place is not
 * known. Who confirmed it stands in the origin of each wire.
 *
 * @param document The document; it is not changed.
 * @param ids Names of the proposals of {@link proposeJoins} that are confirmed.
 * @param confirmed Who confirms them, and when.
 * @returns The new document, or the names that are no proposals.
 */
export function applyJoins(
  document: HarnessDocument,
  ids: readonly string[],
  confirmed: Confirmed,
): Result<HarnessDocument, readonly string[]> {
  const proposals = proposeJoins(document);
  const unknown = ids.filter((id) => !proposals.some((proposal) => proposal.id === id));
  if (unknown.length > 0) return err(unknown);
  const chosen = proposals.filter(({ id }) => ids.includes(id));
  return ok(chosen.reduce((before, proposal) => joinOne(before, proposal, confirmed), document));
}

function joinOne(document: HarnessDocument, proposal: JoinProposal, confirmed: Confirmed): HarnessDocument {
  const joined = proposal.wires.flatMap((id) => document.wires.find((wire) => wire.id === id) ?? []);
  const [first, second] = joined;
  if (proposal.as === "wire" && first && second) return asOneWire(document, [first, second], confirmed);
  const bare = proposal.points.filter((point) => !joined.some(({ ends }) => ends[0] === point));
  const splice = freeId(document, "SPJ");
  const isSplice = proposal.as === "splice";
  const far = isSplice ? splice : (bare[0] ?? "");
  const starts = isSplice || first ? (isSplice ? bare : []) : bare.slice(1);
  const origin = originOf({}, confirmed);
  let made = document;
  for (const start of starts)
    made = withWire(made, { id: freeId(made, "WJ"), ends: [start, far], net: proposal.net, ...origin });
  return HarnessDocument.parse({
    ...made,
    splices: isSplice
      ? [
          ...made.splices,
          {
            id: splice,
            label: `${proposal.net}, position not known`,
            ...(first?.when === undefined ? {} : { when: first.when }),
          },
        ]
      : made.splices,
    wires: made.wires.map((wire) =>
      joined.includes(wire) ? { ...wire, ...originOf(wire, confirmed), ends: [wire.ends[0], far] } : wire,
    ),
  });
}

function withWire(document: HarnessDocument, wire: object): HarnessDocument {
  return { ...document, wires: [...document.wires, wire as Wire] };
}

function asOneWire(
  document: HarnessDocument,
  [first, second]: readonly [Wire, Wire],
  confirmed: Confirmed,
): HarnessDocument {
  const whole = {
    ...second,
    ...first,
    ...originOf(first, confirmed),
    ends: [first.ends[0], second.ends[0]] as [string, string],
  };
  const moved = document.statements?.map((each) => (each.about === second.id ? { ...each, about: first.id } : each));
  return {
    ...document,
    wires: document.wires.flatMap((wire) => (wire === first ? [whole] : wire === second ? [] : [wire])),
    ...(moved && { statements: moved }),
  };
}

function originOf(
  { origin }: Pick<Wire, "origin">,
  { by, on }: Confirmed,
): { readonly origin: NonNullable<Wire["origin"]> } {
  const source = "joined by signal and colour";
  return { origin: { source: origin ? `${origin.source}; ${source}` : source, checkedBy: by, checkedOn: on } };
}

/** An id that nothing of the document has, from its first letters. */
function freeId({ splices, terminalStuds, connectors, components, wires }: HarnessDocument, start: string): string {
  const taken = new Set<string>(
    [...splices, ...terminalStuds, ...connectors, ...components, ...wires].map(({ id }) => id),
  );
  let number = 1;
  while (taken.has(`${start}${number}`)) number += 1;
  return `${start}${number}`;
}

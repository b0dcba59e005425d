import { z } from "zod";
import { ok } from "../../base/index.ts";
import type { HarnessDocument } from "../../harness-model/index.ts";
import { PROPOSAL_KINDS, type ImportedHarness, type ProposalKind, type ReadResult } from "../../import-export/index.ts";
import { applyJoins } from "../gaps/apply-joins.ts";
import { proposeJoins } from "../gaps/propose-joins.ts";
import type { Frozen } from "../frozen.ts";

/** A question about a table or a machine, with the answer that is proposed. */
export const ImportProposal = z.object({
  kind: z.string().describe("Sort of proposal, as `--accept` takes it"),
  text: z.string().describe("The question, with the proposed answer in it"),
  evidence: z.array(z.string()).describe("What speaks for it"),
  otherwise: z.string().describe("What holds as long as nobody confirms it"),
  isAccepted: z.boolean().describe("Whether it is confirmed"),
});

export type ImportProposal = Frozen<z.infer<typeof ImportProposal>>;

/** Every sort of proposal that a person may confirm when a file is imported, with what it is about. */
export const ACCEPTED_KINDS = {
  ...PROPOSAL_KINDS,
  "same-signal": "wires and pins of the same signal on different connectors that are one net",
  "same-connectors": "connectors of the same name in several files of tables that are one",
} as const;

/** A sort of proposal, as it is confirmed: one answer for all of its kind. */
export type AcceptedKind = keyof typeof ACCEPTED_KINDS;

/** The sorts that the reader of tables asks about. */
export function tableKinds(accepted: ReadonlySet<AcceptedKind>): ReadonlySet<ProposalKind> {
  return new Set([...accepted].filter((kind): kind is ProposalKind => kind in PROPOSAL_KINDS));
}

/**
 * Joins what a person has confirmed for all wires and pins of the same signal; see `proposeJoins`. Without the confirmation nothing is
 * changed.
 *
 * @param result What came of the import.
 * @param accepted The sorts that are confirmed.
 * @param on The date, such as `2026-11-30`.
 */
export function acceptJoins(result: ReadResult, accepted: ReadonlySet<AcceptedKind>, on: string): ReadResult {
  if (!result.ok || !accepted.has("same-signal")) return result;
  const { document } = result.value;
  const ids = proposeJoins(document).map(({ id }) => id);
  const joined = applyJoins(document, ids, { by: "confirmed for all when imported", on });
  return joined.ok ? ok({ ...result.value, document: joined.value }) : result;
}

/**
 * Connectors of the same name in several files, for a person to confirm that each is one.
 *
 * @param documents What the files of tables gave, each for itself.
 * @param isAccepted Whether that is confirmed.
 */
export function sharedConnectors(documents: readonly HarnessDocument[], isAccepted = false): readonly ImportProposal[] {
  const counts = new Map<string, number>();
  for (const { id } of documents.flatMap(({ connectors }) => connectors)) counts.set(id, (counts.get(id) ?? 0) + 1);
  const shared = [...counts].flatMap(([id, count]) => (count > 1 ? [id] : []));
  if (shared.length === 0) return [];
  const text = `Is each of these one connector in all files: ${shared.slice(0, MOST_NAMED).join(", ")}?`;
  const otherwise = "Each file has its own, under another id";
  return [{ kind: "same-connectors", text, evidence: ["the same name"], otherwise, isAccepted }];
}

/** Most joins that a question names. */
const MOST_NAMED = 8;

/**
 * Everything that a person may be asked about an import, one question for each sort.
 *
 * @param imported What was read, joined already where that is confirmed.
 * @param accepted The sorts that are confirmed.
 */
export function importProposals(
  { document, proposals = [] }: ImportedHarness,
  accepted: ReadonlySet<AcceptedKind> = new Set(),
): readonly ImportProposal[] {
  const joins = proposeJoins(document);
  if (joins.length === 0) return proposals;
  const named = joins.slice(0, MOST_NAMED).map(({ net, points }) => `${net} (${points.join(", ")})`);
  const more = joins.length > MOST_NAMED ? ` and ${joins.length - MOST_NAMED} more` : "";
  const text = `Are wires and pins of the same signal one net: ${named.join("; ")}${more}?`;
  const evidence = ["the same signal or function, in colours that do not differ"];
  const otherwise = "They are left apart. Join single ones later, among the missing data or with ohmward join FILE";
  return [...proposals, { kind: "same-signal", text, evidence, otherwise, isAccepted: accepted.has("same-signal") }];
}

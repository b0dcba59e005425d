import { readFileSync } from "node:fs";
import { join } from "node:path";
import { cleanId, PROPOSAL_KINDS, type ImportedHarness, type ProposalKind } from "ohmward/import-export";
import { endAddresses, type HarnessDocument } from "ohmward/harness-model";
import { acceptJoins, ACCEPTED_KINDS, type AcceptedKind } from "ohmward/application";
import { root } from "../../structure/support/project-files.ts";
import { readFile } from "./read-file.ts";

/** What a table must give; see the files `*.expected.json` beside the tables. Whatever is absent is not judged. */
export interface ShapeExpectation {
  readonly connectors?: number;
  readonly pins?: number;
  readonly studs?: number;
  readonly wiresBothEnds?: number | null;
  readonly wiresOneEnd?: number;
  readonly nets?: number;
  readonly netPoints?: readonly (readonly string[])[];
  readonly netPointsIfConfirmed?: readonly (readonly string[])[];
  readonly unusedPins?: readonly string[];
  readonly sizesMm2?: Readonly<Record<string, number>>;
  readonly lengthsMm?: Readonly<Record<string, number>>;
  readonly colours?: Readonly<Record<string, { readonly iec60757: string | null }>>;
  readonly joinedInside?: readonly (readonly string[])[];
  readonly contactsWithSeveralWires?: Readonly<Record<string, number>>;
  readonly problems?: readonly { readonly kind: string; readonly row: number | null }[];
  readonly notJoined?: { readonly from: string; readonly to: string };
}

/** A point of a table, `CONNECTOR:PIN`, as the address it has in a document. */
function addressOf(point: string): string {
  const at = point.lastIndexOf(":");
  if (at < 0) return cleanId(point) ?? point;
  return `${cleanId(point.slice(0, at)) ?? ""}:${cleanId(point.slice(at + 1)) ?? ""}`;
}

/** Groups of at least two points that wires, splices and bars join; points of splices do not count. */
function netsOf(document: HarnessDocument): readonly (readonly string[])[] {
  const group = new Map<string, Set<string>>();
  const join = (first: string, second: string): void => {
    const all = new Set([...(group.get(first) ?? [first]), ...(group.get(second) ?? [second])]);
    for (const each of all) group.set(each, all);
  };
  for (const { ends } of document.wires) if (ends[1] !== undefined) join(ends[0], ends[1]);
  for (const { elements } of document.components)
    for (const { kind, between } of elements) if (kind === "bar") join(...between);
  const splices = new Set<string>(document.splices.map(({ id }) => id));
  const nets = [...new Set(group.values())].map((each) => [...each].filter((point) => !splices.has(point)).sort());
  return nets.filter((net) => net.length > 1).sort((a, b) => (a[0] ?? "").localeCompare(b[0] ?? ""));
}

const sorted = (nets: readonly (readonly string[])[]): readonly string[] =>
  nets.map((net) => net.map(addressOf).sort().join(" ")).sort();

/** Reads a table as a person would import it, with the sorts of proposals that are confirmed. */
export function importShape(path: string, accepted: readonly AcceptedKind[] = []): ImportedHarness {
  const fileName = path.replace(/^.*\//u, "");
  const accept = new Set(accepted.filter((kind): kind is ProposalKind => kind in PROPOSAL_KINDS));
  const read = readFile(readFileSync(join(root, path)), fileName, { table: { accept } });
  const result = acceptJoins(read, new Set(accepted), "2026-11-30");
  if (!result.ok) throw new Error(result.error.map((problem) => `${problem.code}: ${problem.message}`).join("\n"));
  return result.value;
}

/** What differs between an expectation and what a table gave, in words; empty where nothing does. */
export function shapeFaults(path: string, expected: ShapeExpectation): readonly string[] {
  const faults: string[] = [];
  const before = importShape(path);
  const after = importShape(path, Object.keys(ACCEPTED_KINDS) as AcceptedKind[]);
  const same = (what: string, found: unknown, wanted: unknown): void => {
    const [one, two] = [JSON.stringify(found), JSON.stringify(wanted)];
    if (one !== two) faults.push(`${what}: ${one}, expected ${two}`);
  };
  const { document } = before;
  const open = document.wires.filter(({ ends }) => ends[1] === undefined).length;
  const whole = document.wires.length - open;
  if (expected.connectors !== undefined) same("connectors", document.connectors.length, expected.connectors);
  if (expected.pins !== undefined)
    same(
      "pins",
      document.connectors.reduce((sum, each) => sum + each.cavities.length, 0),
      expected.pins,
    );
  if (expected.studs !== undefined) same("studs", document.terminalStuds.length, expected.studs);
  if (typeof expected.wiresBothEnds === "number") same("wires with both ends", whole, expected.wiresBothEnds);
  if (expected.wiresOneEnd !== undefined) same("wires with one end", open, expected.wiresOneEnd);
  if (expected.nets !== undefined) same("nets", netsOf(document).length, expected.nets);
  if (expected.netPoints) same("nets", sorted(netsOf(document)), sorted(expected.netPoints));
  const confirmed = expected.netPointsIfConfirmed ?? expected.netPoints;
  if (confirmed) same("nets when confirmed", sorted(netsOf(after.document)), sorted(confirmed));
  judgeWires(after.document, expected, same);
  for (const point of expected.unusedPins ?? []) {
    const address = addressOf(point);
    const isThere = document.connectors.some(({ id, cavities }) =>
      cavities.some((cavity) => `${id}:${cavity.id}` === address),
    );
    same(`unused ${point}`, [isThere, usesOf(document, address)], [true, 0]);
  }
  for (const [point, count] of Object.entries(expected.contactsWithSeveralWires ?? {}))
    same(`wires at ${point}`, usesOf(document, addressOf(point)), count);
  const { notJoined } = expected;
  if (notJoined) {
    const [from, to] = [addressOf(notJoined.from), addressOf(notJoined.to)];
    for (const each of [before, after])
      same(
        "not joined",
        netsOf(each.document).some((net) => net.includes(from) && net.includes(to)),
        false,
      );
  }
  if (expected.problems) {
    const rows = (list: readonly (number | null | undefined)[]): readonly number[] =>
      [...new Set(list.flatMap((row) => row ?? []))].sort((a, b) => a - b);
    same(
      "rows with problems",
      rows(before.warnings.map(({ at }) => at.row)),
      rows(expected.problems.map(({ row }) => row)),
    );
  }
  return faults;
}

function usesOf(document: HarnessDocument, address: string): number {
  return document.wires.filter((wire) => endAddresses(wire).includes(address)).length;
}

/** Compares sizes, lengths and colours by the row that a wire comes from. */
function judgeWires(
  document: HarnessDocument,
  expected: ShapeExpectation,
  same: (what: string, found: unknown, wanted: unknown) => void,
): void {
  const wireOf = (row: string): HarnessDocument["wires"][number] | undefined =>
    document.wires.find(({ origin }) => new RegExp(`row ${row}(?:$|;)`, "u").test(origin?.source ?? ""));
  const digits = (value: number | undefined): number | undefined =>
    value === undefined ? undefined : Number(value.toFixed(3));
  for (const [row, size] of Object.entries(expected.sizesMm2 ?? {}))
    same(`size of row ${row}`, digits(wireOf(row)?.crossSectionMm2), size);
  for (const [row, length] of Object.entries(expected.lengthsMm ?? {}))
    same(`length of row ${row}`, wireOf(row)?.lengthMm, length);
  for (const [row, { iec60757 }] of Object.entries(expected.colours ?? {}))
    same(`colour of row ${row}`, wireOf(row)?.colour ?? null, iec60757);
}

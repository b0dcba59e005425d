import { defined } from "../../base/index.ts";
import { importProblem } from "../import-problem.ts";
import { countFitted, whenOf, type Assembly, type ColourCodes, unionOf } from "./assembly.ts";
import { cutText, type Account, type Origins } from "./source-facts.ts";
import type { RawColour, SourceContact, SourceWire } from "./harness-source.ts";

/** Length that a joint in a terminal is entered with, in mm: a document has no joint without leads. */
const LEAD_MM = 1;

/** Adds all wires, and a joint wherever one terminal holds several of them. */
export function addWires(assembly: Assembly): void {
  const addresses = contactAddresses(assembly);
  const { account } = assembly.source;
  const routes = routesOf(assembly);
  const unknown = new Map<string, number>();
  for (const wire of assembly.source.wires) {
    const ends = wire.ends.toSorted((first, second) => first.position - second.position);
    if (ends.length < 2) {
      assembly.draft.report(importProblem("source-wire-without-ends", wire.at, { wire: wire.name, ends: ends.length }));
      leaveOut(account, wire, "it has no two ends");
      continue;
    }
    const points = ends.map((end) => addresses.get(end.contact));
    const lost = points.findIndex((point) => point === undefined);
    if (lost >= 0) {
      const id = ends[lost]?.contact.slice(0, 80) ?? "";
      assembly.draft.report(importProblem("source-end-unknown", wire.at, { wire: wire.name, id }));
      leaveOut(account, wire, "it ends at an item that is not in the file");
      continue;
    }
    const mapped = mapColours(wire.colours, assembly.codes);
    for (const colour of mapped.unknown) unknown.set(colour, (unknown.get(colour) ?? 0) + 1);
    const facts = wireFacts(assembly, wire, mapped);
    points.slice(1).forEach((point, at) => {
      const from = points[at] ?? "";
      if (from === point) {
        assembly.draft.report(importProblem("source-wire-joins-itself", wire.at, { wire: wire.name, at: from }));
        leaveOut(account, wire, "both ends are the same point");
        return;
      }
      const isWhole = points.length === 2;
      const share = (ends[at + 1]?.position ?? 1) - (ends[at]?.position ?? 0);
      const length = lengthOf(assembly, wire, isWhole ? 1 : share);
      const route = isWhole ? routeOf(assembly, wire, routes.get(wire.key)) : {};
      const id = isWhole ? wire.name : `${wire.name}.${at + 1}`;
      account.keep(wire.madeOf, "wire");
      account.keep(wire.part?.madeOf ?? [], "part of a wire");
      for (const end of ends) account.keep(assembly.index.contacts.get(end.contact)?.madeOf ?? [], "contact");
      assembly.draft.addWire({ ...facts, ...length, ...route, id, ends: [from, point ?? ""] }, wire.at);
    });
  }
  for (const [colour, wires] of unknown) {
    const facts = { colour: colour.slice(0, 40), scheme: assembly.codes.name, wires };
    assembly.draft.report(importProblem("source-colour-unknown", {}, facts));
  }
}

function leaveOut(account: Account, { madeOf, part }: SourceWire, reason: string): void {
  account.leaveOut([...madeOf, ...(part?.madeOf ?? [])], reason);
}

interface WireRoute {
  readonly segments: readonly string[] | "several";
  readonly madeOf: Origins;
}

function routesOf({ source }: Assembly): ReadonlyMap<string, WireRoute> {
  const routes = new Map<string, WireRoute>();
  for (const { wire, segments, madeOf } of source.routes) {
    const before = routes.get(wire);
    const isSame = before === undefined || before.segments.toString() === segments.toString();
    routes.set(wire, { segments: isSame ? segments : "several", madeOf: [...(before?.madeOf ?? []), ...madeOf] });
    source.account.leaveOut(madeOf, "the wire it is of is not kept whole");
  }
  return routes;
}

function wireFacts(assembly: Assembly, wire: SourceWire, mapped: MappedColour) {
  const { crossSectionMm2, signal: net, group, number, type, part } = wire;
  const { colour, raw } = mapped;
  const note = raw === "" ? undefined : `In the file: colour ${raw}`;
  return {
    ...defined({ crossSectionMm2, net, group, part: part?.part, harness: assembly.source.harness, colour, note }),
    ...defined({ number: number && cutText(number), type: type && cutText(type) }),
    ...whenOf(assembly, wire, wire.fitted),
  };
}

function lengthOf(assembly: Assembly, wire: SourceWire, share: number): { readonly lengthMm?: number } {
  if (wire.lengthMm === undefined || share <= 0) return {};
  if (wire.lengthMm > 0) return { lengthMm: wire.lengthMm * share };
  const facts = { item: wire.name, lengthMm: wire.lengthMm };
  assembly.draft.report(importProblem("source-length-wrong", wire.at, facts));
  return {};
}

function routeOf(assembly: Assembly, wire: SourceWire, told: WireRoute | undefined): { readonly route?: string[] } {
  const route = told?.segments;
  if (told === undefined || route === undefined || route.length === 0) return {};
  const leftOut = (reason: string) => {
    assembly.source.account.leaveOut(told.madeOf, reason, true);
    assembly.draft.report(importProblem("source-route-left-out", wire.at, { wire: wire.name, reason }));
    return {};
  };
  if (route === "several") return leftOut("the file gives several, for several options");
  const laid = layRoute(route, assembly.index.segments, [nodeOf(assembly, wire, 0), nodeOf(assembly, wire, 1)]);
  const ids = laid.kind === "laid" ? laid.segments.map((key) => assembly.segments.get(key)) : [];
  const kept = ids.filter((id) => id !== undefined);
  if (laid.kind === "laid" && kept.length === ids.length) {
    assembly.source.account.keep(told.madeOf, "route of a wire");
    return { route: kept };
  }
  return leftOut(laid.kind === "broken" ? laid.reason : "a segment of it was left out");
}

function nodeOf({ index }: Assembly, wire: SourceWire, end: number): string | undefined {
  const sorted = wire.ends.toSorted((first, second) => first.position - second.position);
  const contact = index.contacts.get(sorted[end]?.contact ?? "");
  return contact && index.connectors.get(contact.connector)?.node;
}

/** The address at which wires of each contact end. */
function contactAddresses(assembly: Assembly): ReadonlyMap<string, string> {
  const addresses = new Map<string, string>();
  const joints: string[] = [];
  for (const contact of assembly.source.contacts) {
    const placed = assembly.connectors.get(contact.connector);
    const { account } = assembly.source;
    account.leaveOut(contact.madeOf, "no wire ends there");
    if (!placed) continue;
    if (placed.kind !== "connector") addresses.set(contact.key, placed.id);
    else {
      const cavities = cavityAddresses(assembly, contact, placed.id);
      const [first] = cavities;
      const wires = (assembly.index.wiresAt.get(contact.key) ?? []).map((wire) => wire.fitted);
      if (first === undefined) continue;
      if (cavities.length === 1 && countFitted(wires, assembly.builds).most < 2) addresses.set(contact.key, first);
      else if (wires.length > 0) {
        joints.push(first);
        addresses.set(contact.key, addJoint(assembly, contact, cavities));
      }
    }
  }
  const [example] = joints;
  if (example !== undefined)
    assembly.draft.report(importProblem("wires-joined-in-terminal", {}, { terminals: joints.length, example }));
  return addresses;
}

function cavityAddresses(assembly: Assembly, contact: SourceContact, id: string): readonly string[] {
  const connector = assembly.index.connectors.get(contact.connector);
  const named = contact.cavities.map((key) => connector?.cavities.find((cavity) => cavity.key === key));
  return named.filter((cavity) => cavity !== undefined).map((cavity) => assembly.draft.contact(id, cavity.name));
}

function addJoint(assembly: Assembly, contact: SourceContact, cavities: readonly string[]): string {
  const { draft } = assembly;
  const connector = assembly.index.connectors.get(contact.connector);
  const wires = assembly.index.wiresAt.get(contact.key) ?? [];
  const item = connector ?? { key: contact.key, name: contact.key, at: {}, madeOf: [] };
  const when = whenOf(assembly, item, unionOf(wires.map((wire) => wire.fitted)));
  const [first = ""] = cavities;
  const id = draft.addSplice({ id: `${first.replace(":", ".")}-crimp`, label: `Crimp in ${first}`, ...when }, item.at);
  const thickest = Math.max(...wires.map((wire) => wire.crossSectionMm2 ?? 0));
  const size = thickest > 0 ? { crossSectionMm2: thickest, lengthMm: LEAD_MM } : {};
  const net = defined({ net: wires[0]?.signal });
  for (const cavity of cavities) {
    const note = "Not a wire: it stands for the terminal that the wires are crimped in";
    draft.addWire({ id: `${id}-lead`, ends: [id, cavity], note, ...size, ...net, ...when }, item.at);
  }
  return id;
}

/** A wire's colours put together. */
interface MappedColour {
  /** In the form of the harness document; undefined for a bare conductor, or where one of its colours is not known. */
  readonly colour: string | undefined;
  /** The colours as written in the file. */
  readonly raw: string;
  /** Those that the list does not have. */
  readonly unknown: readonly string[];
}

/** Puts base and tracer of a wire together. A third colour has no place in the document and is kept in the raw text only. */
export function mapColours(colours: readonly RawColour[], list: ColourCodes): MappedColour {
  const order = { base: 0, tracer: 1, more: 2 };
  const sorted = [...colours].sort((first, second) => order[first.role] - order[second.role]);
  const codes = sorted.map((colour) => list.codeOf(colour.text));
  const unknown = sorted.filter((_, at) => codes[at] === undefined).map((colour) => colour.text);
  const known = codes.filter((code) => code !== undefined && code !== "").slice(0, 2);
  return {
    colour: unknown.length > 0 || known.length === 0 ? undefined : known.join("/"),
    raw: sorted.map((colour) => colour.text).join("/"),
    unknown,
  };
}

/** A segment as a route sees it. */
interface RouteSegment {
  readonly from: string;
  readonly to: string;
}

/** A route laid from the first end of a wire to the second, or why it cannot be. */
type LaidRoute =
  | { readonly kind: "laid"; readonly segments: readonly string[] }
  | { readonly kind: "broken"; readonly reason: string };

/**
 * Lays a route: the segments have to be a chain that touches both ends, and may be listed from either end.
 *
 * @param segments Keys of the segments as listed.
 * @param ends Keys of the nodes at which the first and the second end of the wire sit, where that is known.
 */
export function layRoute(
  segments: readonly string[],
  known: ReadonlyMap<string, RouteSegment>,
  ends: readonly [string | undefined, string | undefined],
): LaidRoute {
  const missing = segments.find((key) => !known.has(key));
  if (missing !== undefined) return { kind: "broken", reason: `segment "${missing.slice(0, 80)}" is not there` };
  if (walks(segments, known, ends)) return { kind: "laid", segments };
  const reversed = segments.toReversed();
  if (walks(reversed, known, ends)) return { kind: "laid", segments: reversed };
  const isChain = walks(segments, known, [undefined, undefined]);
  return {
    kind: "broken",
    reason: isChain ? "it does not join the two ends of the wire" : "its segments are no chain",
  };
}

/** Whether the segments lead from the first end to the second. With an unknown start both ends of the first segment are tried. */
function walks(
  segments: readonly string[],
  known: ReadonlyMap<string, RouteSegment>,
  [start, end]: readonly [string | undefined, string | undefined],
): boolean {
  const first = known.get(segments[0] ?? "");
  if (!first) return false;
  let reached = new Set(start === undefined ? [first.from, first.to] : [start]);
  for (const key of segments) {
    const segment = known.get(key);
    if (!segment) return false;
    const next = new Set<string>();
    if (reached.has(segment.from)) next.add(segment.to);
    if (reached.has(segment.to)) next.add(segment.from);
    if (next.size === 0) return false;
    reached = next;
  }
  return end === undefined || reached.has(end);
}

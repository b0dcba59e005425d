import type {
  HarnessSource,
  SourceCavity,
  SourceConnector,
  SourceElement,
  SourceMating,
  SourceTerminal,
} from "../xml/source/harness-source.ts";
import { uniqueNames } from "../xml/source/unique-names.ts";
import type { KblFacts } from "./kbl-facts.ts";

type Parts = Pick<HarnessSource, "boxes" | "connectors" | "contacts" | "wires" | "matings">;

/**
 * Plugs connectors of the harness into the boxes they are said to mate with: the connector becomes the face of the box, and what is inside
 * the box ends at its cavities. A mating that cannot be so stays in the list, to be refused with its reason.
 */
export function plugIntoBoxes({ facts }: KblFacts, parts: Parts): Parts {
  const connectors = new Map(parts.connectors.map((each) => [each.key, each]));
  const plugsOf = new Map<string, { plug: string; pairs: readonly (readonly [box: string, plug: string])[] }[]>();
  const plugged = new Set<string>();
  const taken = new Set<string>();
  const wired = new Set(parts.wires.flatMap((wire) => wire.ends.map((end) => end.contact)));
  const owners = new Set(parts.contacts.flatMap(({ key, connector }) => (wired.has(key) ? [connector] : [])));
  const matings = parts.matings.filter((mating) => {
    const found = boxMating(mating, connectors);
    if (!found || owners.has(found.box) || plugged.has(found.plug) || found.pairs.some(([from]) => taken.has(from)))
      return true;
    plugged.add(found.plug);
    for (const [from] of found.pairs) taken.add(from);
    plugsOf.set(found.box, [...(plugsOf.get(found.box) ?? []), found]);
    return false;
  });
  const moved = new Map<string, string>();
  for (const [key, plugs] of plugsOf) {
    const face = connectors.get(key);
    if (!face) continue;
    for (const { pairs } of plugs) for (const [from, to] of pairs) moved.set(from, to);
    const left = face.cavities.filter((cavity) => !moved.has(cavity.key));
    plugs.forEach(({ plug: plugKey, pairs }) => {
      const plug = connectors.get(plugKey);
      if (!plug) return;
      const met = new Map(pairs.map(([from, to]) => [to, face.cavities.find((cavity) => cavity.key === from)]));
      const cavities = plug.cavities.map((cavity) => joined(cavity, met.get(cavity.key)));
      const more = plugs.length === 1 ? left : [];
      const madeOf = [...plug.madeOf, ...face.madeOf];
      connectors.set(plugKey, { ...plug, box: face.box, cavities: uniqueNames([...cavities, ...more]), madeOf });
    });
    for (const { fitted } of face.cavities)
      for (const each of fitted) facts.account.leaveOut(each.madeOf, "in a cavity of a box that no wire ends in");
    if (plugs.length === 1 || left.length === 0) connectors.delete(key);
    else connectors.set(key, { ...face, cavities: left });
  }
  const terminal = (end: SourceTerminal): SourceTerminal =>
    "cavity" in end ? { cavity: moved.get(end.cavity) ?? end.cavity } : end;
  const element = (each: SourceElement): SourceElement => {
    const [first, second] = each.between;
    return { ...each, between: [terminal(first), terminal(second)] };
  };
  return {
    ...parts,
    boxes: parts.boxes.map((box) => ({ ...box, elements: box.elements.map(element) })),
    connectors: [...connectors.values()],
    matings,
  };
}

/** The sides of a mating of a plug with a connector of a box; undefined for any other. */
function boxMating({ connectors: keys, cavities }: SourceMating, connectors: ReadonlyMap<string, SourceConnector>) {
  const [first, second] = keys.map((key) => connectors.get(key));
  if (!first || !second || (first.box === undefined) === (second.box === undefined)) return undefined;
  const [face, plug] = first.box === undefined ? [second, first] : [first, second];
  if (plug.use !== "plug") return undefined;
  const named = cavities.map(([one, two]) => (face === first ? ([one, two] as const) : ([two, one] as const)));
  const alike = face.cavities.flatMap(({ key, name }) => {
    const other = plug.cavities.find((cavity) => cavity.name === name);
    return other ? [[key, other.key] as const] : [];
  });
  return { box: face.key, plug: plug.key, pairs: named.length > 0 ? named : alike };
}

function joined(cavity: SourceCavity, met: SourceCavity | undefined): SourceCavity {
  return met ? { ...cavity, sealed: cavity.sealed || met.sealed, madeOf: [...cavity.madeOf, ...met.madeOf] } : cavity;
}

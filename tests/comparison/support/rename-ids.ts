import type { SeededRandom } from "ohmward/base";
import type { DocumentInput } from "../../generate/harness-draft.ts";

/** A connector, or one cavity of it. */
interface Place {
  readonly connector: string;
  readonly cavity?: string;
}

/** Writes every address of a document with another function. */
function editAddresses(document: DocumentInput, edit: (address: string) => string): void {
  const editList = (list: (string | undefined)[]): void =>
    list.forEach((each, at) => each !== undefined && (list[at] = edit(each)));
  for (const { ends } of document.wires) editList(ends);
  for (const { elements, needs } of document.components) {
    for (const element of elements) {
      editList(element.between);
      if (element.kind === "divider") element.tap = edit(element.tap);
    }
    if (needs) Object.assign(needs, { positive: edit(needs.positive), negative: edit(needs.negative) });
    if (needs?.wake !== undefined) needs.wake = edit(needs.wake);
  }
  for (const { points } of document.codes) editList(points);
  for (const { points } of document.adapters) if (points !== undefined && points !== "all") editList(points);
  const { supply } = document.system;
  if (supply) Object.assign(supply, { positive: edit(supply.positive), negative: edit(supply.negative) });
}

/** Gives a connector another id, or a cavity of it another number, everywhere. */
export function renameOwner(document: DocumentInput, from: Place, to: Place): void {
  const connector = document.connectors.find(({ id }) => id === from.connector);
  if (!connector) return;
  const names = new Set([
    from.connector,
    ...connector.sides.map(({ id, name }) => name ?? `${from.connector}.${id}`),
    ...connector.sides.map(({ id }) => `${from.connector}.${id}`),
  ]);
  editAddresses(document, (address) => {
    const colon = address.lastIndexOf(":");
    const owner = address.slice(0, colon);
    if (colon < 0 || !names.has(owner)) return address;
    const cavity = address.slice(colon + 1);
    const newOwner =
      owner === from.connector || owner.startsWith(`${from.connector}.`)
        ? to.connector + owner.slice(from.connector.length)
        : owner;
    return `${newOwner}:${cavity === from.cavity && to.cavity !== undefined ? to.cavity : cavity}`;
  });
  connector.id = to.connector;
  for (const adapter of document.adapters)
    adapter.fits = adapter.fits.map((each) => (each === from.connector ? to.connector : each));
  if (from.cavity === undefined || to.cavity === undefined) return;
  const swap = (id: string): string => (id === from.cavity ? (to.cavity ?? id) : id);
  for (const cavity of connector.cavities) cavity.id = swap(cavity.id);
  for (const side of connector.sides) {
    if (side.cavities) side.cavities = side.cavities.map(swap);
    for (const fitted of side.fitted ?? []) fitted.cavity = swap(fitted.cavity);
  }
}

/** New ids for everything, and every list in another order. Labels, values and the wiring stay. */
export function renameEverything(
  document: DocumentInput,
  random: SeededRandom,
): { readonly document: DocumentInput; readonly names: ReadonlyMap<string, string> } {
  const names = new Map<string, string>();
  let count = 0;
  const renamed = (kind: string, id: string): string => {
    const key = `${kind}|${id}`;
    const known = names.get(key) ?? `q${(++count).toString(36)}z`;
    names.set(key, known);
    return known;
  };
  shuffleLists(document, random);
  const sideNames = new Map<string, string>();
  const points = new Map<string, string>();
  const words = new Map<string, string>();
  for (const { id } of [...document.splices]) points.set(id, renamed("splice", id));
  for (const { id } of document.terminalStuds) points.set(id, renamed("stud", id));
  for (const connector of document.connectors) {
    const { id } = connector;
    sideNames.set(id, renamed("connector", id));
    for (const cavity of connector.cavities)
      words.set(`${id}:${cavity.id}`, renamed("cavity local", `${id}:${cavity.id}`));
    // The two sides of a connector of a part are called so by the form of the document.
    for (const side of connector.sides) {
      sideNames.set(`${id}.${side.id}`, `${renamed("connector", id)}.${side.id}`);
      if (side.name !== undefined) sideNames.set(side.name, renamed("side name", side.name));
    }
  }
  const connectorOf = new Map(
    document.connectors.flatMap(({ id, sides }) =>
      [id, ...sides.flatMap((side) => [`${id}.${side.id}`, side.name ?? id])].map((name) => [name, id] as const),
    ),
  );
  editAddresses(document, (address) => {
    const colon = address.lastIndexOf(":");
    if (colon < 0) return points.get(address) ?? address;
    const owner = address.slice(0, colon);
    const cavity = words.get(`${connectorOf.get(owner) ?? ""}:${address.slice(colon + 1)}`) ?? "";
    return `${sideNames.get(owner) ?? owner}:${cavity}`;
  });
  const rename = (kind: string, list: readonly { id: string }[]): void => {
    for (const one of list) one.id = renamed(kind, one.id);
  };
  const edited = <Key extends string>(kind: string, one: { [K in Key]?: string | undefined }, key: Key): void => {
    if (one[key] !== undefined) one[key] = renamed(kind, one[key]);
  };
  const ids = (kind: string, list: string[] | undefined): void =>
    list?.forEach((id, at) => (list[at] = renamed(kind, id)));
  const when = (one: { when?: string | undefined }): void => {
    if (one.when !== undefined) one.when = one.when.replace(/[A-Z][A-Z0-9-]*/gu, (id) => renamed("option", id));
  };
  const access = (one: { access?: { states?: "any" | string[] | undefined } | undefined }): void => {
    if (one.access?.states !== "any") ids("state", one.access?.states);
  };
  for (const connector of document.connectors) {
    const before = connector.id;
    for (const cavity of connector.cavities) {
      const after = words.get(`${before}:${cavity.id}`) ?? "";
      names.set(`cavity|${before}:${cavity.id}`, `${sideNames.get(before) ?? ""}:${after}`);
      for (const side of connector.sides) side.cavities = side.cavities?.map((id) => (id === cavity.id ? after : id));
      cavity.id = after;
    }
    for (const side of connector.sides) if (side.name !== undefined) side.name = sideNames.get(side.name);
    for (const side of connector.sides) when(side);
    edited("part", connector, "component");
    edited("zone", connector, "zone");
    edited("branch-point", connector, "place");
    access(connector);
    when(connector);
  }
  for (const component of document.components) {
    edited("zone", component, "zone");
    when(component);
    const local = new Map(component.elements.map(({ id }) => [id, renamed("element local", `${component.id}.${id}`)]));
    for (const element of component.elements) {
      names.set(
        `element|${component.id}.${element.id}`,
        `${renamed("part", component.id)}.${local.get(element.id) ?? ""}`,
      );
      element.id = local.get(element.id) ?? "";
      if (element.kind === "contact") element.of = local.get(element.of) ?? "";
      when(element);
    }
    if (component.needs?.wakeOutputs)
      component.needs.wakeOutputs = component.needs.wakeOutputs.map((id) => local.get(id) ?? "");
  }
  for (const segment of document.segments) {
    edited("branch-point", segment, "from");
    edited("branch-point", segment, "to");
    edited("zone", segment, "zone");
    for (const hazard of segment.hazards ?? []) ids("state", hazard.states);
  }
  for (const zone of document.zones) for (const hazard of zone.hazards ?? []) ids("state", hazard.states);
  for (const splice of document.splices) {
    if (splice.at) {
      edited("segment", splice.at, "segment");
      edited("branch-point", splice.at, "from");
    }
    edited("zone", splice, "zone");
    when(splice);
  }
  for (const stud of document.terminalStuds) {
    edited("part", stud, "component");
    edited("branch-point", stud, "place");
    edited("zone", stud, "zone");
    access(stud);
    when(stud);
  }
  for (const wire of document.wires) {
    edited("net", wire, "net");
    ids("segment", wire.route);
    when(wire);
  }
  for (const net of document.nets) ids("state", net.boostedIn);
  for (const state of document.states)
    for (const setting of state.settings ?? []) setting.of = names.get(`element|${setting.of}`) ?? setting.of;
  for (const build of document.builds) ids("option", build.options);
  for (const adapter of document.adapters)
    adapter.fits = adapter.fits.map((id) => sideNames.get(id) ?? names.get(`element|${id}`) ?? id);
  for (const code of document.codes) {
    edited("part", code, "module");
    when(code);
  }
  for (const { on } of document.cautions) {
    ids("zone", on?.zones);
    ids("net", on?.nets);
    ids("part", on?.components);
    ids("state", on?.states);
  }
  const { usualAccess } = document.system;
  access({ access: usualAccess });
  rename("option", document.options);
  rename("build", document.builds);
  rename("state", document.states);
  rename("zone", document.zones);
  rename("branch-point", document.topologyNodes);
  rename("segment", document.segments);
  rename("part", document.components);
  rename("connector", document.connectors);
  rename("splice", document.splices);
  rename("stud", document.terminalStuds);
  rename("net", document.nets);
  rename("wire", document.wires);
  rename("adapter", document.adapters);
  rename("code", document.codes);
  rename("caution", document.cautions);
  return { document, names };
}

function shuffleLists(document: DocumentInput, random: SeededRandom): void {
  const lists: unknown[][] = [
    document.components,
    document.connectors,
    document.splices,
    document.terminalStuds,
    document.wires,
    document.segments,
    document.topologyNodes,
    document.nets,
    document.codes,
    ...document.components.map(({ elements }) => elements),
    ...document.connectors.map(({ cavities }) => cavities),
  ];
  for (const list of lists) {
    for (let at = list.length - 1; at > 0; at--) {
      const to = random.integer(0, at);
      [list[at], list[to]] = [list[to], list[at]];
    }
  }
}

import { seededRandom, type SeededRandom } from "ohmward/base";
import type { DocumentInput } from "../../generate/harness-draft.ts";
import { renameEverything, renameOwner } from "./rename-ids.ts";

/** A change that was made: what a comparison has to find. `fields` of an item that changed or moved. */
export interface MadeChange {
  readonly item: string;
  readonly what: string;
  readonly before?: string;
  readonly after?: string;
  readonly fields?: readonly string[];
}

/** A machine and the same machine with known changes. */
export interface ChangedPair {
  readonly before: DocumentInput;
  readonly after: DocumentInput;
  readonly made: readonly MadeChange[];
  /** Id after by kind and id before, of all that was renamed. */
  readonly renamed: ReadonlyMap<string, string>;
}

/** A machine while it is changed. */
class Changer {
  readonly document: DocumentInput;
  readonly random: SeededRandom;
  readonly made: MadeChange[] = [];
  readonly #touched = new Set<string>();
  #fresh = 0;

  constructor(document: DocumentInput, random: SeededRandom) {
    this.document = document;
    this.random = random;
  }

  /** One of a list that no change has touched yet. */
  pick<Of extends { readonly id: string }>(
    list: readonly Of[],
    isGood: (one: Of) => boolean = () => true,
  ): Of | undefined {
    for (let turn = 0; turn < 40; turn++) {
      const one = list[this.random.integer(0, list.length - 1)];
      if (one && !this.#touched.has(one.id) && isGood(one)) return this.touch(one);
    }
    return undefined;
  }

  touch<Of extends { readonly id: string }>(one: Of): Of {
    this.#touched.add(one.id);
    return one;
  }

  isTouched(id: string): boolean {
    return this.#touched.has(id);
  }

  freshId(family: string): string {
    return this.touch({ id: `${family}N${++this.#fresh}` }).id;
  }

  note(item: string, what: string, ids: Pick<MadeChange, "before" | "after">, fields?: readonly string[]): void {
    this.made.push({ item, what, ...ids, ...(fields && { fields }) });
  }

  changed(item: string, id: string, field: string, what = "changed"): void {
    this.note(item, what, { before: id, after: id }, [field]);
  }

  /** Cavities of a connector at which nothing ends, as wires write them. */
  freeCavities(connector: string): readonly string[] {
    const used = new Set<string>(this.document.wires.flatMap(({ ends }) => ends.filter((end) => end !== undefined)));
    const one = this.document.connectors.find(({ id }) => id === connector);
    return (one?.cavities ?? []).map(({ id }) => `${connector}:${id}`).filter((address) => !used.has(address));
  }
}

type Wire = DocumentInput["wires"][number];
type Work = (changer: Changer) => void;

/** Whether a connector of a part is there on every build. */
function isAlwaysFitted({ document }: Changer, connector: DocumentInput["connectors"][number]): boolean {
  const part = document.components.find(({ id }) => id === connector.component);
  const { sides, when } = connector;
  return (
    when === undefined &&
    part?.when === undefined &&
    sides.every((side) => side.when === undefined && ["harness", "device"].includes(side.id))
  );
}

const COLOURS = ["RD", "BK", "GN/YE", "WH/BU", "VT", "OG/BN", "GY", "PK/RD"];

function other<Of>(list: readonly Of[], than: Of | undefined, random: SeededRandom): Of | undefined {
  const rest = list.filter((each) => each !== than);
  return rest[random.integer(0, rest.length - 1)];
}

function ownerOf(address: string | undefined): string | undefined {
  const colon = address?.lastIndexOf(":") ?? -1;
  return colon > 0 ? address?.slice(0, colon) : undefined;
}

/** The end of a wire that lies in a cavity of a part's connector. */
function deviceEnd({ document }: Changer, { ends }: Wire): 0 | 1 | undefined {
  const isDevice = (address: string | undefined): boolean =>
    document.connectors.some(({ id, sides }) => id === ownerOf(address) && sides.some((side) => side.id === "harness"));
  return isDevice(ends[0]) ? 0 : isDevice(ends[1]) ? 1 : undefined;
}

const WORKS: readonly Work[] = [
  function recolour(changer) {
    const wire = changer.pick(changer.document.wires);
    if (!wire) return;
    wire.colour = other(COLOURS, wire.colour, changer.random);
    changer.changed("wire", wire.id, "colour");
  },
  function resize(changer) {
    const wire = changer.pick(changer.document.wires, ({ crossSectionMm2 }) => crossSectionMm2 !== undefined);
    if (!wire) return;
    wire.crossSectionMm2 = (wire.crossSectionMm2 ?? 1) * 2;
    changer.changed("wire", wire.id, "crossSectionMm2");
  },
  function lengthen(changer) {
    const wire = changer.pick(changer.document.wires, ({ lengthMm }) => lengthMm !== undefined);
    if (!wire) return;
    wire.lengthMm = (wire.lengthMm ?? 100) + 137;
    changer.changed("wire", wire.id, "lengthMm");
  },
  function movePin(changer) {
    const wire = changer.pick(changer.document.wires, (one) => {
      const end = deviceEnd(changer, one);
      return end !== undefined && changer.freeCavities(ownerOf(one.ends[end]) ?? "").length > 0;
    });
    const end = wire && deviceEnd(changer, wire);
    if (!wire || end === undefined) return;
    const free = changer.freeCavities(ownerOf(wire.ends[end]) ?? "");
    wire.ends[end] = free[changer.random.integer(0, free.length - 1)] ?? "";
    changer.changed("wire", wire.id, "ends", "moved");
  },
  function swapPins(changer) {
    const { document } = changer;
    const wire = changer.pick(document.wires, (one) => deviceEnd(changer, one) !== undefined);
    const end = wire && deviceEnd(changer, wire);
    if (!wire || end === undefined) return;
    const partner = changer.pick(document.wires, (one) => {
      const at = deviceEnd(changer, one);
      return (
        at !== undefined &&
        ownerOf(one.ends[at]) === ownerOf(wire.ends[end]) &&
        one.colour !== wire.colour &&
        one.net !== wire.net
      );
    });
    const at = partner && deviceEnd(changer, partner);
    if (!partner || at === undefined) return;
    const [mine, theirs] = [wire.ends[end], partner.ends[at]];
    if (mine === undefined || theirs === undefined || mine === theirs) return;
    wire.ends[end] = theirs;
    partner.ends[at] = mine;
    for (const { id } of [wire, partner]) changer.changed("wire", id, "ends", "moved");
  },
  function renameWire(changer) {
    const wire = changer.pick(changer.document.wires);
    if (!wire) return;
    const before = wire.id;
    wire.id = changer.freshId("W");
    changer.note("wire", "renamed", { before, after: wire.id });
  },
  function removeWire(changer) {
    const { wires, splices } = changer.document;
    const wire = changer.pick(wires, ({ ends }) => !splices.some(({ id }) => ends.includes(id)));
    if (!wire) return;
    wires.splice(wires.indexOf(wire), 1);
    changer.note("wire", "removed", { before: wire.id });
  },
  function addWire(changer) {
    const { document, random } = changer;
    const ends = [0, 1].map(() => {
      const connector = changer.pick(
        document.connectors,
        (one) => isAlwaysFitted(changer, one) && changer.freeCavities(one.id).length > 0,
      );
      return connector && changer.freeCavities(connector.id)[0];
    });
    if (ends[0] === undefined || ends[1] === undefined) return;
    const id = changer.freshId("W");
    document.wires.push({
      id,
      ends: [ends[0], ends[1]],
      colour: "TQ",
      crossSectionMm2: 0.35,
      lengthMm: random.integer(300, 900),
      net: `NEW-${id}`,
    });
    changer.note("wire", "added", { after: id });
    document.nets.push({ id: `NEW-${id}`, kind: "signal" });
    changer.note("net", "added", { after: `NEW-${id}` });
  },
  function insertSplice(changer) {
    const { document } = changer;
    const wire = changer.pick(document.wires);
    if (wire?.ends[1] === undefined) return;
    const [splice, rest] = [changer.freshId("SP"), changer.freshId("W")];
    document.splices.push({ id: splice, label: "Added splice", when: wire.when });
    document.wires.push({
      ...structuredClone(wire),
      id: rest,
      ends: [splice, wire.ends[1]],
      lengthMm: 90,
      route: undefined,
    });
    wire.ends = [wire.ends[0], splice];
    changer.note("splice", "added", { after: splice });
    changer.note("wire", "added", { after: rest });
    changer.changed("wire", wire.id, "ends", "moved");
  },
  function rerouteBundle(changer) {
    const { document, random } = changer;
    const segment = changer.pick(document.segments);
    const wires = document.wires.filter(
      ({ id, route }) => segment && !changer.isTouched(id) && route?.slice(1, -1).includes(segment.id),
    );
    if (!segment || wires.length === 0) return;
    const id = changer.freshId("SG");
    document.segments.push({ ...segment, id, lengthMm: segment.lengthMm + 250, covering: "split conduit" });
    changer.note("segment", "added", { after: id });
    for (const wire of wires.slice(0, random.integer(1, 4))) {
      wire.route = wire.route?.map((each) => (each === segment.id ? id : each));
      changer.changed("wire", changer.touch(wire).id, "route");
    }
  },
  function addSensor(changer) {
    const { document } = changer;
    const feeds = [0, 1].map(() => changer.pick(document.splices, ({ when }) => when === undefined));
    const place = changer.pick(document.topologyNodes)?.id;
    if (!feeds[0] || !feeds[1]) return;
    const part = changer.freshId("B");
    const { id: connector } = changer.touch({ id: `${part}.X` });
    document.components.push({
      id: part,
      label: `Added level sensor ${part}`,
      kind: "sensor",
      elements: [{ id: "cell", kind: "resistor", between: [`${connector}:1`, `${connector}:2`], resistanceOhm: 470 }],
    });
    document.connectors.push({
      id: connector,
      label: `Added level sensor ${part}`,
      kind: "component",
      component: part,
      ...(place === undefined ? {} : { place }),
      sides: [{ id: "harness" }, { id: "device" }],
      face: { view: "wire-side", ofSide: "harness", shape: "round", latch: "top", key: "top" },
      cavities: [1, 2].map((cavity) => ({ id: String(cavity), x: cavity, y: 0 })),
    });
    feeds.forEach((feed, at) => {
      const id = changer.freshId("W");
      document.wires.push({
        id,
        ends: [`${connector}:${at + 1}`, feed?.id ?? ""],
        colour: "TQ/BK",
        crossSectionMm2: 0.35,
        lengthMm: 300 + at,
      });
      changer.note("wire", "added", { after: id });
    });
    changer.note("part", "added", { after: part });
    changer.note("connector", "added", { after: connector });
  },
  function relabelPart(changer) {
    const part = changer.pick(changer.document.components);
    if (!part) return;
    part.label = `${part.label}, second version`;
    changer.changed("part", part.id, "label");
  },
  function changeElement(changer) {
    const part = changer.pick(changer.document.components, ({ elements }) =>
      elements.some((each) => "resistanceOhm" in each),
    );
    const element = part?.elements.find((each) => "resistanceOhm" in each);
    if (!part || !element || !("resistanceOhm" in element)) return;
    element.resistanceOhm = (element.resistanceOhm ?? 1) * 1.5 + 0.001;
    changer.changed("element", `${part.id}.${element.id}`, "resistanceOhm");
  },
  function renameCode(changer) {
    const code = changer.pick(changer.document.codes);
    if (!code) return;
    const before = code.id;
    code.id = changer.freshId("DTC");
    changer.note("code", "renamed", { before, after: code.id });
  },
  function changeCode(changer) {
    const code = changer.pick(changer.document.codes);
    if (!code) return;
    code.failure = code.failure === "open" ? "short" : "open";
    changer.changed("code", code.id, "failure");
  },
  function removeCode(changer) {
    const { codes } = changer.document;
    const code = changer.pick(codes);
    if (!code) return;
    codes.splice(codes.indexOf(code), 1);
    changer.note("code", "removed", { before: code.id });
  },
  function changeState(changer) {
    const state = changer.pick(changer.document.states, ({ settings }) => (settings?.length ?? 0) > 0);
    const setting = state?.settings?.[0];
    if (!state || !setting) return;
    setting.is = setting.is === "open" ? "closed" : "open";
    changer.changed("state", state.id, "settings");
  },
  function moveConnector(changer) {
    const { document, random } = changer;
    const connector = changer.pick(document.connectors);
    if (!connector) return;
    const zones = document.zones.map(({ id }) => id);
    connector.zone = other(zones, connector.zone, random);
    changer.changed("connector", connector.id, "zone", "moved");
  },
  function moveSplice(changer) {
    const splice = changer.pick(changer.document.splices, ({ at }) => at !== undefined);
    if (!splice?.at) return;
    splice.at.offsetMm += 3;
    changer.changed("splice", splice.id, "at.offsetMm", "moved");
  },
  function renameConnector(changer) {
    const connector = changer.pick(changer.document.connectors);
    if (!connector) return;
    const [before, after] = [connector.id, changer.freshId("XQ")];
    renameOwner(changer.document, { connector: before }, { connector: after });
    changer.note("connector", "renamed", { before, after });
  },
  function renumberCavity(changer) {
    const connector = changer.pick(changer.document.connectors);
    const cavity = connector?.cavities[0];
    if (!connector || !cavity) return;
    const [before, after] = [cavity.id, changer.freshId("c")];
    renameOwner(
      changer.document,
      { connector: connector.id, cavity: before },
      { connector: connector.id, cavity: after },
    );
    changer.note("cavity", "renumbered", { before: `${connector.id}:${before}`, after: `${connector.id}:${after}` });
  },
  function resizeTerminal(changer) {
    const connector = changer.pick(changer.document.connectors);
    const cavity = connector?.cavities[0];
    if (!connector || !cavity) return;
    cavity.terminalMm = (cavity.terminalMm ?? 1) + 1.3;
    changer.changed("cavity", `${connector.id}:${cavity.id}`, "terminalMm");
  },
];

/**
 * Changes a machine in known ways. It knows nothing of how a comparison works: it edits the document and writes down what it did.
 *
 * @param before The machine; it is left as it is.
 * @param seed Chooses the changes.
 * @param how How many works, 1 to 40, and whether all ids are new afterwards.
 */
export function changeMachine(
  before: DocumentInput,
  seed: number,
  { works, renameAll }: { readonly works: number; readonly renameAll: boolean },
): ChangedPair {
  const random = seededRandom(seed);
  const changer = new Changer(structuredClone(before), random);
  for (let at = 0; at < works; at++) WORKS[random.integer(0, WORKS.length - 1)]?.(changer);
  if (!renameAll) return { before, after: changer.document, made: changer.made, renamed: new Map() };
  const { document, names } = renameEverything(changer.document, random);
  const after = ({ item, after: id, ...rest }: MadeChange): MadeChange =>
    id === undefined ? { item, ...rest } : { item, ...rest, after: names.get(`${item}|${id}`) ?? id };
  return { before, after: document, made: changer.made.map(after), renamed: names };
}

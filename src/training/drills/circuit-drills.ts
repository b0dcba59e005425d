import { naturalOrder } from "../../base/index.ts";
import { isPermittedAt, type Harness } from "../../harness-model/index.ts";
import {
  findCircuits,
  findCommon,
  findOpenEffect,
  resolve,
  type Item,
  type Resolved,
  type CommonItem,
  type OpenEffect,
} from "../../connectivity/index.ts";
import type { DrillMaker } from "./drill-maker.ts";

/** Sorts of common item that are asked for, with their names. */
const SHARED_SORTS = ["splice", "connector", "fuse", "stud"] as const;
const WORDS = {
  splice: "splices",
  connector: "connectors",
  fuse: "fuses",
  stud: "terminal studs and ground studs",
} as const;
/** A longer list is no drill any more. */
const MOST_SHARED = 6;
const MOST_STOPPED = 8;
/** Components taken of one shared thing, and pairs in all: enough to choose from in a machine of any size. */
const MOST_AT_ONE = 8;
const MOST_PAIRS = 4000;

/** What is common to these two circuits? */
export const sharedDrills: DrillMaker = {
  kind: "common",
  starts: pairs,
  draw: (harness, pair, random) => {
    const [first = "", second = ""] = pair.split(" ");
    const items = commonItems(harness, [first, second]);
    const sorts = SHARED_SORTS.filter((sort) => {
      const count = ofSort(harness, items, sort).length;
      return count > 0 && count <= MOST_SHARED;
    });
    return sorts.length === 0 ? undefined : `${pair} ${random.pick(sorts)}`;
  },
  make: (harness, subject) => {
    const [first = "", second = "", wanted = ""] = subject.split(" ");
    const sort = SHARED_SORTS.find((each) => each === wanted);
    if (!sort) return undefined;
    const shared = ofSort(harness, commonItems(harness, [first, second]), sort);
    if (shared.length === 0 || shared.length > MOST_SHARED) return undefined;
    const label = (id: string): string => `${id} (${harness.fitted.components.get(id)?.label ?? id})`;
    return {
      question: `Which ${WORDS[sort]} are common to the circuits of ${label(first)} and of ${label(second)}? Select every one.`,
      about: [first, second].map((id): Item => ({ type: "component", id })),
      context: { kind: "drawing", lit: [first, second].map((id): Item => ({ type: "component", id })) },
      what: sort,
      isMany: true,
      accepted: [shared.map((item) => item.id)],
      pool: poolOf(harness, sort),
      why: shared.map(
        (item) => `${item.id} is in the circuits of both. It is part of ${item.circuitsInAll} circuits of the machine.`,
      ),
      points: shared.length + (sort === "splice" || sort === "stud" ? 1 : 2),
    };
  },
};

/** What stops if this is disconnected, open or blown? */
export const withoutDrills: DrillMaker = {
  kind: "effect",
  starts: (harness) => [
    ...idsOf(harness, "fuse"),
    ...[...harness.fitted.splices.keys()].sort(naturalOrder),
    ...[...harness.fitted.connectors.values()]
      .filter((connector) => isPermittedAt(connector, "unplug"))
      .map((connector) => connector.id)
      .sort(naturalOrder),
  ],
  make: (harness, id) => {
    const item = resolved(harness, id);
    if (!item) return undefined;
    const answer = findOpenEffect(harness, item);
    const stopped = componentsStopped(harness, answer);
    if (stopped.length === 0 || stopped.length > MOST_STOPPED) return undefined;
    return {
      question: `${whatHappens(harness, item)} Which parts stop, or lose a connection they need? Select every part. Control units count only if they lose all supply.`,
      about: [{ type: item.type, id }],
      context: { kind: "drawing", lit: [{ type: item.type, id }] },
      what: "component",
      isMany: true,
      accepted: [stopped],
      pool: [...harness.fitted.components.keys()].filter(
        (each) => !(item.type === "element" && id.startsWith(`${each}.`)),
      ),
      why: reasons(harness, answer, stopped),
      points:
        stopped.length + (answer.stopped.some((each) => each.because) ? 2 : 0) + (answer.stillFed.length > 0 ? 1 : 0),
    };
  },
};

function resolved(harness: Harness, id: string): Resolved | undefined {
  const found = resolve(harness, id);
  return found.kind === "one" ? found.item : undefined;
}

function commonItems(harness: Harness, components: readonly [string, string]): readonly CommonItem[] {
  const items = components.flatMap((id) => resolved(harness, id) ?? []);
  if (items.length < 2) return [];
  return findCommon(
    harness,
    items.map((item) => ({ item, mark: "unknown" as const })),
  ).items;
}

function ofSort(
  harness: Harness,
  items: readonly CommonItem[],
  sort: (typeof SHARED_SORTS)[number],
): readonly CommonItem[] {
  return items.filter((item) => (sort === "fuse" ? isFuse(harness, item) : item.type === sort));
}

function isFuse(harness: Harness, item: Item): boolean {
  const edge = item.type === "element" ? harness.edges[harness.edgeNumbers.get(item.id) ?? -1] : undefined;
  return edge?.kind === "element" && edge.element.kind === "fuse";
}

function idsOf(harness: Harness, sort: "fuse"): readonly string[] {
  const fuses = harness.edges.filter((edge) => edge.kind === "element" && edge.element.kind === sort);
  return fuses.map((edge) => edge.key).sort(naturalOrder);
}

function poolOf(harness: Harness, sort: (typeof SHARED_SORTS)[number]): readonly string[] {
  switch (sort) {
    case "splice":
      return [...harness.fitted.splices.keys()];
    case "connector":
      return [...harness.fitted.connectors.keys()];
    case "stud":
      return [...harness.fitted.terminalStuds.keys()];
    case "fuse":
      return idsOf(harness, "fuse");
  }
}

/** Pairs of parts, no control units, whose circuits meet in a splice, fuse or connector. */
function pairs(harness: Harness): readonly string[] {
  const { all, ofNode, ofEdge } = findCircuits(harness);
  const found = new Set<string>();
  const meeting = [
    ...harness.nodes.flatMap((node, at) =>
      node.kind === "splice" || node.kind === "stud" ? [ofNode.get(at) ?? []] : [],
    ),
    ...harness.edges.flatMap((edge, at) =>
      edge.kind === "element" && edge.element.kind === "fuse" ? [ofEdge.get(at) ?? []] : [],
    ),
  ];
  for (const positions of meeting) {
    const ids = new Set(positions.flatMap((position) => all[position]?.component ?? []));
    const parts = [...ids].filter((id) => harness.fitted.components.get(id)?.kind !== "module").sort(naturalOrder);
    parts.slice(0, MOST_AT_ONE).forEach((first, at) => {
      for (const second of parts.slice(at + 1, MOST_AT_ONE))
        if (found.size < MOST_PAIRS) found.add(`${first} ${second}`);
    });
  }
  return [...found].sort(naturalOrder);
}

/** Parts that lose something; of control units only those that go dead as a whole. What is itself opened is no news. */
function componentsStopped(harness: Harness, answer: OpenEffect): readonly string[] {
  const ids = answer.stopped.flatMap(({ item, component }) => {
    const id = component ?? (item.type === "component" ? item.id : undefined);
    if (id === undefined) return [];
    const isModule = harness.fitted.components.get(id)?.kind === "module";
    return isModule && item.type !== "component" ? [] : [id];
  });
  return [...new Set(ids)].sort(naturalOrder);
}

function whatHappens(harness: Harness, item: Resolved): string {
  if (item.type === "connector")
    return `Connector ${item.id} (${harness.fitted.connectors.get(item.id)?.label ?? ""}) is disconnected.`;
  return item.type === "splice" ? `Splice ${item.id} is open.` : `Fuse ${item.id} blows.`;
}

function reasons(harness: Harness, answer: OpenEffect, stopped: readonly string[]): readonly string[] {
  return stopped.map((id) => {
    const entries = answer.stopped.filter((each) => (each.component ?? each.item.id) === id);
    const lost = [...new Set(entries.flatMap((each) => each.lost))].map((loss) => LOST[loss]);
    const because = entries.flatMap((each) => each.because?.id ?? [])[0];
    const label = harness.fitted.components.get(id)?.label ?? id;
    return `${id} (${label}) loses ${lost.join(" and ")}${because === undefined ? "" : `, because ${because} stops`}.`;
  });
}

const LOST = {
  itself: "its own connection",
  supply: "its supply",
  ground: "its ground",
  module: "its connection to a control unit",
  outlet: "its connection to an unmated connector",
} as const;

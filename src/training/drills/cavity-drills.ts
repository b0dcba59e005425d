import { naturalOrder } from "../../base/index.ts";
import { cavityContents, connectorFace, type ConnectorFace } from "../../drawing/index.ts";
import { sideKey, type Connector, type ConnectorSide, type Harness } from "../../harness-model/index.ts";
import type { Distractor } from "./drill.ts";
import type { DrillMaker } from "./drill-maker.ts";

const VIEWS = ["wire-side", "mating-side"] as const;
const FORMS = ["name", "place", "wire"] as const;

/**
 * Which cavity is this? Asked on either face of either side: a position is marked and its number wanted, a number is given and its position
 * wanted, or a wire is named and its cavity wanted.
 */
export const cavityDrills: DrillMaker = {
  kind: "cavity",
  starts: (harness) =>
    [...harness.fitted.connectors.values()]
      .filter((connector) => connector.cavities.length > 1)
      .map((connector) => connector.id)
      .sort(naturalOrder),
  draw: (harness, id, random) => {
    const connector = harness.fitted.connectors.get(id);
    const sides = harness.fitted.sides.get(id) ?? [];
    if (!connector || sides.length === 0) return undefined;
    const side = random.pick(sides);
    const view = random.pick(VIEWS);
    const form = random.pick(FORMS);
    const cavities = connectorFace(connector, side, view).cavities.map((cavity) => cavity.id);
    if (cavities.length === 0) return undefined;
    const cavity = random.pick(cavities);
    if (form !== "wire") return [id, side.id, view, form, cavity].join(" ");
    const wires = wiresOf(harness, connector, side).map((each) => each.wire);
    return wires.length === 0 ? undefined : [id, side.id, view, form, random.pick(wires)].join(" ");
  },
  make: (harness, subject) => {
    const [id = "", sideId = "", viewName = "", form = "", wanted = ""] = subject.split(" ");
    const connector = harness.fitted.connectors.get(id);
    const side = harness.fitted.sides.get(id)?.find((each) => each.id === sideId);
    const view = VIEWS.find((each) => each === viewName);
    if (!connector || !side || !view) return undefined;
    const face = connectorFace(connector, side, view);
    const right = form === "wire" ? cavitiesOf(harness, connector, side, wanted) : samePlace(face, wanted);
    if (right.length === 0 || face.cavities.length < 2) return undefined;
    const traps = right.flatMap((cavity) => mirrorDistractor(face, cavity));
    const name = sideKey(connector, side);
    return {
      question: ask(form, { name, view: face.viewName.toLowerCase(), wanted }),
      about: [{ type: "connector", id }, ...(form === "wire" ? [{ type: "wire", id: wanted } as const] : [])],
      context: { kind: "face", connector: id, side: sideId, view, ...(form === "name" ? { marked: wanted } : {}) },
      what: "cavity",
      isMany: false,
      accepted: right.map((cavity) => [cavity]),
      pool: face.cavities.map((cavity) => cavity.id),
      traps,
      why: explain(connector, face, form === "wire" ? `Wire ${wanted} is in ${name}:${right.join(" and ")}.` : ""),
      points:
        Math.min(4, Math.floor(face.cavities.length / 4)) +
        (traps.length > 0 ? 2 : 0) +
        mirrored(connector, side, view),
    };
  },
};

function ask(form: string, { name, view, wanted }: { name: string; view: string; wanted: string }): string {
  if (form === "name") return `This is ${name}, ${view}. Which cavity is marked?`;
  if (form === "place") return `This is ${name}, ${view}. Where is cavity ${wanted}?`;
  return `This is ${name}, ${view}. In which cavity is wire ${wanted}?`;
}

function wiresOf(
  harness: Harness,
  connector: Connector,
  side: ConnectorSide,
): readonly { wire: string; cavity: string }[] {
  return [...cavityContents(harness, connector, side).values()].flatMap(({ cavity, wires }) =>
    wires.map((wire) => ({ wire: wire.id, cavity })),
  );
}

function cavitiesOf(harness: Harness, connector: Connector, side: ConnectorSide, wire: string): readonly string[] {
  const found = wiresOf(harness, connector, side).filter((each) => each.wire === wire);
  return [...new Set(found.map((each) => each.cavity))].sort(naturalOrder);
}

/** The cavity itself, and any other that the document puts at the same position. */
function samePlace(face: ConnectorFace, id: string): readonly string[] {
  const wanted = face.cavities.find((cavity) => cavity.id === id);
  if (!wanted) return [];
  return face.cavities.filter((cavity) => cavity.x === wanted.x && cavity.y === wanted.y).map((cavity) => cavity.id);
}

/** A person who takes the wire-entry view for the mating-face view reads the mirror image. */
function mirrorDistractor(face: ConnectorFace, id: string): readonly Distractor[] {
  const cavity = face.cavities.find((each) => each.id === id);
  const middle = face.body.x + face.body.width / 2;
  const image = face.cavities.find(
    (each) => cavity && Math.abs(each.x - (2 * middle - cavity.x)) < 1 && Math.abs(each.y - cavity.y) < 1,
  );
  if (!image || image.id === id) return [];
  const other = face.view === "wire-side" ? "mating-face view" : "wire-entry view";
  return [
    {
      answer: image.id,
      why: `${image.id} is at this position in the ${other}: left and right are exchanged.`,
    },
  ];
}

function mirrored(connector: Connector, side: ConnectorSide, view: ConnectorFace["view"]): number {
  return (view !== connector.face.view) === (side.id === connector.face.ofSide) ? 1 : 0;
}

function explain(connector: Connector, face: ConnectorFace, first: string): readonly string[] {
  const { latch, key } = face;
  const marks = [
    ...(latch ? [`the lock is at the ${latch.side}`] : []),
    ...(key ? [`the keying is at the ${key.side}`] : []),
  ];
  const told = `The harness data numbers ${connector.id} in the ${connector.face.view === "wire-side" ? "wire-entry view" : "mating-face view"} of side "${connector.face.ofSide}"`;
  const here = marks.length > 0 ? `; in this view ${marks.join(" and ")}` : "";
  return [...(first === "" ? [] : [first]), `${told}${here}. The other view is the mirror image.`];
}

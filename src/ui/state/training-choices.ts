import { describeColour, describeItem } from "../../application/index.ts";
import { colourMark, type ColourMark, type ConnectorFace } from "../../drawing/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import type { Drill } from "../../training/index.ts";
import type { Item } from "../../connectivity/index.ts";

/** One item to choose. */
export interface Choice {
  readonly id: string;
  readonly label: string;
  /** A colour to be shown. */
  readonly mark?: ColourMark;
  /** What of the drawing it stands for. */
  readonly item?: Item;
}

/** The choices of a drill in words; what was picked on the drawing beside them is among them. */
export function choicesOf(harness: Harness, { pick }: Drill, picked: readonly string[]): readonly Choice[] {
  const others = picked.filter((id) => !pick.choices.includes(id));
  return [...pick.choices, ...others].map((id) => choiceOf(harness, pick.what, id));
}

function choiceOf(harness: Harness, what: Drill["pick"]["what"], id: string): Choice {
  switch (what) {
    case "colour":
      return { id, label: describeColour(id), mark: colourMark(id) };
    case "cavity":
      return { id, label: "" };
    case "zone":
      return { id, label: harness.document.zones.find((zone) => zone.id === id)?.label ?? "" };
    case "segment":
      return { id, label: segmentWords(harness, id), item: { type: "segment", id } };
    case "fuse":
      return { id, label: labelOf(harness, { type: "element", id }) };
    case "connector":
    case "splice":
    case "stud":
    case "component": {
      const item: Item = { type: what, id };
      return { id, label: labelOf(harness, item), item };
    }
  }
}

function labelOf(harness: Harness, item: Item): string {
  const { label } = describeItem(harness, item);
  return label === item.id ? "" : label;
}

/** A segment has no name that says anything: the places it runs between have. */
function segmentWords(harness: Harness, id: string): string {
  const segment = harness.segments.get(id);
  const place = (of: string): string => harness.document.topologyNodes.find((each) => each.id === of)?.label ?? of;
  return segment ? `${place(segment.from)} to ${place(segment.to)}` : "";
}

/** What a tap on the drawing picks in a drill; undefined where the item tapped is not of the sort that is asked for. */
export function pickedOnDrawing(harness: Harness, { pick }: Drill, item: Item): string | undefined {
  if (item.type === pick.what) return item.id;
  if (pick.what !== "component" || (item.type !== "connector" && item.type !== "stud")) return undefined;
  const { connectors, terminalStuds } = harness.fitted;
  return item.type === "connector" ? connectors.get(item.id)?.component : terminalStuds.get(item.id)?.component;
}

/** Whether the item that is asked for can be tapped on the drawing. */
export function isTappable({ pick, context }: Drill): boolean {
  const can: readonly string[] = ["segment", "connector", "splice", "stud", "component"];
  return context.kind === "drawing" && can.includes(pick.what);
}

/**
 * The machine as a drill draws it: without the splices where one of them is looked for, since its place on the drawing would be the answer.
 */
export function drawnFor(harness: Harness, { kind }: Drill): Harness {
  return kind === "splice" ? { ...harness, fitted: { ...harness.fitted, splices: new Map() } } : harness;
}

/** Where a cavity lies on a face, told without its number: row from the top, place from the left. */
export function cavityPlaces(face: ConnectorFace): ReadonlyMap<string, string> {
  const rows = [...new Set(face.cavities.map(({ y }) => Math.round(y)))].sort((a, b) => a - b);
  return new Map(
    face.cavities.map(({ id, x, y }): [string, string] => {
      const own = face.cavities.filter((each) => Math.round(each.y) === Math.round(y));
      const place = own.filter((each) => each.x < x).length + 1;
      return [id, `row ${rows.indexOf(Math.round(y)) + 1} from the top, place ${place} from the left`];
    }),
  );
}

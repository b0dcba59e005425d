import { formatQuantity } from "../base/index.ts";
import { resolveItem, type Item } from "../connectivity/index.ts";
import { circuitDiagram, type DiagramOptions, type PointMark } from "../drawing/index.ts";
import { mainTerminals, type Harness, type State } from "../harness-model/index.ts";
import { isContactPermitted, isGuarded, METHODS, type Method } from "../measurement-safety/index.ts";
import { readMeter } from "../simulation/index.ts";
import { readConditions } from "./expect/read-conditions.ts";
import { resolveContext } from "./machine-context.ts";
import type { Machine } from "./open-machine.ts";
import type { Conditions, OpenSetting } from "./question.ts";

/** What diagram marks are asked for. */
export interface MarksWanted {
  /** The item that the diagram is of. */
  readonly of: Item;
  /** How the diagram is drawn. */
  readonly options?: DiagramOptions;
  /** What differs from the document, such as inserted faults. */
  readonly conditions?: Conditions;
}

/**
 * What a voltmeter shows at the points of a circuit diagram, its black lead on the main negative, and whether its red lead may go there.
 *
 * @param machine The machine.
 * @param setting Build and state the marks shall hold for.
 * @returns By address of the point. None where the diagram touches an airbag or high-voltage line, the conditions are not understood, or
 *   the machine has no state or no main negative; no mark where nothing ties a point to the supply or the reading is not known.
 */
export function diagramMarks(
  machine: Machine,
  setting: OpenSetting,
  { of, options = {}, conditions = {} }: MarksWanted,
): ReadonlyMap<string, PointMark> {
  const marks = new Map<string, PointMark>();
  const context = resolveContext(machine, setting);
  const understood = context.ok ? readConditions(context.value, conditions) : context;
  if (!context.ok || !understood.ok) return marks;
  const { harness, state } = context.value;
  const { operatingConditions } = understood.value;
  const black = harness.nodes[mainTerminals(harness).negative ?? -1]?.key;
  const asked = new AskedKeys();
  const diagram = circuitDiagram(harness, of, { ...options, marks: asked });
  if (state === undefined || black === undefined || diagram.kind !== "diagram") return marks;
  const items = diagram.list.flatMap(({ entries }) => entries.map(({ item }) => item));
  if (items.some((item) => isGuarded(harness, item))) return marks;
  for (const red of asked.keysAsked) {
    const node = harness.nodes[harness.nodeNumbers.get(red) ?? -1];
    if (node?.kind !== "contact" && node?.kind !== "stud") continue;
    const permitted = mayProbe(harness, state, red);
    if (red === black) marks.set(red, { text: "black lead", permitted });
    if (red === black) continue;
    const probe = { kind: "dc-voltage", red, black } as const;
    const reading = readMeter(harness, { operatingConditions, probe, compareWith: [] });
    if (reading.kind !== "value") continue;
    marks.set(red, { text: formatQuantity(reading.value, "V"), permitted });
  }
  return marks;
}

/** Notes which points a diagram asks about. */
class AskedKeys extends Map<string, PointMark> {
  readonly keysAsked = new Set<string>();

  override get(key: string): undefined {
    this.keysAsked.add(key);
  }
}

/** Whether the lead of a voltmeter may go on a point, on either half of a mated contact, by any method. */
function mayProbe(harness: Harness, state: State, key: string): boolean {
  const halves = resolveItem(harness, { type: "contact", id: key })?.groups.flat() ?? [];
  const points = new Set([key, ...halves.flatMap((node) => harness.nodes[node]?.key ?? [])]);
  const methods = Object.keys(METHODS) as Method[];
  return [...points].some((point) =>
    methods.some(
      (method) => isContactPermitted(harness, state, { point, method, meter: "dc-voltage" }).kind === "permitted",
    ),
  );
}

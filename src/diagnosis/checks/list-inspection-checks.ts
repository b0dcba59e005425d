import { isPermittedAt, type Connector, type Harness, type State } from "../../harness-model/index.ts";
import { isContactPermitted, isGuarded } from "../../measurement-safety/index.ts";
import type { Item } from "../../connectivity/index.ts";
import type { Hypothesis } from "../candidates/candidate.ts";
import type { CheckPlace, InspectionCheck } from "./check.ts";
import { COSTS } from "./cost-table.ts";

/**
 * Lists the checks without a meter: inspection of connectors, terminal studs, fuses and harness segments, wiggle tests, terminal drag
 * tests, substitution of parts.
 *
 * They are made for what the hypotheses name, in the calmest state the machine has: battery disconnected for inspection, drag
 * tests and substitution, key on for wiggle tests. Connectors that carry airbag or high-voltage lines are left alone.
 */
export function listInspectionChecks(harness: Harness, hypotheses: readonly Hypothesis[]): readonly InspectionCheck[] {
  const off = harness.document.states.find(({ conditions }) => conditions.includes("battery-disconnected"));
  const on = harness.document.states.find(({ conditions }) => conditions.length === 1 && conditions[0] === "key-on");
  const candidates = hypotheses.flatMap((each) => each.candidates);
  const connectors = new Set(
    candidates.flatMap(({ item, places }) =>
      item.type === "wire" || item.type === "element" ? [] : places.connectors,
    ),
  );
  const segments = new Set(candidates.flatMap(({ places }) => places.segments));
  const checks: InspectionCheck[] = [];
  for (const id of connectors) {
    const connector = harness.fitted.connectors.get(id);
    if (!connector || isGuarded(harness, { type: "connector", id })) continue;
    checks.push(...connectorChecks({ harness, connector, off, on }));
  }
  for (const id of segments) {
    const item: Item = { type: "segment", id };
    const places = [{ key: `segment ${id}`, minutes: COSTS.segmentMinutes }];
    if (off) checks.push(makeCheck("visual-inspection", off, { item, places, minutes: COSTS.lookMinutes }));
    if (on) checks.push(makeCheck("wiggle", on, { item, places, minutes: COSTS.wiggleMinutes }));
  }
  const terminalStuds = new Set(candidates.flatMap(({ item }) => (item.type === "stud" ? [item.id] : [])));
  if (off) for (const id of terminalStuds) checks.push(...studChecks(harness, off, id));
  if (off) for (const candidate of candidates) checks.push(...partChecks(harness, off, candidate));
  return [...new Map(checks.map((check) => [check.key, check])).values()];
}

interface AtConnector {
  readonly harness: Harness;
  readonly connector: Connector;
  readonly off: State | undefined;
  readonly on: State | undefined;
}

function connectorChecks({ harness, connector, off, on }: AtConnector): readonly InspectionCheck[] {
  const { id, access } = connector;
  const item: Item = { type: "connector", id };
  const places = [{ key: `connector ${id}`, minutes: access?.minutes ?? 2 }];
  const checks: InspectionCheck[] = [];
  if (on) checks.push(makeCheck("wiggle", on, { item, places, minutes: COSTS.wiggleMinutes }));
  if (!off || !isPermittedAt(connector, "unplug")) return checks;
  checks.push(makeCheck("visual-inspection", off, { item, places, minutes: COSTS.lookMinutes, unplugged: [id] }));
  for (const cavity of connector.cavities) {
    const contact: Item = { type: "contact", id: `${id}:${cavity.id}` };
    if (!harness.edgeNumbers.has(contact.id)) continue;
    const wanted = { point: contact.id, method: "front-probe", meter: "resistance" } as const;
    // A terminal drag test needs the same access as front-probing.
    if (isContactPermitted(harness, off, wanted).kind !== "permitted") continue;
    checks.push(
      makeCheck("terminal-drag", off, { item: contact, places, minutes: COSTS.dragMinutes, unplugged: [id] }),
    );
  }
  return checks;
}

/** Ring terminals on a stud: corrosion, a loose nut, a ring terminal torn from its cable. */
function studChecks(harness: Harness, off: State, id: string): readonly InspectionCheck[] {
  const item: Item = { type: "stud", id };
  const stud = harness.fitted.terminalStuds.get(id);
  if (!stud || isGuarded(harness, item)) return [];
  const minutes = stud.access?.minutes ?? USUAL_STUD_MINUTES;
  // The key under which a meter tip reaches it too.
  const places = [{ key: stud.zone === undefined ? `stud ${id}` : `zone ${stud.zone} ${minutes}`, minutes }];
  return [makeCheck("visual-inspection", off, { item, places, minutes: COSTS.lookMinutes })];
}

/** Minutes to reach a stud whose document does not say. Common practice, no source. */
const USUAL_STUD_MINUTES = 1;

function partChecks(
  harness: Harness,
  off: State,
  candidate: Hypothesis["candidates"][number],
): readonly InspectionCheck[] {
  const { item, repair } = candidate;
  if (item.type !== "element" || isGuarded(harness, item)) return [];
  const component = harness.fitted.components.get(item.id.split(".")[0] ?? "");
  if (!component || component.kind === "module" || component.kind === "battery") return [];
  const places = [{ key: `part ${component.id}`, minutes: reachMinutes(harness, component.id) }];
  if (repair.startsWith("fuse "))
    return [makeCheck("visual-inspection", off, { item, places, minutes: COSTS.readingMinutes })];
  const [sort = "", ...rest] = repair.split(" ");
  const part: Item = { type: sort === "relay" ? "element" : "component", id: rest.join(" ") };
  const minutes = sort === "relay" ? COSTS.swapRelayMinutes : COSTS.swapPartMinutes;
  return [makeCheck("substitute", off, { item: part, places, minutes })];
}

/** Minutes to reach a part: those of its quickest connector or stud. */
function reachMinutes(harness: Harness, component: string): number {
  const { connectors, terminalStuds } = harness.document;
  const times = [...connectors, ...terminalStuds]
    .filter((each) => each.component === component)
    .flatMap(({ access }) => access?.minutes ?? []);
  return times.length === 0 ? 2 : Math.min(...times);
}

function makeCheck(
  kind: InspectionCheck["kind"],
  state: State,
  {
    item,
    places,
    minutes,
    unplugged = [],
  }: {
    readonly item: Item;
    readonly places: readonly CheckPlace[];
    readonly minutes: number;
    readonly unplugged?: readonly string[];
  },
): InspectionCheck {
  return {
    kind,
    key: `${kind} ${state.id} ${item.id}`,
    need: { state: state.id, unplugged, places },
    at: item,
    minutes,
  };
}

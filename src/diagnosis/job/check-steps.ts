import { formatNumber, unreachable } from "../../base/index.ts";
import {
  sideKey,
  isKeyOn,
  type Connector,
  type ConnectorSide,
  type Harness,
  type State,
} from "../../harness-model/index.ts";
import type { ProbePoint } from "../../measurement-safety/index.ts";
import { isMeterCheck, type Check, type InspectionCheck, type MeterCheck } from "../checks/check.ts";

/** What to do at a check, in the order of the work: imperative steps, one action each. */
export function checkSteps(harness: Harness, check: Check): readonly string[] {
  const state = harness.document.states.find(({ id }) => id === check.need.state);
  const prepare = isMeterCheck(check) ? meterPreparation(harness, check) : inspectionPreparation(harness, check);
  const work = isMeterCheck(check) ? meterWork(harness, check) : INSPECTION_STEPS[check.kind](check.at);
  return [...inState(state, prepare), ...work];
}

/** Nothing is connected or disconnected with the key on: the state comes after the preparation then, and before it else. */
function inState(state: State | undefined, prepare: readonly string[]): readonly string[] {
  if (!state) return prepare;
  const bring = `Bring the machine to this state: ${state.label}.`;
  if (!isKeyOn(state)) return [bring, ...prepare];
  return prepare.length > 0 ? ["Turn the key off.", ...prepare, bring] : [bring];
}

/** Test terminals of front probes are inserted before the state, like adapters and clip leads. */
function meterPreparation(harness: Harness, check: MeterCheck): readonly string[] {
  const { kind, red, black, need } = check;
  const leads = [red, black].flatMap((point) => fitSteps(harness, check, point));
  const inserted = leadSteps(harness, check).filter((_, at) => isFrontProbe([red, black][at]));
  return [
    ...(kind === "resistance" ? ["Hold the probes together. Null the lead resistance."] : []),
    ...need.unplugged.map((id) => disconnectStep(harness, check, id)),
    ...new Set(leads),
    ...inserted,
  ];
}

function leadSteps(harness: Harness, { red, black }: MeterCheck): readonly [string, string] {
  return [`Red (V/Ω) lead: ${placeStep(harness, red)}`, `Black (COM) lead: ${placeStep(harness, black)}`];
}

function isFrontProbe(point: ProbePoint | undefined): boolean {
  return point?.method === "front-probe";
}

/** An adapter in line at the very connector that stays off sits on its harness side alone. */
function disconnectStep({ document }: Harness, { red, black }: MeterCheck, id: string): string {
  const inLine = [red, black].find(({ adapter, item }) => adapter !== undefined && item.id.startsWith(`${id}.`));
  const label = document.adapters.find((adapter) => adapter.id === inLine?.adapter)?.label;
  return label === undefined
    ? `Disconnect ${id}. If it is already disconnected, stop. Record that under the visual inspection of ${id}.`
    : `Disconnect ${id}. Connect ${label} to its harness side only. Leave the control unit disconnected.`;
}

/** What is fitted before the machine is brought into the state: adapters and clip leads. */
function fitSteps(
  harness: Harness,
  { need }: MeterCheck,
  { method, adapter, item, at }: ProbePoint,
): readonly string[] {
  const label = harness.document.adapters.find(({ id }) => id === adapter)?.label ?? "the adapter";
  const connector = connectorAt(harness, at ?? item.id)?.connector.id ?? item.id;
  switch (method) {
    case "in-line":
      return need.unplugged.includes(connector)
        ? []
        : [`Connect ${label} between the two sides of ${connector}. The circuit stays closed.`];
    case "relay-extension":
      return ["Remove the relay.", `Fit ${label} in the socket, with the relay on top. The circuit stays closed.`];
    case "mating-adapter":
      return [`Connect ${label} to ${connector}.`];
    case "clip":
      return [`Connect a clip lead to ${at ?? item.id}. Lead it out to a safe place.`];
    case "clamp":
    case "tip":
    case "fuse-window":
    case "front-probe":
    case "screw":
    case "back-probe":
    case "pierce":
    case "tip-in-socket":
      return [];
    default:
      return unreachable(method);
  }
}

function meterWork(harness: Harness, check: MeterCheck): readonly string[] {
  const { kind, red, black } = check;
  const place = leadSteps(harness, check).filter((_, at) => !isFrontProbe([red, black][at]));
  if (kind === "resistance")
    return [...place, "Read the resistance.", "Hold the probes together again. The meter must show 0 Ω."];
  const opened = [...new Set([red, black].flatMap(({ unplug }) => unplug ?? []))];
  const note = opened.length === 0 ? "" : ` ${opened.join(" and ")} is disconnected: this is an open-circuit reading.`;
  return [...place, `Read the DC voltage.${note}`];
}

/** Where one lead goes. */
function placeStep(harness: Harness, point: ProbePoint): string {
  const { method, item, terminalMm } = point;
  const at = point.at ?? item.id;
  const named = connectorAt(harness, at);
  const cavity = at.slice(at.lastIndexOf(":") + 1);
  switch (method) {
    case "fuse-window":
      return `Put the probe on the fuse test point of ${item.id}, on the side of ${at}. Leave the fuse in.`;
    case "screw":
      return `Put the probe on the head of the screw or nut at ${at}. Do not touch the blade or the ring.`;
    case "in-line":
    case "relay-extension":
    case "mating-adapter":
      return `Connect it to the adapter at ${at}.`;
    case "clip":
      return `Connect it to the clip lead from ${at}.`;
    case "front-probe": {
      const size = terminalMm === undefined ? "" : `${formatNumber(terminalMm, 2)} mm `;
      const side = named ? sideKey(named.connector, named.side) : at;
      return `Insert a ${size}${counterpart(named?.side)} of the same series into cavity ${cavity} of ${side}, from the mating face.`;
    }
    case "tip":
      return `Put the probe on the exposed terminal ${at}.`;
    case "clamp":
    case "back-probe":
    case "pierce":
    case "tip-in-socket":
      throw new RangeError(`Cannot place a lead: no test uses the method "${method}"`);
    default:
      return unreachable(method);
  }
}

function connectorAt(
  { book }: Harness,
  at: string,
): { readonly connector: Connector; readonly side: ConnectorSide } | undefined {
  return book.sides.get(at.slice(0, at.lastIndexOf(":")));
}

/** What mates with the contacts of a side. */
function counterpart(side: ConnectorSide | undefined): string {
  if (side?.contacts === "sockets") return "test pin";
  return side?.contacts === "pins" ? "test socket" : "test terminal";
}

function inspectionPreparation(harness: Harness, { kind, at, need }: InspectionCheck): readonly string[] {
  const remove = (harness.fitted.connectors.get(at.id) ?? harness.fitted.terminalStuds.get(at.id))?.access?.remove;
  const reach = remove === undefined ? [] : [`Get access to ${at.id}: ${remove}.`];
  const seen = kind === "visual-inspection" ? "If it is already disconnected, record that as damage." : undefined;
  const open = need.unplugged.map(
    (id) =>
      `Disconnect ${id}. ${seen ?? `If it is already disconnected, stop. Record that under the visual inspection of ${id}.`}`,
  );
  return [...reach, ...open];
}

/** What is done at each sort of check without a meter. */
const INSPECTION_STEPS: Readonly<Record<InspectionCheck["kind"], (at: InspectionCheck["at"]) => readonly string[]>> = {
  "visual-inspection": ({ type, id }) =>
    type === "stud"
      ? [
          `Inspect ${id} for corrosion, heat damage and paint under the ring terminals.`,
          "Inspect it for a loose nut and for ring terminals torn from their cables.",
        ]
      : [
          `Inspect ${id} for chafe, tension, water, heat damage and green or black deposits.`,
          "Inspect it for backed-out terminals, torn seals and earlier repairs.",
        ],
  wiggle: ({ id }) => [
    "Watch the function that fails. Or watch a reading of this circuit with the minimum and maximum recorded.",
    `Move ${id} gently, a hand's width at a time.`,
  ],
  "terminal-drag": ({ id }) => [
    `Insert a new terminal of the same series into cavity ${id.slice(id.lastIndexOf(":") + 1)} from the mating face.`,
    "Pull it out. You must feel resistance.",
    "Pull the wire lightly. The terminal must not move.",
  ],
  substitute: ({ id }) => [
    `Substitute a known-good part for ${id}. Record where the known-good part came from.`,
    "Reproduce the complaint under its conditions.",
  ],
};

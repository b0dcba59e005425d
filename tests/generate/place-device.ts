import { devicePins, type DeviceKind } from "./branch-plan.ts";
import type { BranchSources } from "./branch-sources.ts";
import type { DocumentInput, HarnessDraft } from "./harness-draft.ts";

type Elements = DocumentInput["components"][number]["elements"];

const HALVES = [
  { id: "harness", contacts: "sockets" as const },
  { id: "device", contacts: "pins" as const },
];

/** A part with its place. */
export interface PlacedDevice {
  readonly id: string;
  readonly place: number;
}

const FAMILY: Readonly<Record<DeviceKind, string>> = {
  sensor2: "B",
  sensor3: "B",
  sensor4: "B",
  sender: "B",
  actuator: "Y",
  load: "E",
};
const KIND = {
  sensor2: "sensor",
  sensor3: "sensor",
  sensor4: "sensor",
  sender: "sensor",
  actuator: "valve",
  load: "motor",
} as const;
const LABEL: Readonly<Record<DeviceKind, string>> = {
  sensor2: "Temperature sensor",
  sensor3: "Pressure sensor",
  sensor4: "Pressure and temperature sensor",
  sender: "Body-grounded sender",
  actuator: "Valve",
  load: "Fan motor",
};

/** Which part goes where. */
export interface DeviceSite {
  readonly kind: DeviceKind;
  readonly index: number;
  readonly when: string | undefined;
  readonly joints: readonly number[];
  readonly sources: BranchSources;
}

/** Puts a part beside its joint: place, component with its inside, connector. */
export function placeDevice(
  draft: HarnessDraft,
  { kind, index, when: option, joints, sources }: DeviceSite,
): PlacedDevice {
  const id = draft.nextId(FAMILY[kind]);
  const joint = joints[Math.floor(index / 2)] ?? sources.trunk;
  const { x, y, zone } = draft.tree.record(joint);
  const at = { x: x + (index % 2 === 0 ? -45 : 45), y: y + sources.side * 20, zone };
  const place = draft.tree.add(`N-${id}`, at, { parent: joint, lengthMm: draft.random.integer(80, 400) });
  const when = option === undefined ? {} : { when: option };
  draft.components.push({
    id,
    label: `${LABEL[kind]} ${id}`,
    kind: KIND[kind],
    zone,
    elements: insideOf(kind, id, { draft, sources }),
    ...when,
  });
  const label = `${LABEL[kind]} ${id}, connector`;
  draft.connector(`${id}.X1`, place, {
    kind: "component",
    component: id,
    label,
    sides: HALVES,
    size: devicePins[kind].length,
    ...when,
  });
  return { id, place };
}

function insideOf(
  kind: DeviceKind,
  id: string,
  { draft, sources }: { draft: HarnessDraft; sources: BranchSources },
): Elements {
  const pin = (cavity: number): string => `${id}.X1:${cavity}`;
  const ntc = (a: string, b: string): Elements[number] => {
    const curve = { referenceOhm: draft.random.pick([2200, 2500, 10_000]), referenceC: 25, betaK: 3500 };
    return { id: "t", kind: "ntc", between: [a, b], quantity: "temperature", curve };
  };
  const divider: Elements[number] = {
    id: "p",
    kind: "divider",
    between: [pin(1), pin(2)],
    tap: pin(3),
    quantity: "pressure",
    ratio: [
      [0, 0.1],
      [400, 0.9],
    ],
    sourceOhm: 100,
  };
  switch (kind) {
    case "sensor2":
      return [ntc(pin(1), pin(2))];
    case "sensor3":
      return [divider];
    case "sensor4":
      return [divider, ntc(pin(4), pin(2))];
    case "sender":
      return [ntc(pin(1), sources.ground.address)];
    case "actuator":
      return [{ id: "winding", kind: "load", between: [pin(1), pin(2)], resistanceOhm: draft.random.integer(6, 30) }];
    case "load":
      return [{ id: "motor", kind: "load", between: [pin(1), pin(2)], resistanceOhm: draft.random.integer(1, 6) }];
  }
}

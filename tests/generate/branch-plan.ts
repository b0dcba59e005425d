import type { SeededRandom } from "ohmward/base";

/** Kinds of parts at the end of a branch. `sender` is a one-wire sensor that is grounded by its body. */
export type DeviceKind = "sensor2" | "sensor3" | "sensor4" | "actuator" | "load" | "sender";

/** What a pin of a part is for; it decides where its wire comes from. */
export type PinRole = "supply" | "return" | "signal" | "feed" | "driver" | "relay-out" | "ground" | "body-signal";

/** Pins of each kind of part, cavity 1 first. */
export const devicePins: Readonly<Record<DeviceKind, readonly PinRole[]>> = {
  sensor2: ["signal", "return"],
  sensor3: ["supply", "return", "signal"],
  sensor4: ["supply", "return", "signal", "signal"],
  actuator: ["feed", "driver"],
  load: ["relay-out", "ground"],
  sender: ["body-signal"],
};

/** Roles whose pins share one line through a splice; every other pin has a line of its own. */
const SHARED: ReadonlySet<PinRole> = new Set(["supply", "return", "feed", "ground"]);

/** One line of a branch: a role and the pins it reaches. */
export interface LinePlan {
  readonly role: PinRole;
  readonly targets: readonly { readonly device: number; readonly cavity: number }[];
}

/** A branch: its parts, whether an inline connector cuts it, and the option it is fitted with, if any. */
export interface BranchPlan {
  readonly devices: readonly DeviceKind[];
  readonly inline: boolean;
  readonly when?: string;
}

/** A module: the wires it may use for its branches, and the branches. */
export interface ModulePlan {
  readonly branches: readonly BranchPlan[];
}

/** Lines needed to wire the parts of a branch. */
export function planLines(devices: readonly DeviceKind[]): readonly LinePlan[] {
  const shared = new Map<PinRole, { device: number; cavity: number }[]>();
  const lines: LinePlan[] = [];
  devices.forEach((kind, device) => {
    devicePins[kind].forEach((role, pin) => {
      const target = { device, cavity: pin + 1 };
      if (!SHARED.has(role)) lines.push({ role, targets: [target] });
      else if (shared.has(role)) shared.get(role)?.push(target);
      else shared.set(role, [target]);
    });
  });
  for (const [role, targets] of shared) lines.push({ role, targets });
  return lines;
}

/** Wires a branch costs: a line through a splice has one wire more than pins, a line through an inline connector one more again. */
export function countWires({ devices, inline, when }: BranchPlan): number {
  let wires = 0;
  for (const { targets } of planLines(devices))
    wires += targets.length + (targets.length > 1 ? 1 : 0) + (inline ? 1 : 0);
  // The control wire of each relay, and the interlock loop with its jumper plug.
  wires += devices.filter((kind) => kind === "load").length;
  return wires + (inline && when !== undefined ? 4 : 0);
}

const KINDS: readonly DeviceKind[] = [
  "sensor2",
  "sensor3",
  "sensor3",
  "sensor3",
  "sensor4",
  "actuator",
  "actuator",
  "load",
];
const OPTIONAL: readonly string[] = ["OPT-COLD", "OPT-REAR", "OPT-COLD & OPT-REAR", "OPT-COLD & !OPT-REAR"];
/** The first branch of the first module has one of everything usual and is fitted on every build. */
const FIRST_BRANCH: BranchPlan = { devices: ["sensor3", "sensor3", "actuator", "load"], inline: false };

/**
 * Plans the branches of a module so that they use exactly the wires given.
 *
 * @param random Where chance comes from.
 * @param wires How many wires.
 * @param first Whether this is the first module.
 */
export function planModule(random: SeededRandom, wires: number, first: boolean): ModulePlan {
  const branches: BranchPlan[] = [];
  let left = wires;
  const take = (branch: BranchPlan): void => {
    branches.push(branch);
    left -= countWires(branch);
  };
  if (first && countWires(FIRST_BRANCH) <= left) take(FIRST_BRANCH);
  while (left > 0) take(fitBranch(drawBranch(random), left));
  return { branches };
}

function drawBranch(random: SeededRandom): BranchPlan {
  const devices = Array.from({ length: random.integer(2, 6) }, () => random.pick(KINDS));
  const inline = random.next() < 0.35;
  return random.next() < 0.08 ? { devices, inline, when: random.pick(OPTIONAL) } : { devices, inline };
}

/** Makes a branch smaller until it fits; what remains at the end goes to one-wire senders. */
function fitBranch(branch: BranchPlan, most: number): BranchPlan {
  for (let size = branch.devices.length; size > 0; size--) {
    for (const smaller of [
      { ...branch, devices: branch.devices.slice(0, size) },
      { devices: branch.devices.slice(0, size), inline: false },
    ]) {
      if (countWires(smaller) <= most) return smaller;
    }
  }
  return { devices: Array.from({ length: Math.min(most, 6) }, () => "sender" as const), inline: false };
}

import { countWires, planLines, type BranchPlan } from "./branch-plan.ts";
import { takeSource, type BranchSources } from "./branch-sources.ts";
import type { HarnessDraft, WireEnd, WireKind } from "./harness-draft.ts";
import { InlineCut, wireInterlock } from "./inline-cut.ts";
import { placeDevice, type PlacedDevice } from "./place-device.ts";

/** Lays the places of a branch, puts its parts there and wires them. */
export function wireBranch(draft: HarnessDraft, plan: BranchPlan, sources: BranchSources): void {
  const before = draft.wires.length;
  const stem = layStem(draft, plan, sources);
  const devices = plan.devices.map((kind, index) =>
    placeDevice(draft, { kind, index, when: plan.when, joints: stem.joints, sources }),
  );
  const inline = plan.inline ? new InlineCut(draft, stem.cut, plan.when) : undefined;
  for (const line of planLines(plan.devices)) {
    const source = takeSource(draft, line, { plan, sources });
    const start = inline ? inline.pass(source.end, source.kind) : source.end;
    const targets = line.targets.map(({ device, cavity }) => deviceEnd(devices[device], cavity));
    joinAll(draft, { start, targets, kind: { ...source.kind, when: plan.when }, below: stem.spliceBelow });
  }
  if (inline && plan.when !== undefined) wireInterlock(draft, inline, sources.module);
  inline?.finish();
  if (draft.wires.length - before !== countWires(plan))
    throw new Error("Cannot wire a branch: its plan and its wires differ in number");
}

interface Stem {
  /** Where an inline connector sits. */
  readonly cut: number;
  /** The place under the segment that holds the splices. */
  readonly spliceBelow: number;
  /** Places that parts hang on, two each. */
  readonly joints: readonly number[];
}

function layStem(draft: HarnessDraft, plan: BranchPlan, { trunk, side }: BranchSources): Stem {
  const { x, zone } = draft.tree.record(trunk);
  const add = (parent: number, step: number): number =>
    draft.tree.add(
      draft.nextId("BP"),
      { x, y: side * (60 + 60 * step), zone },
      { parent, lengthMm: draft.random.integer(120, 600) },
    );
  const cut = add(trunk, 0);
  const joints = [add(cut, 1)];
  for (let step = 2; joints.length * 2 < plan.devices.length; step++) joints.push(add(joints.at(-1) ?? cut, step));
  return { cut, spliceBelow: joints[0] ?? cut, joints };
}

function deviceEnd(device: PlacedDevice | undefined, cavity: number): WireEnd {
  if (!device) throw new RangeError("Cannot wire a part that was not placed");
  return { address: `${device.id}.X1:${cavity}`, spot: { kind: "place", place: device.place } };
}

function joinAll(
  draft: HarnessDraft,
  line: { start: WireEnd; targets: readonly WireEnd[]; kind: WireKind; below: number },
): void {
  const [only, second] = line.targets;
  if (only && !second) {
    draft.wire(line.start, only, line.kind);
    return;
  }
  const splice = draft.splice(line.below, line.kind.when);
  draft.wire(line.start, splice, line.kind);
  for (const target of line.targets) draft.wire(splice, target, line.kind);
}

import type { Element, Harness } from "../../model/index.ts";
import { addElement } from "./add-element.ts";
import type { PartDraft } from "./part-draft.ts";
import type { Part } from "./part.ts";
import type { PlacedElement } from "./placed-element.ts";
import type { Stand } from "./situation.ts";
import type { Surroundings } from "./surroundings.ts";

/** What of the situation an element hangs on. */
interface HangsOn {
  readonly stand: Stand | undefined;
  readonly value: number | undefined;
  readonly state: string | undefined;
  readonly isRunning: boolean;
}

/** The first part an element became, with all that it hangs on, and the parts after it. */
interface Block extends HangsOn {
  readonly part: Part;
  readonly from: number;
  readonly to: number;
  readonly next: Block | undefined;
}

interface Known {
  readonly temperatureC: number;
  readonly blocks: Map<string, Block>;
}

// Most elements are the same in every state of the machine, so what they were last time is taken again.
const known = new WeakMap<Harness, Known>();

/** Adds what an element is in the situation, as it was last time if nothing that it hangs on has changed. */
export function addKnownElement(
  draft: PartDraft,
  around: Surroundings,
  element: {
    readonly edgeKey: string;
    readonly key: string;
    readonly element: Element;
    readonly place: () => PlacedElement;
  },
): void {
  const { blocks } = knownOf(around);
  const hangsOn = hangsOnOf(around, element);
  const before = blocks.get(element.edgeKey);
  if (before && isSame(before, hangsOn)) {
    for (let at: Block | undefined = before; at; at = at.next) draft.addAgain(at.from, at.to, at.part);
    return;
  }
  const start = draft.parts.length;
  const assumed = draft.assumptionCount;
  addElement(draft, around, element.place());
  // One that takes something for granted says so each time.
  if (draft.assumptionCount !== assumed) return;
  let block: Block | undefined;
  for (let at = draft.parts.length - 1; at >= start; at--) {
    const part = draft.parts[at];
    const { stand, value, state, isRunning } = hangsOn;
    const [from = 0, to = 0] = [draft.from[at], draft.to[at]];
    if (part) block = { stand, value, state, isRunning, part, from, to, next: block };
  }
  if (block) blocks.set(element.edgeKey, block);
}

function knownOf({ harness, temperatureC }: Surroundings): Known {
  const found = known.get(harness);
  if (found?.temperatureC === temperatureC) return found;
  const made = { temperatureC, blocks: new Map<string, Block>() };
  known.set(harness, made);
  return made;
}

function hangsOnOf(
  around: Surroundings,
  { key, element }: { readonly key: string; readonly element: Element },
): HangsOn {
  const { kind } = element;
  return {
    stand: around.stands.get(key),
    value: kind === "ntc" || kind === "divider" ? around.quantities.get(element.quantity) : undefined,
    state: kind === "load" && element.resistanceByState ? around.stateId : undefined,
    isRunning: kind === "source" && around.isRunning,
  };
}

function isSame(one: HangsOn, other: HangsOn): boolean {
  return (
    one.stand === other.stand &&
    one.value === other.value &&
    one.state === other.state &&
    one.isRunning === other.isRunning
  );
}

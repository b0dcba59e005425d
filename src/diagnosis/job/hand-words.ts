import type { Harness } from "../../model/index.ts";
import type { HandCheck } from "../checks/check.ts";
import { outcomesOf } from "../checks/hand-outcomes.ts";
import { titleOf } from "./check-title.ts";
import type { DescribedCheck } from "./described-check.ts";

/** Words of a check without a meter, as far as they depend on its kind. */
export type HandWords = Pick<DescribedCheck, "title" | "steps" | "points" | "expected" | "cautions">;

/**
 * Describes a check without a meter: how to reach it, what to do, what a sound machine shows, what to beware of.
 *
 * @param harness The harness.
 * @param check The check.
 */
export function handWords(harness: Harness, check: HandCheck): HandWords {
  const { kind, at, need } = check;
  const [healthy] = outcomesOf(check);
  const remove = (harness.fitted.connectors.get(at.id) ?? harness.fitted.studs.get(at.id))?.access?.remove;
  const reach = remove === undefined ? [] : [`Reach ${at.id}: ${remove}.`];
  const open = need.unplugged.map(
    (id) => `Key off, unplug ${id}. If it was not plugged in, that is what you have seen.`,
  );
  const cautions = [...new Set(need.places.length > 0 ? zoneCautions(harness, check) : [])];
  const steps = [...reach, ...open, HAND_STEPS[kind](at)];
  return { title: titleOf(check), steps, points: [at.id], expected: healthy.label, cautions };
}

/** What is done at each sort of check without a meter. */
const HAND_STEPS: Readonly<Record<HandCheck["kind"], (at: HandCheck["at"]) => string>> = {
  look: ({ type }) =>
    type === "stud"
      ? "Look for corrosion, heat, paint under the rings, a loose nut, lugs torn from their cables."
      : "Look for chafe, tension, water, green or black deposits, pushed-back terminals, torn seals, heat, and earlier repairs.",
  wiggle: () =>
    "Watch the function, or a reading of the circuit with minimum and maximum stored, and move the harness gently a hand's width at a time.",
  drag: () =>
    "Slide a new terminal of the same series in from the mating side: it must need force to pull out. Then pull the wire lightly: the terminal must stay.",
  swap: () => "Note where the old part came from. Try the function again under the conditions of the complaint.",
};

function zoneCautions(harness: Harness, { at, need }: HandCheck): readonly string[] {
  const zone =
    harness.fitted.connectors.get(at.id)?.zone ??
    harness.segments.get(at.id)?.zone ??
    harness.fitted.studs.get(at.id)?.zone ??
    harness.fitted.components.get(at.id.split(".")[0] ?? "")?.zone;
  const hazards = harness.document.zones.find(({ id }) => id === zone)?.hazards ?? [];
  const own = hazards.filter(({ states }) => states === undefined || states.some((state) => state === need.state));
  const cautions = harness.document.cautions.filter(
    ({ on }) => on === undefined || on.zones?.some((id) => id === zone),
  );
  return [...own.map(({ text }) => text), ...cautions.map(({ text }) => text)];
}

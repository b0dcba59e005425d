import { HAND_METER, type Probe } from "../../simulation/index.ts";
import type { Meter } from "../../measurement-safety/index.ts";
import { formatQuantity, unreachable } from "../../base/index.ts";
import type { Item } from "../../connectivity/index.ts";
import type { ExpectMeter } from "../question.ts";
import type { MachineContext } from "../machine-context.ts";
import { TYPICAL } from "../gaps/answer-gap.ts";

/** What every computed reading takes for granted. */
export const MODEL_ASSUMPTIONS: readonly string[] = [
  "The parts are calculated for direct current at rest: no pulses, edges, inrush current or bus traffic.",
  "Everything that is not named as a fault is as in the harness document, without a fault.",
];

/** The meter the figures are for. */
export const METER_ASSUMPTION = `Meter: ${HAND_METER.name}, ${formatQuantity(HAND_METER.inputOhm, "Ω")} at DC voltage. Another meter has other limits.`;

/** Most components that one sentence names. */
const MOST_NAMED = 6;

/**
 * Which components stand in the calculation with typical values that a person has confirmed, not with values of this machine.
 *
 * @param context The machine in its build and state.
 * @returns A sentence; none where there is no such component.
 */
export function typicalAssumption({ machine }: MachineContext): readonly string[] {
  const stated = (machine.document.statements ?? []).flatMap(({ about, what, reason = "" }) =>
    what === "inside" && reason.startsWith(TYPICAL) ? [`${about} (${reason.slice(TYPICAL.length)})`] : [],
  );
  if (stated.length === 0) return [];
  const more = stated.length > MOST_NAMED ? ` and ${stated.length - MOST_NAMED} more` : "";
  return [`Typical values, not those of this machine: ${stated.slice(0, MOST_NAMED).join(", ")}${more}.`];
}

/**
 * What is assumed about the state, in words; nothing where it was asked for.
 *
 * @param context The machine in its build and state.
 */
export function stateAssumption({ state, isStateAssumed }: MachineContext): readonly string[] {
  if (!state) return ["The document has no states. Assumed: everything at rest, battery connected."];
  return isStateAssumed ? [`No state was given. Assumed: ${state.id}, ${state.label}.`] : [];
}

/**
 * The kind of contact a meter needs, as the rules of probing know it.
 *
 * @param context The machine in its build and state.
 * @param meter What is measured.
 * @param at Where the lead goes: the clip of a test lamp on a ground stud is a lead like any other.
 */
export function contactMeter({ harness }: MachineContext, meter: ExpectMeter, at: Item): Meter {
  switch (meter) {
    case "dc-voltage":
    case "voltage-drop":
    case "duty-cycle":
      return "dc-voltage";
    case "resistance":
      return "resistance";
    case "dc-current":
      return "clamp";
    case "test-lamp":
      return at.type === "stud" && harness.fitted.terminalStuds.get(at.id)?.role === "ground"
        ? "dc-voltage"
        : "test-lamp";
    default:
      return unreachable(meter);
  }
}

/**
 * What is measured between two points.
 *
 * @param meter What is measured; amperes are not measured between points.
 * @param red Canonical address at the red lead.
 * @param black Canonical address at the black lead.
 */
export function probeBetween(meter: Exclude<ExpectMeter, "dc-current">, red: string, black: string): Probe {
  return { kind: meter === "test-lamp" ? "loaded" : meter, red, black };
}

import { describeItem, findUnknowns, wireLabel, type Resolved } from "../connectivity/index.ts";
import type { MachineContext } from "./machine-context.ts";

/** Longest list of names in one sentence. */
const MOST_NAMES = 6;

/**
 * What is not known about the nets of some things, in sentences: nets without a known supply or consumer, wires without a far end, components
 * whose inside is not in the data.
 *
 * @param context The machine in its build and state.
 * @param of The things asked about.
 * @param told Which of it matters here: `ends` leaves out the sentence about supply and consumers.
 * @returns The sentences; none where nothing is left open.
 */
export function notKnown(
  { harness }: MachineContext,
  of: readonly Resolved[],
  told: "all" | "ends" = "all",
): readonly string[] {
  const { withoutCircuit, openWires, blankComponents } = findUnknowns(harness, of);
  const sentences: string[] = [];
  if (told === "all" && withoutCircuit.length > 0)
    sentences.push(
      `No supply or consumer is known on ${withoutCircuit.length > 1 ? "the nets" : "the net"} of ${listed(withoutCircuit.map(({ id }) => id))}.`,
    );
  const wires = openWires.map((id) => {
    const wire = harness.fitted.wires.get(id);
    const label = wire ? wireLabel(wire) : "";
    return label === "" ? id : `${id} (${label})`;
  });
  if (wires.length > 0)
    sentences.push(`No far end in the data: ${wires.length > 1 ? "wires" : "wire"} ${listed(wires)}.`);
  const parts = blankComponents.map((id) => {
    const { label } = describeItem(harness, { type: "component", id });
    return label === id ? id : `${id} (${label})`;
  });
  if (parts.length > 0)
    sentences.push(`The inside of ${listed(parts)} is not in the data; the circuit may go on there.`);
  return sentences;
}

function listed(names: readonly string[]): string {
  const more = names.length - MOST_NAMES;
  return more > 0 ? `${names.slice(0, MOST_NAMES).join(", ")} and ${more} more` : names.join(", ");
}

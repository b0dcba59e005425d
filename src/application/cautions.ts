import { guardsOf, MAKER_FIRST } from "../measurement-safety/index.ts";
import type { Caution, Harness, NetKind } from "../harness-model/index.ts";
import type { Item, Resolved } from "../connectivity/index.ts";
import type { MachineContext } from "./machine-context.ts";
import { affectedBy, type AffectedItems } from "./affected-items.ts";

/** Circuits for which nothing but the maker's own procedure is fit. */
const FORBIDDEN: ReadonlyMap<NetKind, string> = new Map<NetKind, string>([
  ["airbag", "an airbag or belt-tensioner circuit. The current of a meter can fire it"],
  ["high-voltage", "a high-voltage circuit. It can kill"],
]);

/** How a caution begins that is a hard stop. */
const STOP = "WARNING: do not touch";

/** Whether a caution is a hard stop: a circuit that nobody may work on but by the maker's own procedure. */
export function isHardStop(caution: string): boolean {
  return caution.startsWith(STOP);
}

/**
 * The cautions of an answer: circuits that must be left alone, that the maker comes first, then those of the document that match a
 * zone, net or component the answer touches or the state it is asked in.
 *
 * @param context The machine in its build and state.
 * @param items The things the answer sends a person to.
 * @returns Sentences, most pressing first.
 */
export function cautionsFor(context: MachineContext, items: Iterable<Item | Resolved>): readonly string[] {
  const affected = affectedBy(context.harness, items);
  const ofDocument = context.machine.document.cautions.filter((caution) => holds(caution, affected, context.state?.id));
  return [...forbidden(context.harness, affected), MAKER_FIRST, ...ofDocument.map((caution) => caution.text)];
}

/**
 * The cautions of an answer that names things without sending anybody to them, such as hits of a search: those on circuits that must be
 * left alone, that the maker comes first, and those of the document that hold everywhere or in the state.
 *
 * @param context The machine in its build and state.
 * @param items The things the answer names.
 */
export function cautionsForList(context: MachineContext, items: Iterable<Item | Resolved>): readonly string[] {
  const none = new Set<never>();
  const nowhere: AffectedItems = { zones: none, components: none, nets: none, nodes: none, edges: none };
  const ofDocument = context.machine.document.cautions.filter((caution) => holds(caution, nowhere, context.state?.id));
  const affected = affectedBy(context.harness, items);
  return [...forbidden(context.harness, affected), MAKER_FIRST, ...ofDocument.map((caution) => caution.text)];
}

function holds({ on }: Caution, affected: AffectedItems, state: string | undefined): boolean {
  if (on === undefined) return true;
  return (
    (on.zones ?? []).some((id) => affected.zones.has(id)) ||
    (on.components ?? []).some((id) => affected.components.has(id)) ||
    (on.nets ?? []).some((id) => affected.nets.has(id)) ||
    (on.states ?? []).some((id) => id === state)
  );
}

/**
 * What is said of airbag and high-voltage circuits that things hang on; nothing where there are none.
 *
 * @param harness The harness.
 * @param items The things.
 */
export function forbiddenTexts(harness: Harness, items: Iterable<Item | Resolved>): readonly string[] {
  return forbidden(harness, affectedBy(harness, items));
}

function forbidden(harness: Harness, affected: AffectedItems): readonly string[] {
  const guards = guardsOf(harness, affected);
  return [...FORBIDDEN].flatMap(([kind, what]) => {
    const because = guards.filter((guard) => guard.kind === kind).map((guard) => guard.because);
    if (because.length === 0) return [];
    const nets = [...affected.nets].filter((label) => FORBIDDEN.has(harness.nets.get(label)?.kind ?? "signal"));
    const which = nets.length > 0 ? nets.join(", ") : "this line";
    const [first = "", ...more] = because;
    const why = more.length === 0 ? first : `${first}, and ${more.length} more of this kind`;
    return [
      `${STOP} ${which}. It belongs to ${what}. Reason: ${why}. No test is suggested there. Only trained people may work there, by the maker's procedure.`,
    ];
  });
}

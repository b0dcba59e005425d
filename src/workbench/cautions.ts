import { guardsOf, MAKER_FIRST } from "../safety/index.ts";
import type { Caution, Harness, NetKind } from "../model/index.ts";
import type { Item, Resolved } from "../trace/index.ts";
import type { Scene } from "./scene.ts";
import { touchedBy, type Touched } from "./touched.ts";

/** Circuits for which nothing but the maker's own procedure is fit. */
const FORBIDDEN: ReadonlyMap<NetKind, string> = new Map<NetKind, string>([
  ["airbag", "an airbag or belt-tensioner circuit, which a meter's current can fire"],
  ["high-voltage", "a high-voltage circuit, which can kill"],
]);

/**
 * The cautions of an answer: circuits that must be left alone, that the maker comes first, then those of the document that match a
 * zone, net or component the answer touches or the state it is asked in.
 *
 * @param scene The machine in its build and state.
 * @param items The things the answer sends a person to.
 * @returns Sentences, most pressing first.
 */
export function cautionsFor(scene: Scene, items: Iterable<Item | Resolved>): readonly string[] {
  const touched = touchedBy(scene.harness, items);
  const ofDocument = scene.machine.document.cautions.filter((caution) => holds(caution, touched, scene.state?.id));
  return [...forbidden(scene.harness, touched), MAKER_FIRST, ...ofDocument.map((caution) => caution.text)];
}

/**
 * The cautions of an answer that names things without sending anybody to them, such as hits of a search: those on circuits that must be
 * left alone, that the maker comes first, and those of the document that hold everywhere or in the state.
 *
 * @param scene The machine in its build and state.
 * @param items The things the answer names.
 */
export function cautionsForList(scene: Scene, items: Iterable<Item | Resolved>): readonly string[] {
  const none = new Set<never>();
  const nowhere: Touched = { zones: none, components: none, nets: none, nodes: none, edges: none };
  const ofDocument = scene.machine.document.cautions.filter((caution) => holds(caution, nowhere, scene.state?.id));
  const touched = touchedBy(scene.harness, items);
  return [...forbidden(scene.harness, touched), MAKER_FIRST, ...ofDocument.map((caution) => caution.text)];
}

function holds({ on }: Caution, touched: Touched, state: string | undefined): boolean {
  if (on === undefined) return true;
  return (
    (on.zones ?? []).some((id) => touched.zones.has(id)) ||
    (on.components ?? []).some((id) => touched.components.has(id)) ||
    (on.nets ?? []).some((id) => touched.nets.has(id)) ||
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
  return forbidden(harness, touchedBy(harness, items));
}

function forbidden(harness: Harness, touched: Touched): readonly string[] {
  const guards = guardsOf(harness, touched);
  return [...FORBIDDEN].flatMap(([kind, what]) => {
    const because = guards.filter((guard) => guard.kind === kind).map((guard) => guard.because);
    if (because.length === 0) return [];
    const nets = [...touched.nets].filter((label) => FORBIDDEN.has(harness.nets.get(label)?.kind ?? "signal"));
    const which = nets.length > 0 ? nets.join(", ") : "this line";
    const [first = "", ...more] = because;
    const why = more.length === 0 ? first : `${first}, and ${more.length} more of the kind`;
    return [
      `Leave ${which} alone: ${what}. It counts as one because ${why}. No check is suggested there; only the maker's procedure, by people trained for it.`,
    ];
  });
}

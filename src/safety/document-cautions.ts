import type { Harness, State } from "../model/index.ts";
import { MAKER_FIRST } from "./caution-texts.ts";

/** What cautions of the document concern. */
export interface Concerned {
  readonly nets: Iterable<string>;
  readonly zone?: string | undefined;
  readonly component?: string | undefined;
  readonly state?: string | undefined;
}

/**
 * The cautions of the document that name one of the things concerned.
 *
 * @param harness The harness.
 * @param concerned What is touched, where and when.
 */
export function documentCautions(harness: Harness, concerned: Concerned): readonly string[] {
  const nets = new Set(concerned.nets);
  const names = (list: readonly string[] | undefined, id: string | undefined): boolean =>
    id !== undefined && (list?.includes(id) ?? false);
  return harness.document.cautions.flatMap(({ on, text }) => {
    if (!on) return [];
    const isMeant =
      names(on.zones, concerned.zone) ||
      names(on.components, concerned.component) ||
      names(on.states, concerned.state) ||
      (on.nets?.some((net) => nets.has(net)) ?? false);
    return isMeant ? [text] : [];
  });
}

/** The cautions every answer in a state carries: the maker first, those of the document without a place, those of the state. */
export function generalCautions(harness: Harness, state: State): readonly string[] {
  const everywhere = harness.document.cautions.filter((caution) => !caution.on).map((caution) => caution.text);
  return [...new Set([MAKER_FIRST, ...everywhere, ...documentCautions(harness, { nets: [], state: state.id })])];
}

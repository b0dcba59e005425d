import type { ChooseAnswer, FindAnswer, UnresolvedAnswer } from "../answer.ts";
import { columns } from "./columns.ts";
import { factRow } from "./fact-row.ts";
import { GROUP_TITLES } from "../find-groups.ts";
import { counted, frame, section } from "./frame.ts";

/**
 * Hits of a search, as lines.
 *
 * @param answer The answer.
 */
export function writeFind(answer: FindAnswer): readonly string[] {
  const { hits, groups, text, foundIn, nearest } = answer;
  if (hits.length === 0) {
    const elsewhere = foundIn.length === 0 ? "" : ` Found in: ${foundIn.join(", ")}.`;
    const none = `Nothing in build ${answer.build} matches these words.${elsewhere}`;
    return frame(`"${text}": ${counted(0, "hit")}`, answer, [
      none,
      ...section("Nearest", columns(nearest.map(hitRow))),
    ]);
  }
  const lines = groups.flatMap(({ group, count }, at) => {
    const own = hits.filter((hit) => hit.group === group);
    const more = count > own.length ? [`  and ${count - own.length} more; --all ${group} lists them`] : [];
    return [...(at === 0 ? [] : [""]), `${GROUP_TITLES[group]}: ${count}`, ...columns(own.map(hitRow)), ...more];
  });
  const best = hits[0];
  const asks = best ? section(`To be asked of ${best.id}`, [`  ${best.actions.join(", ")}`]) : [];
  const total = groups.reduce((sum, { count }) => sum + count, 0);
  return frame(`"${text}": ${counted(total, "hit")}`, answer, [...lines, ...asks]);
}

/** A contact or wire is found by what it reads as, so its label stands in place of the colour alone. */
function hitRow(hit: FindAnswer["nearest"][number]): readonly string[] {
  const [sort = "", id = "", , size = "", length = "", net = "", where = "", parts = ""] = factRow(hit);
  return hit.type === "wire"
    ? [sort, id, hit.label, "", length, "", where, parts]
    : [sort, id, hit.label, size, length, net, where, parts];
}

/**
 * Why a text names no single item, as lines.
 *
 * @param answer The answer.
 */
export function writeUnresolved(answer: UnresolvedAnswer): readonly string[] {
  const where = `${answer.machine}, build ${answer.build}`;
  return [answer.text, ...columns(answer.items.map(factRow)), where];
}

/**
 * Which build or state to choose from, as lines.
 *
 * @param answer The answer.
 */
export function writeChoose(answer: ChooseAnswer): readonly string[] {
  return [answer.text, ...columns(answer.choices.map(({ id, label }) => [id, label])), answer.machine];
}

import type { ChooseAnswer, FindAnswer, UnresolvedAnswer } from "../answer.ts";
import { columns } from "./columns.ts";
import { factRow } from "./fact-row.ts";
import { counted, frame } from "./frame.ts";

/**
 * Hits of a search, as lines.
 *
 * @param answer The answer.
 */
export function writeFind(answer: FindAnswer): readonly string[] {
  const { hits, text, foundIn } = answer;
  const elsewhere = foundIn.length === 0 ? "" : ` Found in: ${foundIn.join(", ")}.`;
  const none = `Nothing in build ${answer.build} matches these words.${elsewhere}`;
  // A contact or wire is found by what it reads as, so its label stands in place of the colour alone.
  const rows = hits.map((hit) => {
    const [sort = "", id = "", , size = "", length = "", net = "", where = "", parts = ""] = factRow(hit);
    return hit.type === "wire"
      ? [sort, id, hit.label, "", length, "", where, parts]
      : [sort, id, hit.label, size, length, net, where, parts];
  });
  return frame(`"${text}": ${counted(hits.length, "hit")}`, answer, hits.length === 0 ? [none] : columns(rows));
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

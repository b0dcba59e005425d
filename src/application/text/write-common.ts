import type { Mark } from "../../connectivity/index.ts";
import type { CommonAnswer } from "../answer.ts";
import { columns } from "./columns.ts";
import { factRow } from "./fact-row.ts";
import { counted, frame, section } from "./frame.ts";

/**
 * Common wiring of circuits, as lines.
 *
 * @param answer The answer.
 */
export function writeCommon(answer: CommonAnswer): readonly string[] {
  const { asked, items } = answer;
  const compared = asked.map(({ id, mark, circuitCount }) => [
    id,
    MARK_NAMES[mark],
    circuitCount === 0 ? "no supply or consumer known on its net" : counted(circuitCount, "circuit"),
  ]);
  const suspects = items.filter((item) => item.isSuspect);
  const others = items.filter((item) => !item.isSuspect);
  const hasGood = asked.some((each) => each.mark === "good");
  const suspectHeading = hasGood ? "In all that fail and in none that work" : "In all that fail";
  const row = (item: CommonAnswer["items"][number]): readonly string[] => sharedRow(answer, item);
  return frame("Common wiring", answer, [
    "Compared",
    ...columns(compared),
    ...section(suspectHeading, columns(suspects.map(row))),
    ...section("Common to some of them", columns(others.map(row))),
    ...(items.length === 0 ? ["", nothingWords(answer)] : []),
  ]);
}

const MARK_NAMES: Readonly<Record<Mark, string>> = { bad: "fails", good: "works", unknown: "not known" };

function sharedRow({ asked }: CommonAnswer, item: CommonAnswer["items"][number]): readonly string[] {
  const all = (mark: "bad" | "good"): number => asked.filter((each) => each.mark === mark).length;
  const countOf = (mark: "bad" | "good"): string =>
    all(mark) === 0 ? "" : `${MARK_NAMES[mark]} ${item[mark]} of ${all(mark)}`;
  const marks = [countOf("bad"), countOf("good")].filter((part) => part !== "").join(", ");
  const [sort = "", id = "", what = "", size = "", length = "", net = "", where = ""] = factRow(item);
  const inAll = item.circuitsInAll === 0 ? "" : `${counted(item.circuitsInAll, "circuit")} of the machine`;
  return [sort, id, what, marks, inAll, size, length, net, where];
}

function nothingWords({ asked }: CommonAnswer): string {
  if (asked.length < 2) return "Name two or more items to compare.";
  return "The data has no wire, contact, splice, connector or segment that is common to two of them.";
}

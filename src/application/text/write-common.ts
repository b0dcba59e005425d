import type { CommonAnswer } from "../answer.ts";
import { columns } from "./columns.ts";
import { factRow } from "./fact-row.ts";
import { counted, frame, section } from "./frame.ts";

/**
 * What circuits have in common, as lines.
 *
 * @param answer The answer.
 */
export function writeCommon(answer: CommonAnswer): readonly string[] {
  const { asked, items } = answer;
  const compared = asked.map(({ id, mark, circuitCount }) => [
    id,
    mark,
    circuitCount === 0 ? "no supply or consumer known on its net" : counted(circuitCount, "circuit"),
  ]);
  const suspects = items.filter((item) => item.isSuspect);
  const others = items.filter((item) => !item.isSuspect);
  const hasGood = asked.some((each) => each.mark === "good");
  const suspectHeading = hasGood ? "In all that are bad and in none that are good" : "In all that are bad";
  const row = (item: CommonAnswer["items"][number]): readonly string[] => sharedRow(answer, item);
  return frame("In common", answer, [
    "Compared",
    ...columns(compared),
    ...section(suspectHeading, columns(suspects.map(row))),
    ...section("Shared by some of them", columns(others.map(row))),
    ...(items.length === 0 ? ["", nothingWords(answer)] : []),
  ]);
}

function sharedRow({ asked }: CommonAnswer, item: CommonAnswer["items"][number]): readonly string[] {
  const all = (mark: "bad" | "good"): number => asked.filter((each) => each.mark === mark).length;
  const share = (mark: "bad" | "good"): string => (all(mark) === 0 ? "" : `${item[mark]} of ${all(mark)} ${mark}`);
  const marks = [share("bad"), share("good")].filter((part) => part !== "").join(", ");
  const [sort = "", id = "", what = "", size = "", length = "", net = "", where = ""] = factRow(item);
  const inAll = item.circuitsInAll === 0 ? "" : `${counted(item.circuitsInAll, "circuit")} of the machine`;
  return [sort, id, what, marks, inAll, size, length, net, where];
}

function nothingWords({ asked }: CommonAnswer): string {
  if (asked.length < 2) return "Two or more things are needed to compare.";
  return "The data shows no wire, contact, splice, connector or segment that two of them share.";
}

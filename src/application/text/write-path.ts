import { formatLengthMm, unreachable } from "../../base/index.ts";
import type { PathAnswer, NoPathAnswer } from "../answer.ts";
import { columns } from "./columns.ts";
import { factRow } from "./fact-row.ts";
import { counted, frame, section } from "./frame.ts";
import { writeRoute } from "./write-route.ts";

/**
 * What lies between two things, as lines.
 *
 * @param answer The answer.
 */
export function writePath(answer: PathAnswer): readonly string[] {
  const wires = answer.path.filter((facts) => facts.type === "wire").length;
  const length = answer.wireLengthMm === undefined ? "" : `, ${formatLengthMm(answer.wireLengthMm)} of wire`;
  const contacts = answer.path.filter((facts) => facts.type === "contact").length;
  const size = `${counted(wires, "wire")}${length}, ${counted(contacts, "contact")}`;
  const rows = answer.path.map((facts, at) => [`${at + 1}`, ...factRow(facts)]);
  const branches = answer.branches.map(({ at, ways }) => [
    at.id,
    ways.map(({ wire, to }) => `${wire} to ${to.id}`).join(", "),
  ]);
  return frame(`From ${answer.from.id} to ${answer.to.id}: ${size}`, answer, [
    `The way, ${throughWords(answer.through)}`,
    ...columns(rows),
    "",
    mustPassLine(answer),
    ...section(
      otherWaysHeading(answer),
      answer.alternatives.map((way) => `  ${way.join(" - ")}`),
    ),
    ...section("Leads away from it", columns(branches)),
    ...writeRoute(answer.route),
  ]);
}

/**
 * Why nothing lies between two things, as lines.
 *
 * @param answer The answer.
 */
export function writeNoPath(answer: NoPathAnswer): readonly string[] {
  return frame(`From ${answer.from.id} to ${answer.to.id}: no way`, answer, [answer.text]);
}

function throughWords(through: PathAnswer["through"]): string {
  switch (through) {
    case "conductors":
      return "by wires, contacts, splices and studs alone";
    case "switches-and-fuses":
      return "also through fuses, switches, relay contacts and bars";
    case "loads":
      return "also through loads and coils";
    case "control-units":
      return "through every part, also inside control units";
    default:
      return unreachable(through);
  }
}

function mustPassLine({ path, mustPass }: PathAnswer): string {
  if (mustPass.length >= path.length) return "Every way passes all of these.";
  if (mustPass.length === 0) return "There is nothing that every way passes.";
  return `Every way passes: ${mustPass.join(", ")}`;
}

function otherWaysHeading({ alternatives, alternativesComplete }: PathAnswer): string {
  return `Other ways (${alternatives.length}${alternativesComplete ? "" : " shown, there are more"})`;
}

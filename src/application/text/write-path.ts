import { formatLengthMm, unreachable } from "../../base/index.ts";
import type { PathAnswer, NoPathAnswer } from "../answer.ts";
import { columns } from "./columns.ts";
import { factRow } from "./fact-row.ts";
import { counted, frame, section } from "./frame.ts";
import { writeRoute } from "./write-route.ts";

/**
 * Path between two points, as lines.
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
  return frame(`Path from ${answer.from.id} to ${answer.to.id}: ${size}`, answer, [
    `Path ${throughWords(answer.through)}`,
    ...columns(rows),
    "",
    mustPassLine(answer),
    ...section(
      otherWaysHeading(answer),
      answer.alternatives.map((way) => `  ${way.join(" - ")}`),
    ),
    ...section("Wires that leave the path", columns(branches)),
    ...writeRoute(answer.route),
  ]);
}

/**
 * Why there is no path between two points, as lines.
 *
 * @param answer The answer.
 */
export function writeNoPath(answer: NoPathAnswer): readonly string[] {
  return frame(`Path from ${answer.from.id} to ${answer.to.id}: none`, answer, [answer.text]);
}

function throughWords(through: PathAnswer["through"]): string {
  switch (through) {
    case "conductors":
      return "through wires, contacts, splices and terminal studs only";
    case "switches-and-fuses":
      return "also through fuses, switches, relay contacts and busbars";
    case "loads":
      return "also through loads and coils";
    case "control-units":
      return "also through control units";
    default:
      return unreachable(through);
  }
}

function mustPassLine({ path, mustPass }: PathAnswer): string {
  if (mustPass.length >= path.length) return "All of these are on every path.";
  if (mustPass.length === 0) return "Nothing is on every path.";
  return `On every path: ${mustPass.join(", ")}`;
}

function otherWaysHeading({ alternatives, alternativesComplete }: PathAnswer): string {
  return `Other paths (${alternatives.length}${alternativesComplete ? "" : " shown, there are more"})`;
}

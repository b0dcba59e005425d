import { unreachable } from "../../base/index.ts";
import type { CircuitAnswer } from "../answer.ts";
import { columns } from "./columns.ts";
import { factRow, factWords, named } from "./fact-row.ts";
import { counted, frame, section } from "./frame.ts";
import { writeRoute } from "./write-route.ts";

/**
 * Circuit at a point: its net and circuits, as lines.
 *
 * @param answer The answer.
 */
export function writeCircuitAnswer(answer: CircuitAnswer): readonly string[] {
  const { labels, items } = answer.net;
  const net = labels.length === 0 ? "Joined to it by conductors only" : `Net ${labels.join(", ")}`;
  const hasWire = items.some((facts) => facts.type === "wire");
  return frame(`Circuit of ${named(answer.of)}`, answer, [
    `${net}: ${counted(items.length, "item")}`,
    ...columns(items.map(factRow)),
    ...(hasWire ? [] : ["  No wire in the data is joined to it in this build."]),
    ...answer.circuits.flatMap(writeCircuit),
    ...(answer.circuits.length === 0 ? ["", "No supply or consumer is known on this net."] : []),
    ...section("Fuses", answer.fuses.length === 0 ? [] : [`  ${answer.fuses.join(", ")}`]),
    ...section(
      "Switches and relay contacts",
      columns(answer.switches.map(({ id, coil }) => [id, coil === undefined ? "" : `moved by ${coil}`])),
    ),
    ...writeRoute(answer.route),
  ]);
}

type Circuit = CircuitAnswer["circuits"][number];
type Side = Circuit["sides"][number];

function writeCircuit({ serves, sides }: Circuit): readonly string[] {
  return section(`Serves ${named(serves)}`, columns(sides.flatMap(writeSide)));
}

function writeSide({ role, ways }: Side): readonly (readonly string[])[] {
  if (ways.length === 0) return [[roleWords(role), role === "nothing" ? "" : "directly"]];
  return ways.map((way) => [roleWords(role), way.map(factWords).join(" - ")]);
}

function roleWords(role: Side["role"]): string {
  switch (role) {
    case "supply":
      return "to supply";
    case "ground":
      return "to ground";
    case "module":
      return "to control unit";
    case "outlet":
      return "to unmated connector";
    case "nothing":
      return "no supply, ground or control unit known";
    default:
      return unreachable(role);
  }
}

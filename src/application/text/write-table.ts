import { formatQuantity, unreachable } from "../../base/index.ts";
import { methodName } from "../../measurement-safety/index.ts";
import { bandOf, shortReading } from "../expect/meaning.ts";
import type { TableAnswer, TableReading, TableRow } from "../expect/table-answer.ts";
import { columns } from "./columns.ts";
import { factWords, named } from "./fact-row.ts";
import { bullets, frame, section } from "./frame.ts";
import { conditionRows } from "./write-expected.ts";

/**
 * Expected voltages along the circuits of an item, as lines: way by way, from supply down to ground.
 *
 * @param answer The answer.
 */
export function writeTable(answer: TableAnswer): readonly string[] {
  const { of, black, legs, legsLeftOut, because } = answer;
  const conditions = conditionRows(answer);
  const isMarked = legs.some(({ rows }) => rows.some((row) => row.isToldApart === true));
  return frame(`Expected along the circuits of ${named(of)}, against ${black}`, answer, [
    ...columns(conditions),
    ...(conditions.length > 0 ? [""] : []),
    ...legs.flatMap((leg, at) => [...(at === 0 ? [] : [""]), ...writeLeg(leg)]),
    ...(isMarked ? ["", "* A meter can separate this from the normal reading."] : []),
    ...(legsLeftOut === 0 ? [] : ["", `${legsLeftOut} more paths are left out. Ask about a smaller part.`]),
    ...section("Why there are no values", bullets(because.map(({ text }) => text))),
  ]);
}

function writeLeg({ serves, role, rows }: TableAnswer["legs"][number]): readonly string[] {
  const hasNormal = rows.some((row) => row.normal !== undefined);
  const head = ["at", "reads", hasNormal ? "normal" : "", "limits", "voltage drop", "test point", "through"];
  return [`${serves.id}, ${roleWords(role)}`, ...columns([head, ...rows.map(writeRow)])];
}

function writeRow(row: TableRow): readonly string[] {
  const { point, reading, normal, dropVolt, through } = row;
  const mark = row.isToldApart === true ? " *" : "";
  return [
    point,
    `${cell(reading)}${mark}`,
    normal ? cell(normal) : "",
    bandOf(reading),
    dropVolt === undefined ? "" : formatQuantity(dropVolt, "V"),
    leadWords(row),
    through.map(factWords).join(" - "),
  ];
}

function leadWords({ reach, access, instead }: TableRow): string {
  if (reach) return `${reach.class} ${methodName(reach.method)}`;
  const [near] = instead;
  if (access === "unknown") return "not known";
  if (near?.unplug !== undefined) return `only with ${near.unplug} disconnected`;
  return near === undefined ? "no permitted test point" : `not here; nearest ${near.at} (${near.class})`;
}

function cell(reading: TableReading): string {
  return reading.kind === "floating" ? "floating" : shortReading(reading);
}

function roleWords(role: TableAnswer["legs"][number]["role"]): string {
  switch (role) {
    case "supply":
      return "from the supply";
    case "ground":
      return "to ground";
    case "module":
      return "from a control unit";
    case "outlet":
      return "from an unmated connector";
    case "nothing":
      return "no far end in the data";
    default:
      return unreachable(role);
  }
}

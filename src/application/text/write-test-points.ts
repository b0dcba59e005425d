import { formatMinutes, formatNumber, unreachable } from "../../base/index.ts";
import type { TestPointsAnswer } from "../answer.ts";
import { columns } from "./columns.ts";
import { named } from "./fact-row.ts";
import { counted, frame, section } from "./frame.ts";

type NotPermitted = TestPointsAnswer["refused"][number];

/**
 * Where a meter may be put, as lines: the points from the safest on, then what is refused and why.
 *
 * @param answer The answer.
 */
export function writeTestPoints(answer: TestPointsAnswer): readonly string[] {
  const { of, points, refused } = answer;
  const wayOf = ({ instead }: NotPermitted): number => points.findIndex((point) => point.id === instead);
  return frame(`Where to put the meter for ${named(of)}: ${counted(points.length, "way")}`, answer, [
    ...(points.length === 0 ? ["There is no permitted way to reach it in this state."] : points.flatMap(writePoint)),
    ...section("Refused", columns(refused.map((each) => [each.id, each.method, refusalWords(each, wayOf(each))]))),
  ]);
}

function writePoint(point: TestPointsAnswer["points"][number], at: number): readonly string[] {
  const time = `${formatMinutes(point.minutes)}${point.isEstimated ? " (estimated)" : ""}`;
  const facts = [
    point.at === undefined ? "" : `reaches ${point.at}`,
    relationWords(point),
    point.unplug === undefined ? "" : `unplug ${point.unplug}`,
    point.adapter === undefined ? "" : `adapter ${point.adapter}`,
    point.terminalMm === undefined ? "" : `terminal ${formatNumber(point.terminalMm, 2)} mm`,
    time,
    point.remove ?? "",
    point.zone === undefined ? "" : `zone ${point.zone}`,
    point.segment === undefined ? "" : `segment ${point.segment}`,
  ];
  return [
    ...(at === 0 ? [] : [""]),
    `${at + 1}. ${point.class}  ${point.how}`,
    `   ${facts.filter((part) => part !== "").join("; ")}`,
    `   for ${point.meters.join(", ")}`,
    ...point.notFor.map(({ meter, reason }) => `   not for ${meter}: ${reason}`),
    ...point.cautions.map((caution) => `   ! ${caution}`),
  ];
}

function relationWords({ relation, between }: TestPointsAnswer["points"][number]): string {
  const way = between.length === 0 ? "" : ` through ${between.join(", ")}`;
  switch (relation) {
    case "itself":
      return "the thing itself";
    case "same-net":
      return `on its net${way}`;
    case "parted":
      return `on its net until unplugged${way}`;
    default:
      return unreachable(relation);
  }
}

function refusalWords({ reason, source }: NotPermitted, instead: number): string {
  return `${reason}${instead < 0 ? "" : ` Instead: way ${instead + 1}.`} [${source}]`;
}

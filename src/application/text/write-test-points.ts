import { formatMinutes, formatNumber, unreachable } from "../../base/index.ts";
import type { TestPointsAnswer } from "../answer.ts";
import { METER_NAMES, methodName } from "../../measurement-safety/index.ts";
import { refusalsByRule, type RuleRefusals } from "../test-point-rows.ts";
import { named } from "./fact-row.ts";
import { bullets, frame, section } from "./frame.ts";

type Points = TestPointsAnswer["points"];

/**
 * Test points, as lines: the points from the safest on, then what is refused and why, rule by rule.
 *
 * @param answer The answer.
 */
export function writeTestPoints(answer: TestPointsAnswer): readonly string[] {
  const { of, points, refused } = answer;
  return frame(`Test points for ${named(of)}: ${points.length === 0 ? "none" : `${points.length} permitted`}`, answer, [
    ...(points.length === 0 ? ["No test point is permitted in this state."] : points.flatMap(writePoint)),
    ...section(
      "Not permitted",
      refusalsByRule(refused).flatMap((rule) => writeRefusals(rule, points)),
    ),
  ]);
}

function writeRefusals({ methods, reason, source, refused }: RuleRefusals, points: Points): readonly string[] {
  const places = refused.map(({ id, at, item, instead }) => {
    const way = points.findIndex((point) => point.id === instead);
    return `${methods.length > 1 ? id : (at ?? item.id)}${way < 0 ? "" : ` (instead: test point ${way + 1})`}`;
  });
  return [...bullets([`${methods.map(methodName).join(", ")}: ${reason} [${source}]`]), `    ${places.join(", ")}`];
}

function writePoint(point: TestPointsAnswer["points"][number], at: number): readonly string[] {
  const time = `${formatMinutes(point.minutes)}${point.isEstimated ? " (estimated)" : ""}`;
  const facts = [
    point.at === undefined ? "" : `reaches ${point.at}`,
    relationWords(point),
    point.unplug === undefined ? "" : `disconnect ${point.unplug}`,
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
    `   for ${point.meters.map((meter) => METER_NAMES[meter]).join(", ")}`,
    ...point.notFor.map(({ meter, reason }) => `   not for ${METER_NAMES[meter]}: ${reason}`),
    ...point.cautions.map((caution) => `   ! ${caution}`),
  ];
}

function relationWords({ relation, between }: TestPointsAnswer["points"][number]): string {
  const way = between.length === 0 ? "" : ` through ${between.join(", ")}`;
  switch (relation) {
    case "itself":
      return "the item itself";
    case "same-net":
      return `on its net${way}`;
    case "parted":
      return `on its net until disconnected${way}`;
    default:
      return unreachable(relation);
  }
}

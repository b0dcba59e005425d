import { formatLengthMm } from "../../base/index.ts";
import type { RouteFacts } from "../answer.ts";
import { columns } from "./columns.ts";
import { section } from "./frame.ts";

type Hazards = RouteFacts["zones"][number]["hazards"];

/**
 * Where the wires of an answer run: segments with covering, clips and hazards, then the zones with theirs.
 *
 * @param route The route of an answer.
 */
export function writeRoute(route: RouteFacts): readonly string[] {
  const steps = route.steps.map((step) => [
    step.segment,
    `${step.from} to ${step.to}`,
    formatLengthMm(step.lengthMm),
    step.zone === undefined ? "" : `zone ${step.zone}`,
    [step.covering, step.clips].filter((part) => part !== undefined).join(", "),
    step.wires.length <= 6 ? step.wires.join(" ") : `${step.wires.length} wires`,
    hazardWords(step.hazards),
  ]);
  const zones = route.zones.map((zone) => [zone.zone, zone.label, hazardWords(zone.hazards)]);
  const unrouted = route.unrouted.length === 0 ? [] : [`  ${route.unrouted.join(" ")}`];
  return [
    ...section("Harness segments of the route", columns(steps)),
    ...section("Zones on the route", columns(zones)),
    ...section("Route unknown", unrouted),
  ];
}

function hazardWords(hazards: Hazards): string {
  return hazards
    .map(({ text, states }) =>
      states === undefined || states.length === 0 ? text : `${text} (in ${states.join(", ")})`,
    )
    .join("; ");
}

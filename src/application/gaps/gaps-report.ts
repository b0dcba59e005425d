import type { HarnessDocument } from "../../harness-model/index.ts";
import { columns } from "../text/columns.ts";
import { bullets, section } from "../text/frame.ts";
import { safeLines } from "../../base/index.ts";
import { findGaps } from "./find-gaps.ts";
import type { GapsReport, ItemGaps } from "./gap.ts";
import { proposeJoins } from "./propose-joins.ts";
import { summariseGaps } from "./summarise-gaps.ts";

/**
 * What you can ask about a machine now, and what is missing for the rest.
 *
 * @param document The document.
 */
export function gapsReport(document: HarnessDocument): GapsReport {
  const items = findGaps(document);
  return {
    kind: "gaps",
    machine: document.about.machine,
    summary: summariseGaps(document, items),
    items,
    joins: proposeJoins(document),
  };
}

/**
 * A report on gaps as plain text.
 *
 * @param report The report.
 * @param file The file as it is written on a command line, for the commands that are named.
 * @returns The text, with a line end at its end.
 */
export function writeGapsReport({ machine, summary, items, joins }: GapsReport, file: string): string {
  return safeLines([
    `${machine}: what you can ask now`,
    ...bullets(summary),
    ...items.flatMap(itemLines),
    ...section(
      `Wires with one end that may belong together (same signal and colour). Join those that are right: ohmward join ${file} J1 --by NAME --in-place`,
      columns(
        joins.map(({ id, points, as, evidence }) => [
          id,
          points.join(" - "),
          as === "splice" ? "in a splice" : "",
          evidence.join(", "),
        ]),
      ),
    ),
    ...section("Answer", items.length === 0 ? [] : bullets(commands(file))),
  ]);
}

function commands(file: string): readonly string[] {
  return [
    `ohmward answer ${file} CONNECTOR sealed=no permits=unplug,front-probe --by NAME --in-place [--alike: all of its shape]`,
    `ohmward answer ${file} machine access="5 min any" --by NAME --in-place`,
    `ohmward answer ${file} WIRE harmless=yes --by NAME --reason WHY --in-place, for a line that is not airbag and not high voltage`,
  ];
}

function itemLines({ about, sort, label, gaps, alike }: ItemGaps): readonly string[] {
  const name = label === about || sort === "machine" ? about : `${about} (${label})`;
  const same =
    alike.length === 0
      ? ""
      : `; the same shape: ${alike.slice(0, 6).join(", ")}${alike.length > 6 ? ` and ${alike.length - 6} more` : ""}`;
  return section(
    `${sort === "machine" ? "The machine" : `${sort} ${name}`}${same}`,
    columns(
      gaps.map(({ what, question, blocks, choices, enter }) => [
        choices.length > 0 || enter.startsWith("ohmward answer") ? what : "",
        question,
        `for ${blocks.join(", ")}`,
        choices.length > 0 ? choices.map(({ value }) => value).join(" | ") : enter,
      ]),
    ),
  );
}

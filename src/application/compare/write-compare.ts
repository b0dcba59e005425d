import { safeLines } from "../../base/index.ts";
import { csvBytes, writeCsv, type CellValue } from "../../import-export/index.ts";
import { columns } from "../text/columns.ts";
import { bullets, section } from "../text/frame.ts";
import type { CompareAnswer, ComparedChange } from "./compare-answer.ts";

/**
 * Writes what changed as plain text for people.
 *
 * @param answer The answer.
 * @returns The text, with a line end at its end.
 */
export function writeCompare({ text, before, after, groups, readings, notCompared }: CompareAnswer): string {
  const state = readings.state === undefined ? "" : ` in state ${readings.state}`;
  return safeLines([
    `What changed: ${text}`,
    `  before  ${named(before)}`,
    `  after   ${named(after)}`,
    ...groups.flatMap(({ part, connector, label, changes }) => {
      const id = connector ?? part;
      return section(id === undefined ? label : `${id} (${label})`, columns(changes.map(changeRow)));
    }),
    ...section(
      `Expected reading or test point differs${state}, DC voltage against the negative supply terminal`,
      columns(readings.differ.flatMap(readingRows)),
    ),
    ...section("Not compared", bullets(notCompared)),
  ]);
}

const HEADINGS = [
  "Component",
  "Connector",
  "Label",
  "Item",
  "Change",
  "Before",
  "After",
  "Field",
  "Value before",
  "Value after",
  "Found by",
  "Agreement",
  "Equivalent",
];

/**
 * Writes the changes as a CSV table, a row for each field that differs. Texts that look like formulas are guarded.
 *
 * @param answer The answer.
 * @returns UTF-8 with a byte order mark, as spreadsheets expect it.
 */
export function compareCsv({ groups }: CompareAnswer): Uint8Array {
  const rows = groups.flatMap(({ part, connector, label, changes }) =>
    changes.flatMap(({ item, what, before, after, fields, match, equivalent }) =>
      fields.map((field): readonly CellValue[] => [
        ...[part, connector, label, item, what, before, after, field.field],
        ...[cell(field.before), cell(field.after)],
        ...[match?.by, match?.agreement, [...equivalent.before, ...equivalent.after].join(" ")],
      ]),
    ),
  );
  return csvBytes(writeCsv([HEADINGS, ...rows]));
}

function cell(value: ComparedChange["fields"][number]["before"]): CellValue {
  return typeof value === "boolean" ? String(value) : value;
}

function named({ machine, revision, build }: CompareAnswer["before"]): string {
  const parts = [
    machine,
    revision === undefined ? "" : `revision ${revision}`,
    build === undefined ? "all builds" : `build ${build}`,
  ];
  return parts.filter((part) => part !== "").join(", ");
}

/**
 * A change in words: what happened, the sort of item, its id, the differences, and items that would do as well.
 *
 * @param change The change.
 */
export function changeRow({ item, what, before, after, fields, equivalent }: ComparedChange): readonly string[] {
  const id =
    before === undefined || after === undefined || before === after
      ? (after ?? before ?? "")
      : `${after} (${before} before)`;
  const others = [...equivalent.before, ...equivalent.after];
  const isWhole = what === "added" || what === "removed";
  const told = isWhole
    ? fields.filter(({ field }) => TOLD.has(field)).map(({ before: was, after: is }) => String(is ?? was))
    : fields.filter(({ field }) => field !== "id").map(({ text }) => text);
  return [what, item, id, told.join("; "), others.length === 0 ? "" : `equivalent: ${others.join(", ")}`];
}

/** What is worth a line of an item that came or went. */
const TOLD: ReadonlySet<string> = new Set(["label", "text", "colour", "ends", "failure", "part.number"]);

/**
 * What differs at a point in words: the point, `reads` or `test point`, and both sides.
 *
 * @param point The point.
 */
export function readingRows({
  before,
  after,
  reads,
  testPoint,
}: CompareAnswer["readings"]["differ"][number]): readonly (readonly string[])[] {
  const point = before === after ? after : `${after} (${before} before)`;
  return [
    ...(reads ? [[point, "reads", `${reads.after}; was ${reads.before}`]] : []),
    ...(testPoint ? [[point, "test point", `${testPoint.after} Was: ${testPoint.before}`]] : []),
  ];
}

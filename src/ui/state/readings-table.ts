import { bandOf, shortReading, type TableAnswer, type TableReading, type TableRow } from "../../application/index.ts";
import { KIND_WORDS } from "./readings.ts";
import { LEAD_NAMES, methodName, PROBE_CLASSES, roleWords } from "./words.ts";

/** A path of a table as it is written. */
export interface TableLegWords {
  readonly title: string;
  readonly rows: readonly TableRow[];
}

/** The paths of a table with their titles. */
export function tableLegs({ legs }: TableAnswer): readonly TableLegWords[] {
  return legs.map(({ serves, role, rows }) => ({ title: `${serves.id}: ${roleWords(role)}`, rows }));
}

/** What the meter shows, in few words: the value, or the sign and the words of what is none. */
export function expectedWords(reading: TableReading): string {
  if (reading.kind === "value") return shortReading(reading);
  const { sign } = KIND_WORDS[reading.kind];
  return `${sign} ${reading.kind === "floating" ? "floating, not 0 V" : shortReading(reading)}`;
}

/** The limits of the reading; empty where there are none. */
export function bandWords(reading: TableReading): string {
  return bandOf(reading);
}

/** How the red lead goes there, in few words; or why it may not. */
export function leadWords({ reach, access, text }: TableRow): string {
  if (!reach) return access === "unknown" ? "not known" : text;
  const mark = PROBE_CLASSES.get(reach.class)?.mark ?? "";
  const adapter = reach.adapter === undefined ? "" : `, ${reach.adapter}`;
  return `${mark} ${reach.class} ${methodName(reach.method)}${adapter}`;
}

/** The headline of a table. */
export function tableLine({ of, black, legs, faults }: TableAnswer): string {
  const points = new Set(legs.flatMap(({ rows }) => rows.map(({ point }) => point))).size;
  const faulty = faults.length > 0 ? "Faulty machine, " : "";
  return `${faulty}${of.id}: ${points} ${points === 1 ? "point" : "points"} of its circuits, against ${black}`;
}

/** The condition of every row: state and what differs from it. */
export function conditionLine(answer: TableAnswer, stateLabel: string): string {
  const { unplugged, adapters, settings, faults } = answer;
  const more = [
    ...unplugged.map((id) => `${id} disconnected`),
    ...adapters.map((id) => `${id} fitted`),
    ...settings.map((text) => text.replace("=", " = ")),
    ...(faults.length === 0
      ? []
      : [faults.length === 1 ? "1 fault switched on" : `${faults.length} faults switched on`]),
  ];
  return [stateLabel, ...more].join("; ");
}

/** A line of a printed table. */
export type PrintedLine =
  | { readonly kind: "title"; readonly title: string }
  | { readonly kind: "row"; readonly row: TableRow; readonly lead: string };

/** Lines that have room on the printed page. */
const MOST_LINES = 22;

/** The lines of a table as far as they have room on paper, and how many points are left out. */
export function printedRows(answer: TableAnswer): { readonly lines: readonly PrintedLine[]; readonly left: number } {
  const all = tableLegs(answer).flatMap(({ title, rows }): PrintedLine[] => [
    { kind: "title", title },
    ...rows.map((row): PrintedLine => ({ kind: "row", row, lead: printedLead(row, answer.black) })),
  ]);
  const lines = all.slice(0, MOST_LINES);
  return { lines, left: all.slice(MOST_LINES).filter(({ kind }) => kind === "row").length };
}

function printedLead(row: TableRow, black: string): string {
  if (row.point === black) return LEAD_NAMES.black;
  if (row.reach) return leadWords(row);
  const [near] = row.instead;
  if (near === undefined) return "✕ no permitted contact";
  return near.unplug === undefined
    ? `✕ not here; ${near.at} (${near.class})`
    : `✕ only with ${near.unplug} disconnected`;
}

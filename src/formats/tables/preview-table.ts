import { err, ok, type Result } from "../../base/index.ts";
import type { ReadProgress } from "../format-reader.ts";
import type { ImportProblem } from "../import-problem.ts";
import { recogniseFile } from "../recognise-file.ts";
import type { Delimiter } from "../csv/find-delimiter.ts";
import { findPossiblePairs } from "./connector-groups.ts";
import { headingWarnings } from "./find-headings.ts";
import { loadCsv, loadXlsx, type LoadedTable } from "./load-table.ts";
import { readColourText } from "./read-colour-text.ts";
import type { DecimalSign } from "../../base/index.ts";
import { knownEnds, showPoint, type WireEntry } from "./table-entries.ts";
import type { ProposedMapping, TableMapping } from "./table-mapping.ts";
import type { InlinePair, TableReadOptions } from "./table-options.ts";
import { understandTable, type UnderstoodTable } from "./understand-table.ts";

/** A colour code of a file: how often it comes, and how it is read, if it is. */
export interface ColourCode {
  readonly written: string;
  readonly count: number;
  readonly colour?: string;
}

/** One of the first rows of a table as understood, in words. */
export interface PreviewWire {
  readonly row: number;
  readonly wire: string;
  readonly from: string;
  readonly to: string;
  readonly facts: WireEntry["facts"];
}

/** How a table is understood, before anything is imported: what was found out, and what a person may want to change. */
export interface TablePreview {
  readonly format: "csv" | "xlsx";
  readonly encoding?: string;
  readonly delimiter?: Delimiter;
  readonly sheets?: readonly string[];
  readonly sheet?: string;
  readonly headingRow: number;
  readonly headings: readonly string[];
  /** The mapping in use: the one given, or the one proposed. */
  readonly mapping: TableMapping;
  readonly proposed: ProposedMapping;
  readonly decimal: DecimalSign | undefined;
  readonly endSeparator: string | undefined;
  /** The first rows below the headings, as cells. */
  readonly firstRows: readonly { readonly row: number; readonly cells: readonly string[] }[];
  /** The wires of the first rows, as understood. */
  readonly firstWires: readonly PreviewWire[];
  /** Colour codes of the whole table, most frequent first. */
  readonly colours: readonly ColourCode[];
  /** Connectors that may be the two halves of one. */
  readonly possiblePairs: readonly InlinePair[];
  readonly rowCount: number;
  readonly problems: readonly ImportProblem[];
}

const FIRST_ROWS = 20;

/**
 * Looks at a CSV or XLSX table and says how it would be read, in steps. Nothing is imported; whoever asks may change the mapping or any
 * other option and look again.
 *
 * @param bytes The file.
 * @param options What has been said so far.
 */
export function* previewTable(
  bytes: Uint8Array,
  options: TableReadOptions,
): Generator<ReadProgress, Result<TablePreview, readonly ImportProblem[]>, void> {
  const format = recogniseFile(bytes, options.fileName).kind === "csv" ? "csv" : "xlsx";
  const loaded = yield* format === "csv" ? loadCsv(bytes, options) : loadXlsx(bytes, options);
  if (!loaded.ok) return err(loaded.error);
  const { table, headings, warnings, encoding, delimiter, sheets } = loaded.value;
  const said = options.table ?? {};
  const understood = runToEnd(understandTable(loaded.value, said));
  return ok({
    format,
    ...(encoding === undefined ? {} : { encoding }),
    ...(delimiter === undefined ? {} : { delimiter }),
    ...(sheets === undefined ? {} : { sheets }),
    ...(table.sheet === undefined ? {} : { sheet: table.sheet }),
    headingRow: headings.row,
    headings: headings.texts,
    mapping: { shape: headings.mapping.shape, columns: headings.mapping.columns },
    proposed: headings.proposed,
    decimal: understood.decimal,
    endSeparator: understood.endSeparator,
    firstRows: table.rows.filter(({ row }) => row > headings.row).slice(0, FIRST_ROWS),
    firstWires: firstWires(loaded.value, options),
    colours: colourCodes(understood, options),
    possiblePairs: findPossiblePairs(pinsByName(understood)),
    rowCount: understood.records.length,
    problems: [...warnings, ...headingWarnings(table, headings), ...understood.problems],
  });
}

function firstWires(loaded: LoadedTable, options: TableReadOptions): readonly PreviewWire[] {
  const { entries } = runToEnd(understandTable(loaded, options.table ?? {}, FIRST_ROWS));
  return entries.wires.map(({ id, ends, facts, at }) => {
    return {
      row: at.row ?? 0,
      wire: id,
      from: showPoint(ends[0]),
      to: ends[1] ? showPoint(ends[1]) : "not in the table",
      facts,
    };
  });
}

function colourCodes(understood: UnderstoodTable, options: TableReadOptions): readonly ColourCode[] {
  const counts = new Map<string, number>();
  for (const record of understood.records) {
    const [base, tracer] = [record.text("colour"), record.text("tracer")];
    const text = tracer === "" ? base : `${base}/${tracer}`;
    if (text !== "") counts.set(text, (counts.get(text) ?? 0) + 1);
  }
  const sorted = [...counts].sort((first, second) => second[1] - first[1]);
  return sorted.map(([written, count]) => {
    const reading = readColourText(written, options.table?.colours ?? { kind: "iec-60757" });
    return { written, count, ...(reading.kind === "colour" ? { colour: reading.colour } : {}) };
  });
}

function pinsByName(understood: UnderstoodTable): ReadonlyMap<string, ReadonlySet<string>> {
  const pins = new Map<string, Set<string>>();
  for (const end of [
    ...understood.entries.pins.map((pin) => pin.point),
    ...understood.entries.wires.flatMap((wire) => knownEnds(wire.ends)),
  ]) {
    if (end.kind !== "contact" || end.half !== "") continue;
    const name = end.connector === "" ? end.component : end.connector;
    pins.set(name, (pins.get(name) ?? new Set()).add(end.pin));
  }
  return pins;
}

function runToEnd<Answer>(work: Generator<number, Answer, void>): Answer {
  for (;;) {
    const step = work.next();
    if (step.done === true) return step.value;
  }
}

import { importProblem } from "../import-problem.ts";
import { endTextOf, type EndPoint, type EndText } from "./end-text.ts";
import { ROWS_A_STEP, type EntryContext, type EntryReading } from "./entry-context.ts";
import type { RowRecord } from "./row-records.ts";
import { endsText, showPoint, type EntryEnds, type WireEntry } from "./table-entries.ts";
import { readWireFacts } from "./wire-facts.ts";

/**
 * Reads a table with a row for each wire. A wire that is given twice with the same ends counts once; one of which the row names one end
 * only is kept with its far end open.
 */
export function* entriesOfWireRows(records: readonly RowRecord[], context: EntryContext): EntryReading {
  const wires: WireEntry[] = [];
  const known = new Map<string, { readonly ends: string; readonly row: number }>();
  for (const [number, record] of records.entries()) {
    if (number % ROWS_A_STEP === ROWS_A_STEP - 1) yield number / records.length;
    const id = record.text("wire");
    const ends = endsOf(record, context);
    if (!ends) continue;
    const before = id === "" ? undefined : known.get(id);
    if (before) {
      if (before.ends !== endsText(ends)) {
        context.report(importProblem("wire-twice", record.at("wire"), { wire: id, row: String(before.row) }));
      }
      continue;
    }
    if (!ends[1]) {
      const facts = { wire: id || `of row ${record.row}`, pin: showPoint(ends[0]) };
      context.report(importProblem("wire-one-end", record.at(), facts));
    }
    known.set(id, { ends: endsText(ends), row: record.row });
    const facts = readWireFacts(record, context);
    wires.push({ id, ends, facts, netKind: record.text("netKind"), at: record.at() });
  }
  return { wires, pins: [] };
}

/** The ends that a row names; undefined where it names none, or one that cannot be read. */
function endsOf(record: RowRecord, context: EntryContext): EntryEnds | undefined {
  const texts = (["from", "to"] as const).flatMap((side) => endTextOf(record, side, context.endSeparator) ?? []);
  if (texts.length === 0) {
    context.report(importProblem("end-missing", record.at(), { wire: record.text("wire") || `of row ${record.row}` }));
    return undefined;
  }
  const points = texts.map((text) => pointOf(text, record, context));
  const [first, second] = points;
  return first && points.every((point) => point !== undefined) ? [first, second] : undefined;
}

function pointOf(text: EndText, record: RowRecord, context: EntryContext): EndPoint | undefined {
  const point = context.namer.point(text, record.at());
  if (!point.ok) context.report(point.error);
  return point.ok ? point.value : undefined;
}

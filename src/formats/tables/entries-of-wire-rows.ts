import { importProblem } from "../import-problem.ts";
import { endTextOf, type EndPoint, type EndSide } from "./end-text.ts";
import { ROWS_A_STEP, type EntryContext, type EntryReading } from "./entry-context.ts";
import type { RowRecord } from "./row-records.ts";
import { endsText, type WireEntry } from "./table-entries.ts";
import { readWireFacts } from "./wire-facts.ts";

/** Reads a table with a row for each wire. A wire that is given twice with the same ends counts once. */
export function* entriesOfWireRows(records: readonly RowRecord[], context: EntryContext): EntryReading {
  const wires: WireEntry[] = [];
  const known = new Map<string, { readonly ends: string; readonly row: number }>();
  for (const [number, record] of records.entries()) {
    if (number % ROWS_A_STEP === ROWS_A_STEP - 1) yield number / records.length;
    const id = record.text("wire");
    const [from, to] = [endOf(record, "from", context), endOf(record, "to", context)];
    if (!from || !to) continue;
    const ends: readonly [EndPoint, EndPoint] = [from, to];
    const before = id === "" ? undefined : known.get(id);
    if (before) {
      if (before.ends !== endsText(ends)) {
        context.report(importProblem("wire-twice", record.at("wire"), { wire: id, row: String(before.row) }));
      }
      continue;
    }
    known.set(id, { ends: endsText(ends), row: record.row });
    const facts = readWireFacts(record, context);
    wires.push({ id, ends, facts, netKind: record.text("netKind"), at: record.at() });
  }
  return { wires, pins: [] };
}

function endOf(record: RowRecord, side: EndSide, context: EntryContext): EndPoint | undefined {
  const text = endTextOf(record, side, context.endSeparator);
  if (!text) {
    const facts = { wire: record.text("wire") || `of row ${record.row}`, end: side === "from" ? "first" : "other" };
    context.report(importProblem("end-missing", record.at(), facts));
    return undefined;
  }
  const point = context.namer.point(text, record.at());
  if (!point.ok) context.report(point.error);
  return point.ok ? point.value : undefined;
}

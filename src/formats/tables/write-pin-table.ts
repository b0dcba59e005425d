import {
  fitBuild,
  makeFitting,
  pointKey,
  type AddressBook,
  type HarnessDocument,
  type Wire,
} from "../../model/index.ts";
import { writeCsv, type CellValue } from "../csv/write-csv.ts";
import type { ImportProblem } from "../import-problem.ts";
import { writeWorkbook } from "../xlsx/write-workbook.ts";
import type { TableShape } from "./columns.ts";
import { tableLosses } from "./table-losses.ts";
import { endCells, layOutRows, wireCells, wireEnds, type RowCells } from "./write-rows.ts";

/** What is to be written as a plain table. */
export interface WriteTableOptions {
  readonly shape: TableShape;
  /** Only what is fitted in this build, without an option column; absent means everything, with its options. */
  readonly build?: string;
}

/** A plain table ready to be saved, and what it could not hold. */
export interface WrittenTable<Content> {
  readonly content: Content;
  readonly problems: readonly ImportProblem[];
}

/**
 * Lays a harness out as one plain table: a row for each pin, or a row for each wire. It holds contacts, wires, splices and studs with
 * their options; what it cannot hold is listed.
 *
 * @param document A checked document.
 * @param options Which shape, and which build if not all.
 * @returns The rows, headings first.
 * @throws RangeError if there is no such build.
 */
export function tableRows(
  document: HarnessDocument,
  options: WriteTableOptions,
): WrittenTable<readonly (readonly CellValue[])[]> {
  const build = document.builds.find((each) => options.build === undefined || each.id === options.build);
  const harness = build && fitBuild(document, build.id);
  if (!harness) throw new RangeError(`There is no build "${options.build ?? ""}"`);
  const isFitted = makeFitting(harness.build);
  const isWanted = (when: string | undefined): boolean => options.build === undefined || isFitted(when);
  const wires = document.wires.filter((wire) => isWanted(wire.when));
  const context: RowContext = {
    document,
    book: harness.book,
    wires,
    isWanted,
    hidesOptions: options.build !== undefined,
  };
  const rows = options.shape === "wire" ? wireRows(context) : pinRows(context);
  return { content: layOutRows(options.shape, rows), problems: tableLosses(document) };
}

/** Writes a harness as one plain CSV table; see `tableRows`. */
export function writeTableCsv(document: HarnessDocument, options: WriteTableOptions): WrittenTable<string> {
  const { content, problems } = tableRows(document, options);
  return { content: writeCsv(content), problems };
}

/** Writes a harness as one plain table in a workbook; see `tableRows`. */
export function writeTableXlsx(document: HarnessDocument, options: WriteTableOptions): WrittenTable<Uint8Array> {
  const { content, problems } = tableRows(document, options);
  const name = options.shape === "wire" ? "Wires" : "Pins";
  return { content: writeWorkbook([{ name, rows: content }]), problems };
}

interface RowContext {
  readonly document: HarnessDocument;
  readonly book: AddressBook;
  readonly wires: readonly Wire[];
  readonly isWanted: (when: string | undefined) => boolean;
  readonly hidesOptions: boolean;
}

function factsOf(context: RowContext): (wire: Wire) => RowCells {
  const nets = new Map(context.document.nets.map((net) => [net.id, net]));
  return (wire) => {
    const cells = new Map(wireCells(wire, nets));
    if (context.hidesOptions) cells.delete("option");
    return cells;
  };
}

function wireRows(context: RowContext): readonly RowCells[] {
  const facts = factsOf(context);
  return context.wires.map((wire) => {
    const [from, to] = wireEnds(context.book, wire);
    return new Map([...facts(wire), ...endCells(from, "from"), ...endCells(to, "to")]);
  });
}

function pinRows(context: RowContext): readonly RowCells[] {
  const { document, book, wires, isWanted } = context;
  const facts = factsOf(context);
  const rowsAt = new Map<string, RowCells[]>();
  const loose: RowCells[] = [];
  for (const wire of wires) {
    const [from, to] = wireEnds(book, wire);
    const rows = [
      [from, to],
      [to, from],
    ] as const;
    const atPins = rows.filter(([own]) => own.kind === "contact");
    // A wire between splices or studs has no pin; it gets a row under its first end.
    for (const [own, other] of atPins.length > 0 ? atPins : rows.slice(0, 1)) {
      const row = new Map([...endCells(own, "own"), ...facts(wire), ...endCells(other, "to")]);
      if (own.kind !== "contact") loose.push(row);
      else rowsAt.set(pointKey(own), [...(rowsAt.get(pointKey(own)) ?? []), row]);
    }
  }
  const pins: RowCells[] = [];
  for (const connector of document.connectors) {
    if (!isWanted(connector.when)) continue;
    for (const half of connector.halves) {
      if (!isWanted(half.when)) continue;
      for (const cavity of connector.cavities) {
        const point = { kind: "contact", connector, half, cavity } as const;
        const rows = rowsAt.get(pointKey(point)) ?? [];
        const isThere = half.id !== "device" && half.cavities?.includes(cavity.id) !== false;
        if (rows.length === 0 && !isThere) continue;
        const own = new Map<"function" | "terminalSize", CellValue>();
        if (cavity.note !== undefined) own.set("function", cavity.note);
        if (cavity.terminalMm !== undefined) own.set("terminalSize", cavity.terminalMm);
        for (const row of rows.length > 0 ? rows : [endCells(point, "own")]) pins.push(new Map([...row, ...own]));
      }
    }
  }
  return [...pins, ...loose];
}

import { addTo, defined } from "../../base/index.ts";
import type { ImportProblem } from "../import-problem.ts";
import type { ImportProblemCode } from "../import-problem-texts.ts";
import type { ColumnField } from "./columns.ts";
import { placeKey } from "./repair-tables.ts";
import type { ReadBlock } from "./table-rows.ts";
import type { Table, TableRow } from "./table.ts";
import type { UnderstoodTables } from "./understand-tables.ts";

/** What keeps a row or one of its cells from being read. */
export interface RowFault {
  readonly message: string;
  readonly hint: string;
  /** Positions from 1 of the cells it is about; several where their headings are equal. */
  readonly columns: readonly number[];
  /** What the first of these cells may be meant to hold; for a person to confirm. */
  readonly proposal?: string;
}

/** A row that was not read, or not wholly, as it stands in the file with all repairs. */
export interface FaultyRow {
  readonly sheet?: string;
  readonly row: number;
  /** Heading of each cell; empty where there is none. */
  readonly headings: readonly string[];
  readonly cells: readonly string[];
  readonly faults: readonly RowFault[];
}

/** Problems that leave a row or a cell unread. */
const UNREAD: ReadonlySet<string> = new Set<ImportProblemCode>([
  ...(["row-too-long", "row-ignored", "end-missing", "pin-missing", "connector-missing", "component-missing"] as const),
  ...(["end-type-unknown", "wire-joins-itself", "pin-several", "net-missing", "number-impossible"] as const),
  ...(["number-unreadable", "number-ambiguous", "colour-unknown", "option-unclear", "net-kind-unknown"] as const),
]);

/** Rows above in which a text is looked for. */
const MOST_ABOVE = 20;
/** Where the text of the row above is proposed for an empty cell. */
const FROM_ABOVE: Readonly<Record<string, ColumnField>> = { "net-missing": "net", "connector-missing": "connector" };

/** The columns that a problem with a whole row is about; the empty ones of them where there are any. */
const ABOUT: Readonly<Record<string, RegExp>> = {
  "pin-missing": /^(?:pin|point|fromPin|toPin|from|to)$/u,
  "connector-missing": /^(?:connector|fromConnector|toConnector)$/u,
  "component-missing": /^(?:component|fromComponent|toComponent)$/u,
  "end-missing": /^(?:ends|from|to|(?:from|to)(?:Component|Connector|Pin))$/u,
  "wire-joins-itself": /^(?:ends|from|to|(?:from|to)(?:Component|Connector|Pin))$/u,
};

/**
 * The rows of a file that were not read, or not wholly, in the order of the file, for a person to repair. Codes of colours that one question
 * about the file answers are left to the question.
 *
 * @param tables The tables as they were read.
 * @param understood What they say.
 */
export function faultyRows(
  tables: readonly Table[],
  { blocks, problems, proposals }: Pick<UnderstoodTables, "blocks" | "problems" | "proposals">,
): readonly FaultyRow[] {
  const isAsked = proposals.some(({ kind, isAccepted }) => kind === "colour-codes" && !isAccepted);
  const own = problems.filter(({ code }) => UNREAD.has(code) && !(isAsked && code === "colour-unknown"));
  const byRow = new Map<string, ImportProblem[]>();
  for (const problem of own) addTo(byRow, placeKey(problem.at.sheet, problem.at.row ?? 0), problem);
  if (byRow.size === 0) return [];
  const places = new Map<string, Place[]>();
  for (const { block, columns } of blocks)
    for (const [at, { row }] of block.rows.entries())
      addTo(places, placeKey(block.table.sheet, row), { block, columns, at });
  return tables.flatMap((table) =>
    table.rows.flatMap((row): readonly FaultyRow[] => {
      const key = placeKey(table.sheet, row.row);
      const [first, ...more] = byRow.get(key) ?? [];
      if (!first) return [];
      const all = places.get(key) ?? nextAbove(blocks, table, row);
      // A matrix is read turned: its columns are not those of the file.
      const own = all.filter(({ block }) => block.table === table);
      const head = all[0]?.block.headingRow;
      const written = head === undefined ? [] : (table.rows.find((each) => each.row === head)?.cells ?? []);
      const headings = Array.from({ length: Math.max(row.cells.length, written.length) }, (_, column) => {
        const texts = [...own.map(({ block }) => block.headings[column]), written[column]];
        return texts.find((text) => text !== undefined && text.trim() !== "")?.trim() ?? "";
      });
      const faults = [first, ...more].map((problem) => faultOf(problem, { row, own, headings }));
      return [{ ...defined({ sheet: table.sheet }), row: row.row, headings, cells: row.cells, faults }];
    }),
  );
}

/** The table above a line that is no row of any. */
function nextAbove(blocks: readonly ReadBlock[], table: Table, { row }: TableRow): readonly Place[] {
  const above = blocks.findLast(({ block }) => block.table === table && (block.headingRow ?? 0) < row);
  return above ? [{ block: above.block, columns: above.columns, at: above.block.rows.length }] : [];
}

/** Where a row stands in a table. */
interface Place extends Pick<ReadBlock, "block" | "columns"> {
  readonly at: number;
}

interface Around {
  readonly row: TableRow;
  readonly own: readonly Place[];
  readonly headings: readonly string[];
}

function faultOf({ code, message, hint, at }: ImportProblem, { row, own, headings }: Around): RowFault {
  const field = FROM_ABOVE[code];
  const place = own.find(({ columns }) => field !== undefined && columns.has(field));
  const column = field && place?.columns.get(field)?.column;
  if (place && column !== undefined) {
    const above = place.block.rows.slice(Math.max(0, place.at - MOST_ABOVE), place.at);
    const texts = above.map(({ cells }) => cells[column]?.trim() ?? "");
    return { message, hint, columns: [column + 1], ...defined({ proposal: texts.findLast((text) => text !== "") }) };
  }
  const cellOf = (position: number): string => row.cells[position - 1]?.trim() ?? "";
  const named = headings.flatMap((text, position) => (text === at.column ? [position + 1] : []));
  const about = own.flatMap(({ columns }) =>
    [...columns].flatMap(([name, each]) => (ABOUT[code]?.test(name) === true ? [each.column + 1] : [])),
  );
  const empty = about.filter((position) => cellOf(position) === "");
  const columns = named.length > 0 ? named : empty.length > 0 ? empty : about;
  const text = cellOf(columns[0] ?? 0);
  const proposal = code === "number-unreadable" ? numberMeant(text) : undefined;
  return { message, hint, columns, ...defined({ proposal }) };
}

/** A number in which letters stand for the digits that look like them; undefined where more than that is wrong. */
function numberMeant(text: string): string | undefined {
  const meant = text.replace(/[oO]/gu, "0").replace(/[lI|]/gu, "1");
  return meant !== text && /^\d+(?:[.,]\d+)?$/u.test(meant) ? meant : undefined;
}

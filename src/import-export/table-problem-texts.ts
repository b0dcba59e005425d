import { error, warning } from "./problem-text.ts";

/** Problems of reading and writing pin tables: first of the table as such, then of its rows. */
export const tableProblemTexts = {
  "quote-open": error(
    (f: { line: number }) => `A quoted cell that starts in line ${f.line} has no closing quote`,
    "Add the closing quote. If a quote belongs to the text, write it twice",
  ),
  "quote-stray": error(
    (f: { line: number }) => `There is text after the closing quote of a cell that starts in line ${f.line}`,
    "If the quotes belong to the text, write them twice. Else remove them",
  ),
  "delimiter-mixed": error(
    (f: { used: string; other: string }) => `The table is separated by ${f.used}, this row by ${f.other}`,
    "Use one separator in the whole file",
  ),
  "too-many-columns": error(
    (f: { columns: number; limit: number }) => `A row has ${f.columns} cells; the limit is ${f.limit}`,
    "Delete columns that do not belong to the table, or choose the right separator",
  ),
  "too-many-rows": error(
    (f: { limit: number }) => `The table has more than ${f.limit} rows`,
    "Split the machine into several files",
  ),
  "cell-too-long": error(
    (f: { length: number; limit: number }) => `A cell has ${f.length} characters; the limit is ${f.limit}`,
    "Look for a quote that is missing or too many. It joins many cells into one",
  ),
  "xlsx-broken": error(
    (f: { reason: string }) => `The workbook cannot be read: ${f.reason}`,
    "Open it in a spreadsheet program and save it again as XLSX",
  ),
  "sheet-unknown": error(
    (f: { sheet: string; sheets: string }) => `There is no sheet "${f.sheet}"; the workbook has ${f.sheets}`,
    "Choose one of the sheets",
  ),
  "cell-is-formula": warning(
    (f: { count: number }) => `${f.count} cell(s) have a formula. The last calculated value is used`,
    "If the values may be out of date, replace the formulas by values",
  ),
  "formula-without-value": warning(
    (f: { count: number }) => `${f.count} cell(s) have a formula that was never calculated. They count as empty`,
    "Open the workbook in a spreadsheet program, calculate it and save it",
  ),
  "cell-is-date": warning(
    (f: { count: number }) => `${f.count} cell(s) have a date. They count as empty`,
    "Spreadsheets change entries such as 1-2 into dates. Format the column as text and enter them again",
  ),
  "cell-is-error": warning(
    (f: { count: number }) => `${f.count} cell(s) have an error value. They count as empty`,
    "Correct the formula in the spreadsheet",
  ),
  "cells-merged": warning(
    (f: { cells: number }) => `${f.cells} cell(s) in merged ranges have the text of the first cell of their range`,
    "Check in the preview that this is right",
  ),
  "table-no-rows": error(
    (f: { headings: number }) => `The table has ${f.headings} headings and no row below them`,
    "Choose the sheet or file with the data",
  ),
  "headings-unknown": error(
    (f: { missing: string }) => `No row of headings was found. Needed are columns for ${f.missing}`,
    "Choose the row of the headings and the column meanings, or start from the template",
  ),
  "no-row-read": error(
    (f: { rows: number }) => `None of ${f.rows} row(s) could be read`,
    "Correct the rows as listed, or choose the column meanings by hand",
  ),
  "heading-twice": warning(
    (f: { heading: string; columns: string }) => `Columns ${f.columns} have the same heading "${f.heading}"`,
    "Check in the preview which of them is used",
  ),
  "column-unmapped": warning(
    (f: { headings: string }) => `Columns not used: ${f.headings}`,
    "If you need them, set their column meanings by hand",
  ),
  "mapping-wrong": error(
    (f: { reason: string }) => `The column meanings do not fit the table: ${f.reason}`,
    "Find the column meanings again and change them where needed",
  ),
  // Problems of single rows and cells of a pin table, and of what a plain table cannot hold when one is written.
  "row-too-long": warning(
    (f: { cells: number; headings: number }) => `The row has ${f.cells} cells, the heading row ${f.headings}`,
    "Cells after the last heading are not read. Check whether a text with a comma has its quotes",
  ),
  "pin-missing": warning(
    (f: { connector: string }) => `The row names connector "${f.connector}" and no pin`,
    "Enter the pin. For a splice or ground point, enter it in the type column or by the beginning of its name",
  ),
  "connector-missing": warning(
    (f: { pin: string }) => `The row names pin "${f.pin}" and no connector`,
    "Enter the connector in every row. Only merged cells of a workbook are filled in",
  ),
  "component-missing": warning(
    (f: { connector: string; owners: string }) =>
      `Connector "${f.connector}" is named without its component, and several have one of that name: ${f.owners}`,
    "Name the component too, or use unique connector ids such as A1.X1",
  ),
  "end-missing": warning(
    (f: { wire: string }) => `Wire "${f.wire}" has no end`,
    "The row is kept as a note. Enter at least one end. A wire with one end is kept, and its far end is open",
  ),
  "end-type-unknown": warning(
    (f: { text: string }) => `"${f.text}" is not a type of wire end`,
    "Use connector, splice, ground, supply or stud",
  ),
  "wire-one-end": warning(
    (f: { wire: string; pin: string; reason: string }) =>
      `Far end of wire "${f.wire}" (${f.pin}) ${f.reason === "" ? "not in the table" : `is "${f.reason}", which names no point`}. The wire is kept with one end`,
    "Add the far end to the table if you know it, or confirm the joins by signal and colour: ohmward join FILE",
  ),
  "far-ends-absent": warning(
    (f: { wires: number }) => `The far ends of ${f.wires} wire(s) are not in the table. They are kept with one end`,
    "If the same signals are on several connectors, confirm the joins: --accept same-signal, or ohmward join FILE",
  ),
  "wire-joins-itself": warning(
    (f: { at: string }) => `Both ends of the wire are at ${f.at}. The row is kept as a note`,
    "Correct the end that is wrong",
  ),
  "splice-one-wire": warning(
    (f: { splice: string }) => `One wire only goes to splice "${f.splice}". It is entered as a terminal stud`,
    "Add the other wires of the splice",
  ),
  "pin-odd": warning(
    (f: { pin: string }) => `Pin "${f.pin}" looks unlike the other pins of the table. It is kept as written`,
    "Compare it with the connector. Correct it if it is a slip",
  ),
  "side-unclear": warning(
    (f: { terminals: number }) =>
      `${f.terminals} terminal(s) have two wires and one colour or size, which may be that of either. It is kept as a note`,
    "Put the colour and size next to the column of their far end",
  ),
  "terminals-one-sided": warning(
    (f: { terminals: number }) => `${f.terminals} terminal(s) have a wire on one of their two sides only`,
    "Add the other far end if there is one",
  ),
  "pin-several": warning(
    (f: { text: string }) => `"${f.text}" names several pins. The end is not read`,
    "Give each pin a row of its own",
  ),
  "pins-not-given": warning(
    (f: { names: string }) =>
      `Several wires end at these without a pin: ${f.names}. Each has a contact of its own there, pin not known`,
    "Add the pins. If each is one point where its wires meet, confirm it: --accept one-point",
  ),
  "net-missing": warning(
    (_: object) => "The row gives a point and no net. The point is kept without a net",
    "Enter the name of the net",
  ),
  "net-one-point": warning(
    (f: { net: string; points: number }) =>
      f.points === 1
        ? `Net "${f.net}" has one point`
        : `Net "${f.net}" is no name of a net. Its ${f.points} points are left apart`,
    "Add the other points of the net, or leave it as it is",
  ),
  "colours-differ": warning(
    (f: { net: string; colours: string }) =>
      `"${f.net}" has the colours ${f.colours} on different connectors. They are not proposed as one net`,
    "If it is one net, enter the wire with both its ends",
  ),
  "row-ignored": warning(
    (f: { text: string }) => `"${f.text}" is no row of the table. It is kept as a note`,
    "If it is a wire or a pin, fill in its other cells",
  ),
  "repair-lost": warning(
    (_: object) => "A repair is for this row, which is not in the table",
    "Check that the repairs belong to this file",
  ),
  "read-as": warning(
    (f: { text: string }) => `Read as: ${f.text}`,
    "Check this in the preview. Correct the table if it is wrong",
  ),
  "notes-cut": warning(
    (f: { kept: number; notes: number }) => `${f.kept} of ${f.notes} remarks are kept`,
    "Correct the rows that could not be read. Import again",
  ),
  "number-impossible": warning(
    (f: { text: string; what: string; least: number; most: number }) =>
      `"${f.text}" is not possible. ${f.what} is ${f.least} to ${f.most} mm or mm². It is left out`,
    "Correct the number or its unit",
  ),
  "wire-many-ends": warning(
    (f: { wire: string; rows: string }) => `Wire "${f.wire}" has more than two ends: rows ${f.rows}`,
    "Each row keeps a wire of its own. If wires are joined there, give each its own id. Name the splice",
  ),
  "wire-rows-differ": warning(
    (f: { wire: string; what: string; first: string; second: string }) =>
      `Rows of wire "${f.wire}" give its ${f.what} as "${f.first}" and "${f.second}". The first is used`,
    "Give the same values in all rows of one wire",
  ),
  "wire-twice": warning(
    (f: { wire: string; row: string }) => `Wire "${f.wire}" was given in row ${f.row} already, with other ends`,
    "Give each wire its own id",
  ),
  "colour-unknown": warning(
    (f: { text: string; part: string }) => `"${f.part}" is no colour code of this file. "${f.text}" was not read`,
    "Say what the colour codes of the file mean. The same letters differ between makers",
  ),
  "colour-scheme-assumed": warning(
    (f: { colours: number }) =>
      `${f.colours} colour(s) were read as colour codes (IEC 60757). The file does not say so`,
    "If that is right, confirm it when you import. If not, say what the codes mean",
  ),
  "unit-missing": warning(
    (f: { column: string; count: number }) => `"${f.column}" has no unit; ${f.count} value(s) were not read`,
    "Write the unit in the heading, such as mm² or AWG, or choose it with the column meaning",
  ),
  "number-unreadable": warning(
    (f: { text: string; what: string }) => `"${f.text}" is no ${f.what}`,
    "Give a number, with its unit if the heading has none",
  ),
  "number-ambiguous": warning(
    (f: { text: string }) => `"${f.text}" can have decimals or thousands. It was not read`,
    "Choose the decimal sign of this file",
  ),
  "option-unclear": warning(
    (f: { text: string }) => `The options "${f.text}" are not joined by & or |`,
    "Write & (and), | (or), ! (not): A & !B",
  ),
  "net-kind-unknown": warning(
    (f: { text: string }) => `"${f.text}" is no kind of net. It was not read`,
    "The kinds are listed in docs/formats.md",
  ),
  "points-assumed": warning(
    (f: { sort: string; names: string }) => `Assumed to be ${f.sort} from their names: ${f.names}`,
    "Confirm the beginning of splice and ground names in this file",
  ),
  "inline-possible": warning(
    (f: { first: string; second: string }) =>
      `"${f.first}" and "${f.second}" may be the two sides of one inline connector. They stay separate`,
    "Confirm the pair when you import, or add a column with the mating connector",
  ),
  "mate-differs": warning(
    (f: { connector: string; first: string; second: string }) =>
      `"${f.connector}" mates with "${f.first}" and with "${f.second}" in the data`,
    "Give each connector one mate. Alternatives need their own option on every wire",
  ),
  "half-option-assumed": warning(
    (f: { side: string; option: string }) => `Side "${f.side}" has the option of all its wires, "${f.option}"`,
    "Check that this side is fitted in those builds only",
  ),
  "export-loses": warning(
    (f: { what: string; count: number }) => `A plain table does not save ${f.what} (${f.count})`,
    "To keep all data, write the full set of tables or the harness document",
  ),
  "set-table-unknown": warning(
    (f: { table: string }) => `"${f.table}" is no table of a set. It was not read`,
    "Compare the name with docs/formats.md",
  ),
  "set-column-unknown": warning(
    (f: { table: string; column: string }) => `Table "${f.table}" has no column "${f.column}". It was not read`,
    "Compare the heading with docs/formats.md",
  ),
  "set-table-missing": error(
    (f: { table: string }) => `The set has no table "${f.table}"`,
    "Add the table. Export a set to see an example",
  ),
  "set-value-wrong": error(
    (f: { text: string; wanted: string }) => `"${f.text}" is wrong here. It must be ${f.wanted}`,
    "Correct the cell",
  ),
  "set-owner-unknown": error(
    (f: { table: string; owner: string }) => `Table "${f.table}" names "${f.owner}", which is in no other table`,
    "Correct the id in the first column, or add the item it names",
  ),
};

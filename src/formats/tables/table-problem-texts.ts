/** Problems of single rows and cells of a pin table, and of what a plain table cannot hold when one is written. */
const rowProblemTexts = {
  "row-too-long": {
    severity: "warning",
    message: (f: { cells: number; headings: number }) => `The row has ${f.cells} cells, the heading row ${f.headings}`,
    hint: "What stands beyond the last heading is not read; a text with a comma may lack its quotes",
  },
  "pin-missing": {
    severity: "error",
    message: (f: { connector: string }) => `The row names connector "${f.connector}" and no pin`,
    hint: "Enter the pin; for a splice or ground point say so in the type column, or by how its name begins",
  },
  "connector-missing": {
    severity: "error",
    message: (f: { pin: string }) => `The row names pin "${f.pin}" and no connector`,
    hint: "Enter the connector in every row; only merged cells of a workbook are filled in",
  },
  "component-missing": {
    severity: "error",
    message: (f: { connector: string; owners: string }) =>
      `Connector "${f.connector}" is named without its component, and several have one of that name: ${f.owners}`,
    hint: "Name the component as well, or use connector ids that are unique, such as A1.X1",
  },
  "end-missing": {
    severity: "error",
    message: (f: { wire: string }) => `Wire "${f.wire}" has no end`,
    hint: "Enter at least one end; a wire with one end is kept, with its far end open",
  },
  "end-unclear": {
    severity: "error",
    message: (f: { text: string }) =>
      `It is not clear what "${f.text}" is: no pin is given, and it is not known as splice or ground`,
    hint: "Add the pin, say what it is in the type column, or name the beginning of splice and ground names",
  },
  "end-type-unknown": {
    severity: "error",
    message: (f: { text: string }) => `"${f.text}" is no type of end`,
    hint: "Types are connector, splice, ground, supply and stud",
  },
  "wire-one-end": {
    severity: "warning",
    message: (f: { wire: string; pin: string }) =>
      `Only one end of wire "${f.wire}" is in the table (${f.pin}); it is kept, its far end is not known`,
    hint: "Add the other end to the table, or confirm the joins proposed by signal and colour: ohmward join FILE",
  },
  "wire-many-ends": {
    severity: "error",
    message: (f: { wire: string; rows: string }) => `Wire "${f.wire}" has more than two ends: rows ${f.rows}`,
    hint: "If wires are joined there, give each its own id and name the splice",
  },
  "wire-rows-differ": {
    severity: "warning",
    message: (f: { wire: string; what: string; first: string; second: string }) =>
      `Rows of wire "${f.wire}" give its ${f.what} as "${f.first}" and "${f.second}"; the first was taken`,
    hint: "Make the rows of one wire agree",
  },
  "wire-twice": {
    severity: "error",
    message: (f: { wire: string; row: string }) =>
      `Wire "${f.wire}" was given in row ${f.row} already, with other ends`,
    hint: "Give each wire its own id",
  },
  "colour-unknown": {
    severity: "warning",
    message: (f: { text: string; part: string }) =>
      `"${f.part}" is no colour of the scheme of this file, so "${f.text}" was not read`,
    hint: "Say what the colour codes of the file mean; they are never guessed, as the same letters differ between makers",
  },
  "colour-scheme-assumed": {
    severity: "warning",
    message: (f: { colours: number }) =>
      `${f.colours} colour(s) were read as codes of IEC 60757, which the file does not state`,
    hint: "Say so when importing if that is right; if it is not, say what the codes mean",
  },
  "unit-missing": {
    severity: "warning",
    message: (f: { column: string; count: number }) => `"${f.column}" has no unit; ${f.count} value(s) were not read`,
    hint: "Write the unit into the heading, such as mm² or AWG, or choose it in the mapping",
  },
  "number-unreadable": {
    severity: "warning",
    message: (f: { text: string; what: string }) => `"${f.text}" is no ${f.what}`,
    hint: "Give a number, with its unit if the heading has none",
  },
  "number-ambiguous": {
    severity: "warning",
    message: (f: { text: string }) => `"${f.text}" can be read with decimals or with thousands; it was not read`,
    hint: "Say which sign stands before the decimals in this file",
  },
  "option-unclear": {
    severity: "error",
    message: (f: { text: string }) => `It is not clear how the options "${f.text}" are joined`,
    hint: "Write & for and, | for or, ! for not: A & !B",
  },
  "net-kind-unknown": {
    severity: "warning",
    message: (f: { text: string }) => `"${f.text}" is no kind of net; it was not read`,
    hint: "The kinds are listed in docs/formats.md",
  },
  "points-assumed": {
    severity: "warning",
    message: (f: { sort: string; names: string }) => `Taken for ${f.sort} because of how they are named: ${f.names}`,
    hint: "Confirm how names of splices and ground points begin in this file",
  },
  "inline-possible": {
    severity: "warning",
    message: (f: { first: string; second: string }) =>
      `"${f.first}" and "${f.second}" may be the halves of one inline connector; they were left apart`,
    hint: "Confirm the pair when importing, or add a column that names the mating connector",
  },
  "mate-differs": {
    severity: "error",
    message: (f: { connector: string; first: string; second: string }) =>
      `"${f.connector}" is said to mate with "${f.first}" and with "${f.second}"`,
    hint: "Give each connector one mate; alternatives need an option of their own on every wire",
  },
  "half-option-assumed": {
    severity: "warning",
    message: (f: { half: string; option: string }) =>
      `Half "${f.half}" was given the option of all its wires, "${f.option}"`,
    hint: "Check that the half is fitted in just those builds",
  },
  "export-loses": {
    severity: "warning",
    message: (f: { what: string; count: number }) =>
      `A plain table cannot hold ${f.what} (${f.count}); they are left out`,
    hint: "Write the full set of tables, or the harness document, to keep everything",
  },
  "set-table-unknown": {
    severity: "warning",
    message: (f: { table: string }) => `"${f.table}" is none of the tables of a set; it was not read`,
    hint: "Compare the name with docs/formats.md",
  },
  "set-column-unknown": {
    severity: "warning",
    message: (f: { table: string; column: string }) =>
      `Table "${f.table}" has no column "${f.column}"; it was not read`,
    hint: "Compare the heading with docs/formats.md",
  },
  "set-table-missing": {
    severity: "error",
    message: (f: { table: string }) => `The set has no table "${f.table}"`,
    hint: "A set needs it; write one anew to see what it looks like",
  },
  "set-value-wrong": {
    severity: "error",
    message: (f: { text: string; wanted: string }) => `"${f.text}" is wrong here; wanted ${f.wanted}`,
    hint: "Correct the cell",
  },
  "set-owner-unknown": {
    severity: "error",
    message: (f: { table: string; owner: string }) =>
      `Table "${f.table}" speaks of "${f.owner}", which is in no other table`,
    hint: "Correct the id in the first column, or add the thing it names",
  },
} as const;

/** Problems of reading and writing pin tables: first of the table as such, then of its rows. */
export const tableProblemTexts = {
  "quote-open": {
    severity: "error",
    message: (f: { line: number }) => `A quoted cell that starts in line ${f.line} never ends`,
    hint: "Put the closing quote, or write a quote that belongs to the text twice",
  },
  "quote-stray": {
    severity: "error",
    message: (f: { line: number }) => `There is text after the closing quote of a cell that starts in line ${f.line}`,
    hint: "Write quotes that belong to the text twice, or take the quotes away",
  },
  "delimiter-mixed": {
    severity: "error",
    message: (f: { used: string; other: string }) => `The table is divided by ${f.used}, this row by ${f.other}`,
    hint: "Use one delimiter in the whole file; parts pasted from another program often have their own",
  },
  "too-many-columns": {
    severity: "error",
    message: (f: { columns: number; limit: number }) => `A row has ${f.columns} cells; the limit is ${f.limit}`,
    hint: "Delete columns that do not belong to the table, or choose the right delimiter",
  },
  "too-many-rows": {
    severity: "error",
    message: (f: { limit: number }) => `The table has more than ${f.limit} rows`,
    hint: "Split the machine into several files",
  },
  "cell-too-long": {
    severity: "error",
    message: (f: { length: number; limit: number }) => `A cell has ${f.length} characters; the limit is ${f.limit}`,
    hint: "A quote that is missing or too many often joins many cells into one",
  },
  "xlsx-broken": {
    severity: "error",
    message: (f: { reason: string }) => `The workbook cannot be used: ${f.reason}`,
    hint: "Open it in a spreadsheet program and save it again as XLSX",
  },
  "sheet-unknown": {
    severity: "error",
    message: (f: { sheet: string; sheets: string }) => `There is no sheet "${f.sheet}"; the workbook has ${f.sheets}`,
    hint: "Choose one of the sheets",
  },
  "cell-is-formula": {
    severity: "warning",
    message: (f: { count: number }) => `${f.count} cell(s) hold a formula; the value it last gave was taken`,
    hint: "Replace formulas by their values if they may be out of date",
  },
  "formula-without-value": {
    severity: "warning",
    message: (f: { count: number }) => `${f.count} cell(s) hold a formula that was never computed; they count as empty`,
    hint: "Open the workbook in a spreadsheet program, let it compute and save it",
  },
  "cell-is-date": {
    severity: "warning",
    message: (f: { count: number }) => `${f.count} cell(s) hold a date; they count as empty`,
    hint: "Spreadsheets turn entries such as 1-2 into dates; format the column as text and enter them again",
  },
  "cell-is-error": {
    severity: "warning",
    message: (f: { count: number }) => `${f.count} cell(s) hold an error value; they count as empty`,
    hint: "Mend the formula in the spreadsheet",
  },
  "cells-merged": {
    severity: "warning",
    message: (f: { cells: number }) =>
      `${f.cells} cell(s) in merged ranges got the text of the first cell of their range`,
    hint: "Check in the preview that this is what was meant",
  },
  "table-no-rows": {
    severity: "error",
    message: (f: { headings: number }) => `The table has ${f.headings} headings and no row below them`,
    hint: "Choose the sheet or file with the data",
  },
  "headings-unknown": {
    severity: "error",
    message: (f: { missing: string }) => `No row of headings was understood; wanted columns for ${f.missing}`,
    hint: "Say which row holds the headings and what each column means, or start from the template",
  },
  "heading-twice": {
    severity: "warning",
    message: (f: { heading: string; columns: string }) => `The heading "${f.heading}" stands over columns ${f.columns}`,
    hint: "Check in the preview which of them was taken",
  },
  "column-unmapped": {
    severity: "warning",
    message: (f: { headings: string }) => `Nothing was taken from: ${f.headings}`,
    hint: "Map the columns by hand if they hold something of use",
  },
  "mapping-wrong": {
    severity: "error",
    message: (f: { reason: string }) => `The mapping of columns does not fit the table: ${f.reason}`,
    hint: "Propose the mapping anew and change it where needed",
  },
  ...rowProblemTexts,
} as const;

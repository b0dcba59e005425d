import { rowProblemTexts } from "./row-problem-texts.ts";

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

/** What the text of a problem is: how bad, the sentence, and what to do. */
export interface ProblemText {
  readonly severity: "error" | "warning";
  readonly message: (facts: never) => string;
  readonly hint: string;
}

function error<Facts>(message: (facts: Facts) => string, hint: string) {
  return { severity: "error" as const, message, hint };
}

function warning<Facts>(message: (facts: Facts) => string, hint: string) {
  return { severity: "warning" as const, message, hint };
}

/** Problems of a file as such, whatever its format. */
export const fileProblemTexts = {
  "file-empty": error(
    (f: { bytes: number }) => `The file is empty (${f.bytes} bytes)`,
    "Choose the file that holds the data; an empty one is often a download or copy that failed",
  ),
  "file-too-large": error(
    (f: { bytes: number; limit: number }) => `The file has ${f.bytes} bytes; the limit is ${f.limit}`,
    "Split the data into several files",
  ),
  "format-unknown": error(
    (f: { reason: string }) => `The format of the file is not known: ${f.reason}`,
    "Formats read: harness document (JSON), CSV, XLSX, KBL and VEC; save the data as one of them",
  ),
  "encoding-unknown": error(
    (f: { encoding: string }) => `The text is not in an encoding that can be read: ${f.encoding}`,
    "Save the file as UTF-8",
  ),
  "encoding-assumed": warning(
    (f: { encoding: string }) => `The text is not UTF-8; it was read as ${f.encoding}`,
    "Look at letters with accents in the preview; if they are wrong, save the file as UTF-8",
  ),
  "text-with-nul": error(
    (f: { count: number }) => `The text holds ${f.count} NUL character(s), so it is no plain text`,
    "Export the table again as CSV in UTF-8, or as XLSX",
  ),
  "zip-broken": error(
    (f: { reason: string }) => `The packed file cannot be used: ${f.reason}`,
    "The file was cut off, damaged or made by an unusual program; fetch or save it again",
  ),
  "zip-too-large": error(
    (f: { bytes: number; limit: number }) =>
      `The packed file claims to hold ${f.bytes} bytes or more; the limit is ${f.limit}`,
    "No wiring table is that large; the file may have been made to do harm",
  ),
  "zip-path": error(
    (f: { name: string }) => `The packed file holds a name that leads out of it: "${f.name}"`,
    "The file may have been made to do harm; do not unpack it elsewhere either",
  ),
  "zip-encrypted": error(
    (f: { name: string }) => `"${f.name}" is protected by a password`,
    "Remove the password and save the file again",
  ),
};

/** Problems of putting a harness document together from what a file says. */
export const draftProblemTexts = {
  "id-changed": warning(
    (f: { from: string; to: string; reason: string }) => `The id "${f.from}" became "${f.to}": ${f.reason}`,
    "Ids start with a letter or digit, hold letters, digits and . _ + - and are used once; rename it in the file if the new name is wrong",
  ),
  "system-assumed": warning(
    (f: { volt: number }) => `The file does not say the voltage of the system; ${f.volt} V is assumed`,
    "State the nominal voltage when importing",
  ),
  "layout-assumed": warning(
    (f: { connectors: number }) =>
      `The face of ${f.connectors} connector(s) is not in the file; cavities are drawn in order of their numbers`,
    "Find a cavity by the number moulded on the connector, not by its place in the drawing, until the face has been entered",
  ),
  "component-assumed": warning(
    (f: { components: number }) =>
      `${f.components} component(s) were made for connectors of which the file does not say what they belong to`,
    "Name the component of each connector, and join connectors that belong to one device",
  ),
  "insides-unknown": warning(
    (f: { components: number }) =>
      `Nothing is known of the inside of ${f.components} component(s), so no circuit can be followed through them and no reading computed`,
    "Enter loads, fuses, switches and sources of the components that matter",
  ),
  "option-added": warning(
    (f: { option: string }) => `Option "${f.option}" is used but not listed; it was added`,
    "Check that it is an option and not a slip of the pen, and say in which builds it is fitted",
  ),
  "builds-assumed": warning(
    (f: { builds: string }) => `The file lists no builds; these were made: ${f.builds}`,
    "Name the builds that exist, each with its options",
  ),
  "net-kinds-missing": warning(
    (f: { nets: number }) => `The file does not say what ${f.nets} net(s) are for`,
    "Give each net its kind; until then the names of lines and parts decide what may be touched, and doubt forbids",
  ),
  "text-cut": warning(
    (f: { what: string; length: number; limit: number }) =>
      `The ${f.what} has ${f.length} characters and was cut to ${f.limit}`,
    "Shorten it in the file if what was cut matters",
  ),
};

/** Problems of reading and writing pin tables: first of the table as such, then of its rows. */
export const tableProblemTexts = {
  "quote-open": error(
    (f: { line: number }) => `A quoted cell that starts in line ${f.line} never ends`,
    "Put the closing quote, or write a quote that belongs to the text twice",
  ),
  "quote-stray": error(
    (f: { line: number }) => `There is text after the closing quote of a cell that starts in line ${f.line}`,
    "Write quotes that belong to the text twice, or take the quotes away",
  ),
  "delimiter-mixed": error(
    (f: { used: string; other: string }) => `The table is divided by ${f.used}, this row by ${f.other}`,
    "Use one delimiter in the whole file; parts pasted from another program often have their own",
  ),
  "too-many-columns": error(
    (f: { columns: number; limit: number }) => `A row has ${f.columns} cells; the limit is ${f.limit}`,
    "Delete columns that do not belong to the table, or choose the right delimiter",
  ),
  "too-many-rows": error(
    (f: { limit: number }) => `The table has more than ${f.limit} rows`,
    "Split the machine into several files",
  ),
  "cell-too-long": error(
    (f: { length: number; limit: number }) => `A cell has ${f.length} characters; the limit is ${f.limit}`,
    "A quote that is missing or too many often joins many cells into one",
  ),
  "xlsx-broken": error(
    (f: { reason: string }) => `The workbook cannot be used: ${f.reason}`,
    "Open it in a spreadsheet program and save it again as XLSX",
  ),
  "sheet-unknown": error(
    (f: { sheet: string; sheets: string }) => `There is no sheet "${f.sheet}"; the workbook has ${f.sheets}`,
    "Choose one of the sheets",
  ),
  "cell-is-formula": warning(
    (f: { count: number }) => `${f.count} cell(s) hold a formula; the value it last gave was taken`,
    "Replace formulas by their values if they may be out of date",
  ),
  "formula-without-value": warning(
    (f: { count: number }) => `${f.count} cell(s) hold a formula that was never computed; they count as empty`,
    "Open the workbook in a spreadsheet program, let it compute and save it",
  ),
  "cell-is-date": warning(
    (f: { count: number }) => `${f.count} cell(s) hold a date; they count as empty`,
    "Spreadsheets turn entries such as 1-2 into dates; format the column as text and enter them again",
  ),
  "cell-is-error": warning(
    (f: { count: number }) => `${f.count} cell(s) hold an error value; they count as empty`,
    "Mend the formula in the spreadsheet",
  ),
  "cells-merged": warning(
    (f: { cells: number }) => `${f.cells} cell(s) in merged ranges got the text of the first cell of their range`,
    "Check in the preview that this is what was meant",
  ),
  "table-no-rows": error(
    (f: { headings: number }) => `The table has ${f.headings} headings and no row below them`,
    "Choose the sheet or file with the data",
  ),
  "headings-unknown": error(
    (f: { missing: string }) => `No row of headings was understood; wanted columns for ${f.missing}`,
    "Say which row holds the headings and what each column means, or start from the template",
  ),
  "heading-twice": warning(
    (f: { heading: string; columns: string }) => `The heading "${f.heading}" stands over columns ${f.columns}`,
    "Check in the preview which of them was taken",
  ),
  "column-unmapped": warning(
    (f: { headings: string }) => `Nothing was taken from: ${f.headings}`,
    "Map the columns by hand if they hold something of use",
  ),
  "mapping-wrong": error(
    (f: { reason: string }) => `The mapping of columns does not fit the table: ${f.reason}`,
    "Propose the mapping anew and change it where needed",
  ),
  // Problems of single rows and cells of a pin table, and of what a plain table cannot hold when one is written.
  "row-too-long": warning(
    (f: { cells: number; headings: number }) => `The row has ${f.cells} cells, the heading row ${f.headings}`,
    "What stands beyond the last heading is not read; a text with a comma may lack its quotes",
  ),
  "pin-missing": error(
    (f: { connector: string }) => `The row names connector "${f.connector}" and no pin`,
    "Enter the pin; for a splice or ground point say so in the type column, or by how its name begins",
  ),
  "connector-missing": error(
    (f: { pin: string }) => `The row names pin "${f.pin}" and no connector`,
    "Enter the connector in every row; only merged cells of a workbook are filled in",
  ),
  "component-missing": error(
    (f: { connector: string; owners: string }) =>
      `Connector "${f.connector}" is named without its component, and several have one of that name: ${f.owners}`,
    "Name the component as well, or use connector ids that are unique, such as A1.X1",
  ),
  "end-missing": error(
    (f: { wire: string }) => `Wire "${f.wire}" has no end`,
    "Enter at least one end; a wire with one end is kept, with its far end open",
  ),
  "end-unclear": error(
    (f: { text: string }) =>
      `It is not clear what "${f.text}" is: no pin is given, and it is not known as splice or ground`,
    "Add the pin, say what it is in the type column, or name the beginning of splice and ground names",
  ),
  "end-type-unknown": error(
    (f: { text: string }) => `"${f.text}" is no type of end`,
    "Types are connector, splice, ground, supply and stud",
  ),
  "wire-one-end": warning(
    (f: { wire: string; pin: string }) =>
      `Only one end of wire "${f.wire}" is in the table (${f.pin}); it is kept, its far end is not known`,
    "Add the other end to the table, or confirm the joins proposed by signal and colour: ohmward join FILE",
  ),
  "wire-many-ends": error(
    (f: { wire: string; rows: string }) => `Wire "${f.wire}" has more than two ends: rows ${f.rows}`,
    "If wires are joined there, give each its own id and name the splice",
  ),
  "wire-rows-differ": warning(
    (f: { wire: string; what: string; first: string; second: string }) =>
      `Rows of wire "${f.wire}" give its ${f.what} as "${f.first}" and "${f.second}"; the first was taken`,
    "Make the rows of one wire agree",
  ),
  "wire-twice": error(
    (f: { wire: string; row: string }) => `Wire "${f.wire}" was given in row ${f.row} already, with other ends`,
    "Give each wire its own id",
  ),
  "colour-unknown": warning(
    (f: { text: string; part: string }) =>
      `"${f.part}" is no colour of the scheme of this file, so "${f.text}" was not read`,
    "Say what the colour codes of the file mean; they are never guessed, as the same letters differ between makers",
  ),
  "colour-scheme-assumed": warning(
    (f: { colours: number }) => `${f.colours} colour(s) were read as codes of IEC 60757, which the file does not state`,
    "Say so when importing if that is right; if it is not, say what the codes mean",
  ),
  "unit-missing": warning(
    (f: { column: string; count: number }) => `"${f.column}" has no unit; ${f.count} value(s) were not read`,
    "Write the unit into the heading, such as mm² or AWG, or choose it in the mapping",
  ),
  "number-unreadable": warning(
    (f: { text: string; what: string }) => `"${f.text}" is no ${f.what}`,
    "Give a number, with its unit if the heading has none",
  ),
  "number-ambiguous": warning(
    (f: { text: string }) => `"${f.text}" can be read with decimals or with thousands; it was not read`,
    "Say which sign stands before the decimals in this file",
  ),
  "option-unclear": error(
    (f: { text: string }) => `It is not clear how the options "${f.text}" are joined`,
    "Write & for and, | for or, ! for not: A & !B",
  ),
  "net-kind-unknown": warning(
    (f: { text: string }) => `"${f.text}" is no kind of net; it was not read`,
    "The kinds are listed in docs/formats.md",
  ),
  "points-assumed": warning(
    (f: { sort: string; names: string }) => `Taken for ${f.sort} because of how they are named: ${f.names}`,
    "Confirm how names of splices and ground points begin in this file",
  ),
  "inline-possible": warning(
    (f: { first: string; second: string }) =>
      `"${f.first}" and "${f.second}" may be the halves of one inline connector; they were left apart`,
    "Confirm the pair when importing, or add a column that names the mating connector",
  ),
  "mate-differs": error(
    (f: { connector: string; first: string; second: string }) =>
      `"${f.connector}" is said to mate with "${f.first}" and with "${f.second}"`,
    "Give each connector one mate; alternatives need an option of their own on every wire",
  ),
  "half-option-assumed": warning(
    (f: { side: string; option: string }) => `Half "${f.side}" was given the option of all its wires, "${f.option}"`,
    "Check that the half is fitted in just those builds",
  ),
  "export-loses": warning(
    (f: { what: string; count: number }) => `A plain table cannot hold ${f.what} (${f.count}); they are left out`,
    "Write the full set of tables, or the harness document, to keep everything",
  ),
  "set-table-unknown": warning(
    (f: { table: string }) => `"${f.table}" is none of the tables of a set; it was not read`,
    "Compare the name with docs/formats.md",
  ),
  "set-column-unknown": warning(
    (f: { table: string; column: string }) => `Table "${f.table}" has no column "${f.column}"; it was not read`,
    "Compare the heading with docs/formats.md",
  ),
  "set-table-missing": error(
    (f: { table: string }) => `The set has no table "${f.table}"`,
    "A set needs it; write one anew to see what it looks like",
  ),
  "set-value-wrong": error(
    (f: { text: string; wanted: string }) => `"${f.text}" is wrong here; wanted ${f.wanted}`,
    "Correct the cell",
  ),
  "set-owner-unknown": error(
    (f: { table: string; owner: string }) => `Table "${f.table}" speaks of "${f.owner}", which is in no other table`,
    "Correct the id in the first column, or add the thing it names",
  ),
};

/** Problems of reading the XML formats KBL and VEC. */
export const xmlProblemTexts = {
  "xml-doctype": error(
    (f: { name: string }) => `The file has a document type declaration (${f.name}); such files are refused`,
    "Harness files need none; remove the line that starts with <!DOCTYPE, or export the file again",
  ),
  "xml-too-deep": error(
    (f: { limit: number }) => `Elements are nested more than ${f.limit} deep`,
    "Harness files nest about ten deep; the file is damaged or no harness",
  ),
  "xml-too-many-attributes": error(
    (f: { limit: number }) => `An element has more than ${f.limit} attributes`,
    "Elements of harness files have three at most; the file is damaged or no harness",
  ),
  "xml-too-many-elements": error(
    (f: { limit: number }) => `The file has more than ${f.limit} elements`,
    "Export the harnesses of the machine one by one",
  ),
  "xml-text-too-long": error(
    (f: { limit: number }) => `One text, name or comment is longer than ${f.limit} characters`,
    "The file is damaged or no harness",
  ),
  "xml-not-well-formed": error(
    (f: { reason: string }) => `The file is not well-formed XML: ${f.reason}`,
    "The file is cut off, damaged or no XML; export or fetch it again",
  ),
  "xml-encoding-contradiction": error(
    (f: { declared: string; found: string }) =>
      `The file says that it is written in ${f.declared}, but its bytes show ${f.found}`,
    "Save the file as UTF-8 with a matching first line",
  ),
  "xml-encoding-broken": error(
    (f: { encoding: string; at: number }) => `Byte ${f.at} of the file is not possible in ${f.encoding}`,
    "The first line names the wrong encoding, or the file is damaged",
  ),
  "xml-prefix-unknown": error(
    (f: { prefix: string; name: string }) => `"${f.name}" has the prefix "${f.prefix}", which is declared nowhere`,
    "The first element has to declare it; export the file again",
  ),
  "xml-duplicate-id": error(
    (f: { id: string; line: number }) => `The id "${f.id}" is used already in line ${f.line}`,
    "References to it could mean either; ids are used once in a file",
  ),
  "xml-dangling-reference": warning(
    (f: { name: string; id: string }) => `"${f.name}" refers to "${f.id}", which is not in the file`,
    "What hangs on it is left out; export the file again with all its parts",
  ),
  "xml-root-unknown": error(
    (f: { name: string; wanted: string }) => `The first element is "${f.name}"; wanted "${f.wanted}"`,
    "Choose the reader for this format, or another file",
  ),
  "xml-namespace-unknown": error(
    (f: { namespace: string; wanted: string }) => `The namespace is "${f.namespace}"; wanted "${f.wanted}"`,
    "All versions that can be read use the wanted namespace; another one is another format",
  ),
  // Problems of putting a harness together from what a KBL or VEC file says.
  "source-no-harness": error(
    (f: { wanted: string }) => `The file describes parts but no harness: there is no ${f.wanted}`,
    "Export the harness itself, not its parts list",
  ),
  "source-more": warning((f: { count: number }) => `${f.count} more problems of this sort`, "Mend those listed first"),
  "source-number-wrong": warning(
    (f: { name: string; text: string }) => `"${f.text}" in "${f.name}" is no number; the value is left out`,
    "Numbers have a decimal point and no unit beside them",
  ),
  "source-unit-unknown": warning(
    (f: { name: string; unit: string }) => `The unit of "${f.name}" is not known (${f.unit}); such values are left out`,
    "Give the unit as one of the SI with its prefix",
  ),
  "source-wrong-target": error(
    (f: { name: string; id: string; found: string }) =>
      `"${f.name}" refers to "${f.id}", which is a "${f.found}" and cannot stand there`,
    "Export the file again; a part of it was mixed up",
  ),
  "source-end-unknown": error(
    (f: { wire: string; id: string }) =>
      `Wire "${f.wire}" ends at "${f.id}", which is no contact of a part in the file`,
    "Without that end every trace through the wire would stop short; export the file again with all its parts",
  ),
  "source-wire-without-ends": warning(
    (f: { wire: string; ends: number }) => `Wire "${f.wire}" has ${f.ends} contacted end(s) and is left out`,
    "Expected for spare cores; otherwise the contacts of the wire are missing in the file",
  ),
  "source-wire-joins-itself": warning(
    (f: { wire: string; at: string }) => `Both ends of wire "${f.wire}" are at ${f.at}; it is left out`,
    "It joins nothing that is not joined already; if it leads somewhere else, correct the file",
  ),
  "source-length-wrong": warning(
    (f: { item: string; lengthMm: number }) => `"${f.item}" is ${f.lengthMm} mm long; the length is left out`,
    "A length is above zero",
  ),
  "source-segment-left-out": warning(
    (f: { segment: string; reason: string }) => `Segment "${f.segment}" is left out: ${f.reason}`,
    "Wires that run through it have no route",
  ),
  "source-route-left-out": warning(
    (f: { wire: string; reason: string }) => `The route of wire "${f.wire}" is left out: ${f.reason}`,
    "The wire itself is kept; where it runs is not known",
  ),
  "source-connector-empty": warning(
    (f: { connector: string }) => `Connector "${f.connector}" has no cavities and is left out`,
    "The housing of the connector is missing in the file, or takes inserts, which are not read",
  ),
  "source-colours": warning(
    (f: { scheme: string; colours: number }) =>
      `The file does not say what its ${f.colours} colour codes mean; they are read as ${f.scheme}`,
    "Compare a few wires; if they are wrong, choose another scheme when importing",
  ),
  "source-colour-unknown": warning(
    (f: { colour: string; scheme: string; wires: number }) =>
      `Colour "${f.colour}" is not known in scheme ${f.scheme}; ${f.wires} wire(s) are without a colour`,
    "The text of the file is kept in the note of the wire",
  ),
  "options-not-resolved": error(
    (f: { build: string; cavities: number; example: string }) =>
      `With ${f.build}, ${f.cavities} cavities would hold several contacts that exclude each other, such as ${f.example}`,
    "The file holds alternatives: choose options that can be built together, and import again",
  ),
  "build-left-out": warning(
    (f: { build: string; cavities: number; example: string }) =>
      `Build "${f.build}" is left out: ${f.cavities} cavities would hold several contacts, such as ${f.example}`,
    "It gathers alternatives and cannot be built; the other builds of the file are kept",
  ),
  "build-empty": warning(
    (f: { build: string }) => `Build "${f.build}" names no options and is left out`,
    "Expected for a free choice; make the build with its options in the harness document",
  ),
  "option-unknown": error(
    (f: { option: string; known: string }) => `There is no option "${f.option}" in the file; it has ${f.known}`,
    "Name options by their ids in the file",
  ),
  "options-too-many": warning(
    (f: { item: string; options: number }) =>
      `"${f.item}" depends on ${f.options} options, more than an expression holds; it is taken as always fitted`,
    "Nothing is wrong with the file; look at it in the harness document",
  ),
  "wires-joined-in-terminal": warning(
    (f: { terminals: number; example: string }) =>
      `${f.terminals} terminal(s) hold several wires or fill several cavities, such as ${f.example}; each is entered as a joint with a short lead`,
    "The joint is the crimp itself: it cannot be touched, and its leads are not wires",
  ),
  "splice-with-one-wire": warning(
    (f: { splice: string; build: string }) => `Splice "${f.splice}" joins one wire only in build "${f.build}"`,
    "The wire ends there; the end is entered as a place of its own",
  ),
  "fuse-rating-from-text": warning(
    (f: { fuse: string; ampere: number; text: string }) =>
      `Fuse "${f.fuse}" has its rating in words only; ${f.ampere} A was read from "${f.text}"`,
    "Compare with the fuse chart of the machine; the stamped number counts",
  ),
  "fuse-rating-unknown": warning(
    (f: { fuse: string }) => `The rating of fuse "${f.fuse}" is not in the file; it is entered as a plain bar`,
    "Enter the fuse with its rating",
  ),
  "fuse-resistance-assumed": warning(
    (f: { fuses: number }) =>
      `The resistance of ${f.fuses} fuse(s) and contact(s) is not in the file; 0 ohm is assumed`,
    "Real ones have a few milliohm; computed drops across them are too low",
  ),
  "relay-read-from-pins": warning(
    (f: { relay: string; coilOhm: number }) =>
      `The inside of relay "${f.relay}" was read from its terminal numbers; a coil of ${f.coilOhm} ohm is assumed`,
    "Numbers alone do not settle a relay: compare with the picture on its case",
  ),
  "part-inside-unknown": warning(
    (f: { part: string; what: string }) => `What "${f.part}" joins inside is not known: ${f.what}`,
    "No path leads through it until its inside is entered",
  ),
  "ring-roles-unknown": warning(
    (f: { rings: number }) =>
      `The file does not say which of ${f.rings} ring terminal(s) are ground or supply points; they are entered as plain terminals`,
    "Say which are ground points and which are supply posts, and join rings that share a bolt",
  ),
  "mating-left-out": warning(
    (f: { first: string; second: string; reason: string }) =>
      `"${f.first}" and "${f.second}" are said to mate, but cannot: ${f.reason}`,
    "Enter the connector with both its halves in the harness document",
  ),
  "join-too-many-builds": error(
    (f: { builds: number; limit: number }) => `The files together have ${f.builds} builds; the limit is ${f.limit}`,
    "Choose one build of each file",
  ),
};

/** Every problem of reading and writing files, by code. No code is also one of the harness document. */
export const importProblemTexts = {
  ...fileProblemTexts,
  ...draftProblemTexts,
  ...tableProblemTexts,
  ...xmlProblemTexts,
} satisfies Readonly<Record<string, ProblemText>>;

/** The closed list of codes of this room. */
export type ImportProblemCode = keyof typeof importProblemTexts;
/** The values the text of a problem names. */
export type ImportProblemFacts<Code extends ImportProblemCode> = Parameters<
  (typeof importProblemTexts)[Code]["message"]
>[0];

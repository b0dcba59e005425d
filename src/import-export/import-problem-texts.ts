import { error, warning, type ProblemText } from "./problem-text.ts";
import { tableProblemTexts } from "./table-problem-texts.ts";

/** Problems of a file as such, whatever its format. */
export const fileProblemTexts = {
  "file-empty": error(
    (f: { bytes: number }) => `The file is empty (${f.bytes} bytes)`,
    "Choose the file with the data. An empty file is often a failed download or copy",
  ),
  "file-too-large": error(
    (f: { bytes: number; limit: number }) => `The file has ${f.bytes} bytes; the limit is ${f.limit}`,
    "Split the data into several files",
  ),
  "format-unknown": error(
    (f: { reason: string }) => `The format of the file is not known: ${f.reason}`,
    "Save the data as harness document (JSON), CSV, XLSX, ODS, Markdown, HTML, KBL or VEC",
  ),
  "encoding-unknown": error(
    (f: { encoding: string }) => `The text is not in an encoding that can be read: ${f.encoding}`,
    "Save the file as UTF-8",
  ),
  "encoding-assumed": warning(
    (f: { encoding: string }) => `The text is not UTF-8; it was read as ${f.encoding}`,
    "Check letters with accents in the preview. If they are wrong, save the file as UTF-8",
  ),
  "text-with-nul": error(
    (f: { count: number }) => `The text has ${f.count} NUL character(s). It is not plain text`,
    "Export the table again as CSV in UTF-8, or as XLSX",
  ),
  "zip-broken": error(
    (f: { reason: string }) => `The packed file cannot be read: ${f.reason}`,
    "The file is incomplete, damaged or of an unusual kind. Get or save it again",
  ),
  "zip-too-large": error(
    (f: { bytes: number; limit: number }) =>
      `The packed file claims to hold ${f.bytes} bytes or more; the limit is ${f.limit}`,
    "No wiring table is that large. The file may be harmful",
  ),
  "zip-path": error(
    (f: { name: string }) => `The packed file has a name that points outside it: "${f.name}"`,
    "The file may be harmful. Do not unpack it in another program",
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
    "An id starts with a letter or digit, has letters, digits and . _ + - only, and is used once. If the new name is wrong, rename it in the file",
  ),
  "system-assumed": warning(
    (f: { volt: number }) => `The file does not say the voltage of the system; ${f.volt} V is assumed`,
    "State the nominal voltage when importing",
  ),
  "layout-assumed": warning(
    (f: { connectors: number }) =>
      `The face of ${f.connectors} connector(s) is not in the file; cavities are drawn in order of their numbers`,
    "Find a cavity by the number moulded on the connector, not by its position in the drawing. Enter the face",
  ),
  "component-assumed": warning(
    (f: { components: number }) =>
      `${f.components} component(s) were added for connectors whose component is not in the file`,
    "Name the component of each connector. Give connectors of one component the same name",
  ),
  "insides-unknown": warning(
    (f: { components: number }) =>
      `The inside of ${f.components} component(s) is not known. Circuits end there, and no reading can be calculated`,
    "Enter loads, fuses, switches and sources of the components that matter",
  ),
  "option-added": warning(
    (f: { option: string }) => `Option "${f.option}" is used but not listed; it was added`,
    "Check that it is an option and not a typing error. Say in which builds it is fitted",
  ),
  "builds-assumed": warning(
    (f: { builds: string }) => `The file lists no builds (variants). These were added: ${f.builds}`,
    "Name the builds (variants) that exist, each with its options",
  ),
  "net-kinds-missing": warning(
    (f: { nets: number }) => `The file does not say what ${f.nets} net(s) are for`,
    "Give each net its kind. Until then the names of lines and parts decide where contact is permitted. In doubt it is not permitted",
  ),
  "text-cut": warning(
    (f: { what: string; length: number; limit: number }) =>
      `The ${f.what} has ${f.length} characters and was cut to ${f.limit}`,
    "Shorten it in the file if what was cut matters",
  ),
};

/** Problems of reading the XML formats KBL and VEC. */
export const xmlProblemTexts = {
  "xml-doctype": error(
    (f: { name: string }) => `The file has a document type declaration (${f.name}). Such files are not permitted`,
    "Remove the line that starts with <!DOCTYPE, or export the file again",
  ),
  "xml-too-deep": error(
    (f: { limit: number }) => `Elements are nested more than ${f.limit} deep`,
    "Harness files nest about ten deep. The file is damaged or no harness. Export it again",
  ),
  "xml-too-many-attributes": error(
    (f: { limit: number }) => `An element has more than ${f.limit} attributes`,
    "Elements of harness files have three at most. The file is damaged or no harness. Export it again",
  ),
  "xml-too-many-elements": error(
    (f: { limit: number }) => `The file has more than ${f.limit} elements`,
    "Export the harnesses of the machine one by one",
  ),
  "xml-text-too-long": error(
    (f: { limit: number }) => `One text, name or comment is longer than ${f.limit} characters`,
    "The file is damaged or no harness. Export it again",
  ),
  "xml-not-well-formed": error(
    (f: { reason: string }) => `The file is not well-formed XML: ${f.reason}`,
    "The file is incomplete, damaged or no XML. Export or get it again",
  ),
  "xml-encoding-contradiction": error(
    (f: { declared: string; found: string }) => `The file declares ${f.declared}, but its bytes are ${f.found}`,
    "Save the file as UTF-8 with a matching first line",
  ),
  "xml-encoding-broken": error(
    (f: { encoding: string; at: number }) => `Byte ${f.at} of the file is not possible in ${f.encoding}`,
    "The first line names the wrong encoding, or the file is damaged. Export the file again",
  ),
  "xml-prefix-unknown": error(
    (f: { prefix: string; name: string }) => `The prefix "${f.prefix}" of "${f.name}" is not declared`,
    "The first element must declare it. Export the file again",
  ),
  "xml-duplicate-id": error(
    (f: { id: string; line: number }) => `The id "${f.id}" is used already in line ${f.line}`,
    "References to it are ambiguous. Use each id once in a file",
  ),
  "xml-dangling-reference": warning(
    (f: { name: string; id: string }) => `"${f.name}" refers to "${f.id}", which is not in the file`,
    "Items that need it are left out. Export the file again with all its parts",
  ),
  "xml-root-unknown": error(
    (f: { name: string; wanted: string }) => `The first element is "${f.name}". It must be "${f.wanted}"`,
    "Choose the reader for this format, or another file",
  ),
  "xml-namespace-unknown": error(
    (f: { namespace: string; wanted: string }) => `The namespace is "${f.namespace}". It must be "${f.wanted}"`,
    "All versions that can be read use this namespace. Choose another format or file",
  ),
  // Problems of putting a harness together from what a KBL or VEC file says.
  "source-no-harness": error(
    (f: { wanted: string }) => `The file describes parts but no harness: there is no ${f.wanted}`,
    "Export the harness itself, not its parts list",
  ),
  "source-more": warning(
    (f: { count: number }) => `${f.count} more problems of this sort`,
    "Correct those listed first",
  ),
  "source-number-wrong": warning(
    (f: { name: string; text: string }) => `"${f.text}" in "${f.name}" is no number. The value is left out`,
    "Write numbers with a decimal point and without a unit",
  ),
  "source-unit-unknown": warning(
    (f: { name: string; unit: string }) => `The unit of "${f.name}" is not known (${f.unit}). Such values are left out`,
    "Give an SI unit with its prefix",
  ),
  "source-wrong-target": error(
    (f: { name: string; id: string; found: string }) =>
      `"${f.name}" refers to "${f.id}", which is a "${f.found}" and is not possible there`,
    "Parts of the file are mixed up. Export it again",
  ),
  "source-end-unknown": error(
    (f: { wire: string; id: string }) =>
      `Wire "${f.wire}" ends at "${f.id}", which is no contact of a part in the file`,
    "Without that end every path through the wire ends here. Export the file again with all its parts",
  ),
  "source-wire-without-ends": warning(
    (f: { wire: string; ends: number }) => `Wire "${f.wire}" has ${f.ends} contacted end(s) and is left out`,
    "Normal for spare cores. Else the contacts of the wire are missing in the file",
  ),
  "source-wire-joins-itself": warning(
    (f: { wire: string; at: string }) => `Both ends of wire "${f.wire}" are at ${f.at}. It is left out`,
    "It joins one point with itself. If its far end is at another point, correct the file",
  ),
  "source-length-wrong": warning(
    (f: { item: string; lengthMm: number }) => `"${f.item}" is ${f.lengthMm} mm long. The length is left out`,
    "Give a length above 0 mm",
  ),
  "source-segment-left-out": warning(
    (f: { segment: string; reason: string }) => `Segment "${f.segment}" is left out: ${f.reason}`,
    "Wires that run through it have no route. Correct the segment in the file",
  ),
  "source-route-left-out": warning(
    (f: { wire: string; reason: string }) => `The route of wire "${f.wire}" is left out: ${f.reason}`,
    "The wire is kept. Route unknown",
  ),
  "source-connector-empty": warning(
    (f: { connector: string }) => `Connector "${f.connector}" has no cavities and is left out`,
    "The housing of the connector is missing in the file, or it has inserts. Inserts are not read",
  ),
  "source-colours": warning(
    (f: { scheme: string; colours: number }) =>
      `The file does not say what its ${f.colours} colour codes mean. They are read as ${f.scheme}`,
    "Compare a few wires. If they are wrong, choose another scheme when you import",
  ),
  "source-colour-unknown": warning(
    (f: { colour: string; scheme: string; wires: number }) =>
      `Colour "${f.colour}" is not known in scheme ${f.scheme}. ${f.wires} wire(s) have no colour`,
    "The text of the file is kept in the note of the wire",
  ),
  "options-not-resolved": error(
    (f: { build: string; cavities: number; example: string }) =>
      `With ${f.build}, ${f.cavities} cavities have several contacts that exclude each other, such as ${f.example}`,
    "The file has alternatives. Choose options that can be built together. Import again",
  ),
  "build-left-out": warning(
    (f: { build: string; cavities: number; example: string }) =>
      `Build "${f.build}" is left out: ${f.cavities} cavities have several contacts, such as ${f.example}`,
    "It has alternatives and cannot be built. The other builds of the file are kept",
  ),
  "build-empty": warning(
    (f: { build: string }) => `Build "${f.build}" names no options and is left out`,
    "Normal for a free choice. Add the build with its options in the harness document",
  ),
  "option-unknown": error(
    (f: { option: string; known: string }) => `There is no option "${f.option}" in the file. It has ${f.known}`,
    "Name options by their ids in the file",
  ),
  "options-too-many": warning(
    (f: { item: string; options: number }) =>
      `"${f.item}" depends on ${f.options} options, too many for an expression. Assumed: always fitted`,
    "The file has no fault. Check the item in the harness document",
  ),
  "wires-joined-in-terminal": warning(
    (f: { terminals: number; example: string }) =>
      `${f.terminals} terminal(s) have several wires or fill several cavities, such as ${f.example}. Each is entered as a splice with a short lead`,
    "The splice stands for the crimp. No contact is possible there, and its leads are not wires",
  ),
  "splice-with-one-wire": warning(
    (f: { splice: string; build: string }) => `Splice "${f.splice}" joins one wire only in build "${f.build}"`,
    "The wire ends there. The end is entered as a separate point",
  ),
  "fuse-rating-from-text": warning(
    (f: { fuse: string; ampere: number; text: string }) =>
      `Fuse "${f.fuse}" has its rating in words only. ${f.ampere} A was read from "${f.text}"`,
    "Compare with the fuse chart of the machine. The number on the fuse is valid",
  ),
  "fuse-rating-unknown": warning(
    (f: { fuse: string }) => `The rating of fuse "${f.fuse}" is not in the file. It is entered as a busbar`,
    "Enter the fuse with its rating",
  ),
  "fuse-resistance-assumed": warning(
    (f: { fuses: number }) => `The resistance of ${f.fuses} fuse(s) and contact(s) is not in the file. Assumed: 0 Ω`,
    "Real ones have a few mΩ. Calculated voltage drops across them are too low",
  ),
  "relay-read-from-pins": warning(
    (f: { relay: string; coilOhm: number }) =>
      `The inside of relay "${f.relay}" was read from its terminal numbers. Assumed coil resistance: ${f.coilOhm} Ω`,
    "Compare with the picture on the relay case",
  ),
  "part-inside-unknown": warning(
    (f: { part: string; what: string }) => `The inside of "${f.part}" is not known: ${f.what}`,
    "Paths end there. Enter its inside",
  ),
  "ring-roles-unknown": warning(
    (f: { rings: number }) =>
      `The file does not say which of ${f.rings} ring terminal(s) are ground or supply points. They are entered as terminal studs`,
    "Say which are ground studs and which are supply terminals. Join ring terminals on the same bolt",
  ),
  "mating-left-out": warning(
    (f: { first: string; second: string; reason: string }) =>
      `"${f.first}" and "${f.second}" mate in the data, but cannot: ${f.reason}`,
    "Enter the connector with both its sides in the harness document",
  ),
  "join-too-many-builds": error(
    (f: { builds: number; limit: number }) =>
      `The files together have ${f.builds} builds (variants). The limit is ${f.limit}`,
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

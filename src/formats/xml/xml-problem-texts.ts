/** Problems of putting a harness together from what a KBL or VEC file says. */
const sourceProblemTexts = {
  "source-no-harness": {
    severity: "error",
    message: (f: { wanted: string }) => `The file describes parts but no harness: there is no ${f.wanted}`,
    hint: "Export the harness itself, not its parts list",
  },
  "source-more": {
    severity: "warning",
    message: (f: { count: number }) => `${f.count} more problems of this sort`,
    hint: "Mend those listed first",
  },
  "source-number-wrong": {
    severity: "warning",
    message: (f: { name: string; text: string }) => `"${f.text}" in "${f.name}" is no number; the value is left out`,
    hint: "Numbers have a decimal point and no unit beside them",
  },
  "source-unit-unknown": {
    severity: "warning",
    message: (f: { name: string; unit: string }) =>
      `The unit of "${f.name}" is not known (${f.unit}); such values are left out`,
    hint: "Give the unit as one of the SI with its prefix",
  },
  "source-wrong-target": {
    severity: "error",
    message: (f: { name: string; id: string; found: string }) =>
      `"${f.name}" refers to "${f.id}", which is a "${f.found}" and cannot stand there`,
    hint: "Export the file again; a part of it was mixed up",
  },
  "source-end-unknown": {
    severity: "error",
    message: (f: { wire: string; id: string }) =>
      `Wire "${f.wire}" ends at "${f.id}", which is no contact of a part in the file`,
    hint: "Without that end every trace through the wire would stop short; export the file again with all its parts",
  },
  "source-wire-without-ends": {
    severity: "warning",
    message: (f: { wire: string; ends: number }) => `Wire "${f.wire}" has ${f.ends} contacted end(s) and is left out`,
    hint: "Expected for spare cores; otherwise the contacts of the wire are missing in the file",
  },
  "source-wire-joins-itself": {
    severity: "warning",
    message: (f: { wire: string; at: string }) => `Both ends of wire "${f.wire}" are at ${f.at}; it is left out`,
    hint: "It joins nothing that is not joined already; if it leads somewhere else, correct the file",
  },
  "source-length-wrong": {
    severity: "warning",
    message: (f: { thing: string; lengthMm: number }) =>
      `"${f.thing}" is ${f.lengthMm} mm long; the length is left out`,
    hint: "A length is above zero",
  },
  "source-segment-left-out": {
    severity: "warning",
    message: (f: { segment: string; reason: string }) => `Segment "${f.segment}" is left out: ${f.reason}`,
    hint: "Wires that run through it have no route",
  },
  "source-route-left-out": {
    severity: "warning",
    message: (f: { wire: string; reason: string }) => `The route of wire "${f.wire}" is left out: ${f.reason}`,
    hint: "The wire itself is kept; where it runs is not known",
  },
  "source-connector-empty": {
    severity: "warning",
    message: (f: { connector: string }) => `Connector "${f.connector}" has no cavities and is left out`,
    hint: "The housing of the connector is missing in the file, or takes inserts, which are not read",
  },
  "source-colours": {
    severity: "warning",
    message: (f: { scheme: string; colours: number }) =>
      `The file does not say what its ${f.colours} colour codes mean; they are read as ${f.scheme}`,
    hint: "Compare a few wires; if they are wrong, choose another scheme when importing",
  },
  "source-colour-unknown": {
    severity: "warning",
    message: (f: { colour: string; scheme: string; wires: number }) =>
      `Colour "${f.colour}" is not known in scheme ${f.scheme}; ${f.wires} wire(s) are without a colour`,
    hint: "The text of the file is kept in the note of the wire",
  },
  "options-not-resolved": {
    severity: "error",
    message: (f: { build: string; cavities: number; example: string }) =>
      `With ${f.build}, ${f.cavities} cavities would hold several contacts that exclude each other, such as ${f.example}`,
    hint: "The file holds alternatives: choose options that can be built together, and import again",
  },
  "build-left-out": {
    severity: "warning",
    message: (f: { build: string; cavities: number; example: string }) =>
      `Build "${f.build}" is left out: ${f.cavities} cavities would hold several contacts, such as ${f.example}`,
    hint: "It gathers alternatives and cannot be built; the other builds of the file are kept",
  },
  "build-empty": {
    severity: "warning",
    message: (f: { build: string }) => `Build "${f.build}" names no options and is left out`,
    hint: "Expected for a free choice; make the build with its options in the harness document",
  },
  "option-unknown": {
    severity: "error",
    message: (f: { option: string; known: string }) =>
      `There is no option "${f.option}" in the file; it has ${f.known}`,
    hint: "Name options by their ids in the file",
  },
  "options-too-many": {
    severity: "warning",
    message: (f: { thing: string; options: number }) =>
      `"${f.thing}" depends on ${f.options} options, more than an expression holds; it is taken as always fitted`,
    hint: "Nothing is wrong with the file; look at it in the harness document",
  },
  "wires-joined-in-terminal": {
    severity: "warning",
    message: (f: { terminals: number; example: string }) =>
      `${f.terminals} terminal(s) hold several wires or fill several cavities, such as ${f.example}; each is entered as a joint with a short lead`,
    hint: "The joint is the crimp itself: it cannot be touched, and its leads are not wires",
  },
  "splice-with-one-wire": {
    severity: "warning",
    message: (f: { splice: string; build: string }) => `Splice "${f.splice}" joins one wire only in build "${f.build}"`,
    hint: "The wire ends there; the end is entered as a place of its own",
  },
  "fuse-rating-from-text": {
    severity: "warning",
    message: (f: { fuse: string; ampere: number; text: string }) =>
      `Fuse "${f.fuse}" has its rating in words only; ${f.ampere} A was read from "${f.text}"`,
    hint: "Compare with the fuse chart of the machine; the stamped number counts",
  },
  "fuse-rating-unknown": {
    severity: "warning",
    message: (f: { fuse: string }) => `The rating of fuse "${f.fuse}" is not in the file; it is entered as a plain bar`,
    hint: "Enter the fuse with its rating",
  },
  "fuse-resistance-assumed": {
    severity: "warning",
    message: (f: { fuses: number }) =>
      `The resistance of ${f.fuses} fuse(s) and contact(s) is not in the file; 0 ohm is assumed`,
    hint: "Real ones have a few milliohm; computed drops across them are too low",
  },
  "relay-read-from-pins": {
    severity: "warning",
    message: (f: { relay: string; coilOhm: number }) =>
      `The inside of relay "${f.relay}" was read from its terminal numbers; a coil of ${f.coilOhm} ohm is assumed`,
    hint: "Numbers alone do not settle a relay: compare with the picture on its case",
  },
  "part-inside-unknown": {
    severity: "warning",
    message: (f: { part: string; what: string }) => `What "${f.part}" joins inside is not known: ${f.what}`,
    hint: "No path leads through it until its inside is entered",
  },
  "ring-roles-unknown": {
    severity: "warning",
    message: (f: { rings: number }) =>
      `The file does not say which of ${f.rings} ring terminal(s) are ground or supply points; they are entered as plain terminals`,
    hint: "Say which are ground points and which are supply posts, and join rings that share a bolt",
  },
  "mating-left-out": {
    severity: "warning",
    message: (f: { first: string; second: string; reason: string }) =>
      `"${f.first}" and "${f.second}" are said to mate, but cannot: ${f.reason}`,
    hint: "Enter the connector with both its halves in the harness document",
  },
  "join-too-many-builds": {
    severity: "error",
    message: (f: { builds: number; limit: number }) =>
      `The files together have ${f.builds} builds; the limit is ${f.limit}`,
    hint: "Choose one build of each file",
  },
} as const;

/** Problems of reading the XML formats KBL and VEC. */
export const xmlProblemTexts = {
  "xml-doctype": {
    severity: "error",
    message: (f: { name: string }) => `The file has a document type declaration (${f.name}); such files are refused`,
    hint: "Harness files need none; remove the line that starts with <!DOCTYPE, or export the file again",
  },
  "xml-too-deep": {
    severity: "error",
    message: (f: { limit: number }) => `Elements are nested more than ${f.limit} deep`,
    hint: "Harness files nest about ten deep; the file is damaged or no harness",
  },
  "xml-too-many-attributes": {
    severity: "error",
    message: (f: { limit: number }) => `An element has more than ${f.limit} attributes`,
    hint: "Elements of harness files have three at most; the file is damaged or no harness",
  },
  "xml-too-many-elements": {
    severity: "error",
    message: (f: { limit: number }) => `The file has more than ${f.limit} elements`,
    hint: "Export the harnesses of the machine one by one",
  },
  "xml-text-too-long": {
    severity: "error",
    message: (f: { limit: number }) => `One text, name or comment is longer than ${f.limit} characters`,
    hint: "The file is damaged or no harness",
  },
  "xml-not-well-formed": {
    severity: "error",
    message: (f: { reason: string }) => `The file is not well-formed XML: ${f.reason}`,
    hint: "The file is cut off, damaged or no XML; export or fetch it again",
  },
  "xml-encoding-contradiction": {
    severity: "error",
    message: (f: { declared: string; found: string }) =>
      `The file says that it is written in ${f.declared}, but its bytes show ${f.found}`,
    hint: "Save the file as UTF-8 with a matching first line",
  },
  "xml-encoding-broken": {
    severity: "error",
    message: (f: { encoding: string; at: number }) => `Byte ${f.at} of the file is not possible in ${f.encoding}`,
    hint: "The first line names the wrong encoding, or the file is damaged",
  },
  "xml-prefix-unknown": {
    severity: "error",
    message: (f: { prefix: string; name: string }) =>
      `"${f.name}" has the prefix "${f.prefix}", which is declared nowhere`,
    hint: "The first element has to declare it; export the file again",
  },
  "xml-duplicate-id": {
    severity: "error",
    message: (f: { id: string; line: number }) => `The id "${f.id}" is used already in line ${f.line}`,
    hint: "References to it could mean either; ids are used once in a file",
  },
  "xml-dangling-reference": {
    severity: "warning",
    message: (f: { name: string; id: string }) => `"${f.name}" refers to "${f.id}", which is not in the file`,
    hint: "What hangs on it is left out; export the file again with all its parts",
  },
  "xml-root-unknown": {
    severity: "error",
    message: (f: { name: string; wanted: string }) => `The first element is "${f.name}"; wanted "${f.wanted}"`,
    hint: "Choose the reader for this format, or another file",
  },
  "xml-namespace-unknown": {
    severity: "error",
    message: (f: { namespace: string; wanted: string }) => `The namespace is "${f.namespace}"; wanted "${f.wanted}"`,
    hint: "All versions that can be read use the wanted namespace; another one is another format",
  },
  ...sourceProblemTexts,
} as const;

/**
 * Every problem a harness document can have: severity, sentence and what to do. One entry a code, one test fixture an entry.
 */
export const problemTexts = {
  "too-large": {
    severity: "error",
    message: (f: { bytes: number; limit: number }) => `The file holds ${f.bytes} characters; the limit is ${f.limit}`,
    hint: "Split the machine into several documents, or raise the limit of this program",
  },
  "not-json": {
    severity: "error",
    message: (f: { reason: string }) => `The text is not JSON: ${f.reason}`,
    hint: "Correct the text at this position. Often a comma or bracket is missing or too many",
  },
  "wrong-format": {
    severity: "error",
    message: (f: { found: string; wanted: string }) =>
      `This is not a harness document: "format" is ${f.found}, not "${f.wanted}"`,
    hint: "Choose a file that this program wrote, or import the data first",
  },
  "newer-version": {
    severity: "error",
    message: (f: { found: string; known: number }) =>
      `The document has version ${f.found}; this program knows versions up to ${f.known}`,
    hint: "Open it with a newer Ohmward",
  },
  shape: {
    severity: "error",
    message: (f: { reason: string }) => f.reason,
    hint: "Compare this position with data-schemas/harness-document.schema.json",
  },
  "duplicate-id": {
    severity: "error",
    message: (f: { id: string; first: string }) => `The id "${f.id}" is used already at ${f.first}`,
    hint: "Give each item its own id",
  },
  "unknown-reference": {
    severity: "error",
    message: (f: { what: string; id: string }) => `There is no ${f.what} "${f.id}"`,
    hint: "Correct the id, or add what it names",
  },
  "dangling-end": {
    severity: "error",
    message: (f: { address: string; reason: string }) => `"${f.address}" is no point of the harness: ${f.reason}`,
    hint: "Name a cavity, splice or terminal stud that exists",
  },
  "end-not-fitted": {
    severity: "error",
    message: (f: { id: string; address: string; build: string }) =>
      `"${f.id}" is fitted in build "${f.build}", but "${f.address}" is not`,
    hint: "Give both the same option expression",
  },
  "nets-joined": {
    severity: "warning",
    message: (f: { address: string; first: string; second: string; build: string }) =>
      `Wires ${f.first} and ${f.second} share contact ${f.address} in build "${f.build}", so their nets are joined there`,
    hint: "If they are alternatives, give each its option. If one is in another cavity, correct its end",
  },
  "splice-too-few-wires": {
    severity: "error",
    message: (f: { splice: string; wires: number; build: string }) =>
      `Splice "${f.splice}" joins ${f.wires} wire(s) in build "${f.build}"`,
    hint: "A splice joins two wires or more. Add the missing wires or give the splice an option",
  },
  "unknown-colour": {
    severity: "error",
    message: (f: { colour: string }) => `"${f.colour}" is not a colour code (IEC 60757)`,
    hint: "Write colour codes (IEC 60757), base colour first, stripe after a slash: WH/RD",
  },
  "impossible-cross-section": {
    severity: "error",
    message: (f: { value: number; least: number; most: number }) =>
      `A conductor size of ${f.value} mm² is not possible. It must be ${f.least} mm² to ${f.most} mm²`,
    hint: "Give the conductor size in mm²",
  },
  "impossible-length": {
    severity: "error",
    message: (f: { value: number; least: number; most: number }) =>
      `A length of ${f.value} mm is not possible. It must be ${f.least} mm to ${f.most} mm`,
    hint: "Give the length in mm",
  },
  "joins-itself": {
    severity: "error",
    message: (f: { id: string; address: string }) => `Both ends of "${f.id}" are "${f.address}"`,
    hint: "Name two different ends",
  },
  "route-broken": {
    severity: "error",
    message: (f: { wire: string; segment: string; reason: string }) =>
      `The route of "${f.wire}" breaks at segment "${f.segment}": ${f.reason}`,
    hint: "List the segments in order from the first end to the second",
  },
  "length-below-route": {
    severity: "warning",
    message: (f: { wire: string; lengthMm: number; routeMm: number }) =>
      `Wire "${f.wire}" is ${f.lengthMm} mm long, its route ${f.routeMm} mm`,
    hint: "Check the length of the wire and of the segments it runs through",
  },
  "offset-outside-segment": {
    severity: "error",
    message: (f: { splice: string; offsetMm: number; lengthMm: number }) =>
      `Splice "${f.splice}" is at ${f.offsetMm} mm of a harness segment of ${f.lengthMm} mm`,
    hint: "Count the offset from the branch point named, within the segment",
  },
  "mating-cavities-differ": {
    severity: "error",
    message: (f: { connector: string; first: string; second: string; cavities: string }) =>
      `Sides "${f.first}" and "${f.second}" of "${f.connector}" do not have the same cavities: ${f.cavities}`,
    hint: "Sides that mate need the same cavities. Correct the list of one side",
  },
  "too-many-halves": {
    severity: "error",
    message: (f: { connector: string; sides: string; build: string }) =>
      `Connector "${f.connector}" has more than two sides in build "${f.build}": ${f.sides}`,
    hint: "Give the sides that replace one another option expressions that exclude each other",
  },
  "option-expression": {
    severity: "error",
    message: (f: { text: string; reason: string; position: number }) =>
      `"${f.text}" is not an option expression: ${f.reason} at character ${f.position + 1}`,
    hint: "Join option ids with & (and), | (or), ! (not) and brackets",
  },
} as const satisfies Record<string, { severity: "error" | "warning"; message: (facts: never) => string; hint: string }>;

/** The closed list of problem codes. */
export type ProblemCode = keyof typeof problemTexts;
/** The values the text of a problem names. */
export type ProblemFacts<Code extends ProblemCode> = Parameters<(typeof problemTexts)[Code]["message"]>[0];

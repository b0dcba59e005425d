import { sourceProblemTexts } from "./source/source-problem-texts.ts";

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

/** Problems of a file as such, whatever its format. */
export const fileProblemTexts = {
  "file-empty": {
    severity: "error",
    message: (f: { bytes: number }) => `The file is empty (${f.bytes} bytes)`,
    hint: "Choose the file that holds the data; an empty one is often a download or copy that failed",
  },
  "file-too-large": {
    severity: "error",
    message: (f: { bytes: number; limit: number }) => `The file has ${f.bytes} bytes; the limit is ${f.limit}`,
    hint: "Split the data into several files",
  },
  "format-unknown": {
    severity: "error",
    message: (f: { reason: string }) => `The format of the file is not known: ${f.reason}`,
    hint: "Formats read: harness document (JSON), CSV, XLSX, KBL and VEC; save the data as one of them",
  },
  "encoding-unknown": {
    severity: "error",
    message: (f: { encoding: string }) => `The text is not in an encoding that can be read: ${f.encoding}`,
    hint: "Save the file as UTF-8",
  },
  "encoding-assumed": {
    severity: "warning",
    message: (f: { encoding: string }) => `The text is not UTF-8; it was read as ${f.encoding}`,
    hint: "Look at letters with accents in the preview; if they are wrong, save the file as UTF-8",
  },
  "text-with-nul": {
    severity: "error",
    message: (f: { count: number }) => `The text holds ${f.count} NUL character(s), so it is no plain text`,
    hint: "Export the table again as CSV in UTF-8, or as XLSX",
  },
  "zip-broken": {
    severity: "error",
    message: (f: { reason: string }) => `The packed file cannot be used: ${f.reason}`,
    hint: "The file was cut off, damaged or made by an unusual program; fetch or save it again",
  },
  "zip-too-large": {
    severity: "error",
    message: (f: { bytes: number; limit: number }) =>
      `The packed file claims to hold ${f.bytes} bytes or more; the limit is ${f.limit}`,
    hint: "No wiring table is that large; the file may have been made to do harm",
  },
  "zip-path": {
    severity: "error",
    message: (f: { name: string }) => `The packed file holds a name that leads out of it: "${f.name}"`,
    hint: "The file may have been made to do harm; do not unpack it elsewhere either",
  },
  "zip-encrypted": {
    severity: "error",
    message: (f: { name: string }) => `"${f.name}" is protected by a password`,
    hint: "Remove the password and save the file again",
  },
} as const;

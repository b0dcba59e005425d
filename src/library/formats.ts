// The door for programs, published as "ohmward/import-export": files in and out.
export type { AnyReadOptions as ImportOptions, ImportProblem } from "../import-export/index.ts";
export { EXPORT_FORMATS, exportMachine, type ExportedFile } from "../application/index.ts";
export { importMachine } from "./import-machine.ts";

// The door for programs, published as "ohmward/formats": files in and out.
export type { AnyReadOptions as ImportOptions, ImportProblem } from "../formats/index.ts";
export { EXPORT_FORMATS, exportMachine, type ExportedFile } from "../workbench/index.ts";
export { importMachine } from "./import-machine.ts";

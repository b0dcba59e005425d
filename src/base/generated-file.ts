/**
 * A file of `data-schemas/` that is written by a program from what the code holds. A room that owns such files exports a
 * function `generatedFiles(): readonly GeneratedFile[]` from its `index.ts`; `npm run generate` finds it there.
 */
export interface GeneratedFile {
  /** Name inside `data-schemas/`, without a folder: `harness.schema.json`. */
  readonly fileName: string;
  /** The whole text, the same at every call, with a line end at its end. */
  readonly text: string;
}

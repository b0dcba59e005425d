// The package has no declarations of its own, and the published ones bring in the names of Node, which do not exist in this room.
declare module "papaparse" {
  interface ParseFault {
    readonly type: string;
    readonly code: string;
    readonly message: string;
    /** Position in the text, from 0. */
    readonly index?: number;
    readonly row?: number;
  }
  interface ParseStep {
    readonly data: readonly string[];
    readonly errors: readonly ParseFault[];
    /** `cursor`: position in the text after the row. */
    readonly meta: { readonly cursor: number };
  }
  interface ParseHandle {
    abort(): void;
  }
  interface ParseConfig {
    readonly delimiter: string;
    readonly newline: string;
    readonly quoteChar: string;
    readonly step: (step: ParseStep, handle: ParseHandle) => void;
  }
  const papa: { parse(text: string, config: ParseConfig): void };
  export default papa;
}

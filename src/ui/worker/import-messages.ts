import type {
  ConfirmedMating,
  ImportProblem,
  MappingMemory,
  MatingProposal,
  ReadProgress,
  ReadResult,
  TableOptions,
  WantedBuild,
} from "../../formats/index.ts";
import type { ImportPart, ImportPreview } from "../../workbench/index.ts";
import type { SentFault } from "./sent-fault.ts";

/** What the worker is asked to do. One worker does one piece of work and is then let go; ending it early is how work is cancelled. */
export type ImportRequest =
  /** Look at a file, and read it if it is understood. */
  | {
      readonly kind: "read";
      readonly file: File;
      readonly table: TableOptions;
      readonly memory: MappingMemory;
      /** Builds to make of options of the file; none means those that it names. */
      readonly builds: readonly WantedBuild[];
    }
  /** Find connectors of several files that may plug into one another. */
  | { readonly kind: "propose"; readonly parts: readonly ImportPart[] }
  /** Make one machine of several files. */
  | { readonly kind: "join"; readonly parts: readonly ImportPart[]; readonly pairs: readonly ConfirmedMating[] };

/** What comes back. `preview` and `progress` come on the way, the others end the work. */
export type ImportReply =
  | { readonly kind: "progress"; readonly progress: ReadProgress }
  | { readonly kind: "preview"; readonly preview: ImportPreview }
  | { readonly kind: "read"; readonly result: ReadResult }
  /** The file was looked at; it cannot be read before a person has said what its columns hold. */
  | { readonly kind: "needed"; readonly problems: readonly ImportProblem[] }
  | { readonly kind: "proposed"; readonly proposals: readonly MatingProposal[] }
  | { readonly kind: "joined"; readonly result: ReadResult }
  /** The program failed. */
  | { readonly kind: "failed"; readonly failure: SentFault };

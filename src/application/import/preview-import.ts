import { err, ok, type Result } from "../../base/index.ts";
import {
  isTableFormat,
  previewTable,
  readerOf,
  recallMapping,
  type ImportProblem,
  type MappingMemory,
  type ReadProgress,
  type TableMapping,
  type TableOptions,
  type TablePreview,
  type TableReadOptions,
} from "../../import-export/index.ts";
import type { ImportFormat } from "./import-file.ts";

/** How a file would be read, before it is. */
export type ImportPreview =
  /** The format says what each thing is; there is nothing to map. */
  | { readonly kind: "whole"; readonly format: ImportFormat }
  | {
      readonly kind: "table";
      readonly format: ImportFormat;
      /**
       * Where the mapping comes from: `said` by the options, `remembered` for these headings, `proposed` from them. `needed`: no row of
       * headings was understood; the preview shows the table, its mapping is empty, and a person has to say what the columns hold.
       */
      readonly mappingFrom: "said" | "remembered" | "proposed" | "needed";
      readonly preview: TablePreview;
      /** What the table has to be read with to be read as the preview shows it. */
      readonly said: TableOptions;
    };

/** Looking at a file, in steps. */
export type Previewing = Generator<ReadProgress, Result<ImportPreview, readonly ImportProblem[]>, void>;

/** A mapping for any table with two columns, to see a table whose headings say nothing. */
const ANY_MAPPING: TableMapping = {
  shape: "wire",
  columns: [
    { column: 0, field: "from" },
    { column: 1, field: "to" },
  ],
};

/**
 * Looks at a file and says how it would be read; for a table with the mapping of its columns: the one said, else the one remembered for
 * its headings, else one proposed from them. Each table of a file has its own.
 *
 * @param bytes The file.
 * @param options What a person has said so far.
 * @param memory Mappings confirmed earlier; see `rememberMapping` of the formats.
 */
export function* previewImport(bytes: Uint8Array, options: TableReadOptions, memory: MappingMemory = []): Previewing {
  const reader = readerOf(bytes, options.fileName);
  if (!reader.ok) return err([reader.error]);
  const { id, label } = reader.value;
  const format = { id, label };
  if (!isTableFormat(id)) return ok({ kind: "whole", format });
  const { known: own = [], ...given } = options.table ?? {};
  const known = [...own, ...memory];
  const all: TableReadOptions = { ...options, table: { ...given, known } };
  const made = (
    mappingFrom: "said" | "remembered" | "proposed" | "needed",
    preview: TablePreview,
    { table = {} }: TableReadOptions,
  ): Result<ImportPreview, never> => ok({ kind: "table", format, mappingFrom, preview, said: table });
  const from = ({ headings }: TablePreview): "said" | "remembered" =>
    recallMapping(own, headings) ? "said" : "remembered";
  const first = yield* previewTable(bytes, all);
  if (given.mapping) return first.ok ? made("said", first.value, all) : first;
  if (first.ok) {
    const { value: shown } = first;
    return made(recallMapping(known, shown.headings) ? from(shown) : "proposed", shown, all);
  }
  const shown = yield* showUnmapped(bytes, all, first.error);
  if (!shown.ok) return shown;
  const remembered = recallMapping(known, shown.value.headings);
  if (remembered) {
    const mapped = withMapping(all, remembered, shown.value.headingRow);
    const again = yield* previewTable(bytes, mapped);
    if (again.ok) return made(from(shown.value), again.value, mapped);
  }
  return made("needed", shown.value, all);
}

function* showUnmapped(
  bytes: Uint8Array,
  options: TableReadOptions,
  problems: readonly ImportProblem[],
): Generator<ReadProgress, Result<TablePreview, readonly ImportProblem[]>, void> {
  if (!problems.every((problem) => problem.code === "headings-unknown")) return err(problems);
  const shown = yield* previewTable(bytes, withMapping(options, ANY_MAPPING));
  if (!shown.ok) return err(problems);
  const nothing = { firstWires: [], colours: [], possiblePairs: [], faultyRows: [] };
  const part = { ...shown.value, ...nothing, mapping: { shape: "wire", columns: [] } } as const;
  return ok({ ...part, parts: [part], problems });
}

function withMapping(options: TableReadOptions, mapping: TableMapping, headingRow?: number): TableReadOptions {
  return { ...options, table: { ...options.table, mapping, ...(headingRow === undefined ? {} : { headingRow }) } };
}

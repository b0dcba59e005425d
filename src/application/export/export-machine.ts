import { ok, unreachable, type Result } from "../../base/index.ts";
import { writeHarnessSvg } from "../../drawing/index.ts";
import {
  csvBytes,
  encodeUtf8,
  harnessJsonBytes,
  tableRows,
  writeGraphml,
  writeCsv,
  writeTableCsv,
  writeTableSetXlsx,
  writeTableSetZip,
  writeWorkbook,
  type ImportProblem,
  type TableShape,
} from "../../import-export/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import type { ChooseAnswer } from "../answer.ts";
import { chooseBuild } from "../choose-build.ts";
import type { Machine } from "../open-machine.ts";
import { continuityTable } from "./continuity-table.ts";
import { EXPORT_FORMATS, type ExportFormat, type ExportFormatId } from "./export-formats.ts";

/** What is to be saved. */
export interface ExportWanted {
  readonly format: ExportFormatId;
  /** The build; for tables absent means everything with its options. Forms that hold every build pass it over. */
  readonly build?: string;
  /** Wires lit on a drawing. */
  readonly lit?: readonly string[];
}

/** A machine as a file that is ready to be saved. */
export interface ExportedFile {
  readonly format: ExportFormat;
  /** A plain name made from the machine. */
  readonly fileName: string;
  readonly mediaType: string;
  readonly bytes: Uint8Array;
  /** The one build that is in it; absent where all are. */
  readonly build?: string;
  /** What was taken for granted, in sentences. */
  readonly assumptions: readonly string[];
  /** Data not saved in this format, each sort once. */
  readonly problems: readonly ImportProblem[];
}

/**
 * Writes a machine as a file. The same machine gives the same bytes. A picture in points (PNG) is made by the screen alone.
 *
 * @param machine The machine.
 * @param wanted Form and build.
 * @returns The file; or, where a build has to be chosen, an answer that lists them.
 */
export function exportMachine(machine: Machine, wanted: ExportWanted): Result<ExportedFile, ChooseAnswer> {
  const format = EXPORT_FORMATS.find((each) => each.id === wanted.format);
  if (!format) throw new RangeError(`There is no format "${wanted.format}"`);
  const isWhole = format.builds === "all" || (format.builds === "any" && wanted.build === undefined);
  const chosen = isWhole ? undefined : chooseBuild(machine, wanted.build);
  if (chosen && !chosen.ok) return chosen;
  const build = chosen?.value.build.id;
  const { bytes, problems } = write(machine, { ...wanted, ...(build === undefined ? {} : { build }) });
  return ok({
    format,
    fileName: `${plainName(machine.document.about.machine)}${build === undefined ? "" : `-${plainName(build)}`}${format.ending}`,
    mediaType: format.mediaType,
    bytes,
    ...(build === undefined ? {} : { build }),
    assumptions: chosen?.value.assumptions ?? [],
    problems,
  });
}

interface Written {
  readonly bytes: Uint8Array;
  readonly problems: readonly ImportProblem[];
}

function write(machine: Machine, wanted: ExportWanted): Written {
  const { document } = machine;
  switch (wanted.format) {
    case "json":
      return { bytes: harnessJsonBytes(document), problems: [] };
    case "wire-list-csv":
      return writeCsvTable(machine, "wire", wanted);
    case "pin-table-csv":
      return writeCsvTable(machine, "pin", wanted);
    case "xlsx":
      return writeTables(machine, wanted);
    case "table-set":
      return { bytes: writeTableSetXlsx(document), problems: [] };
    case "table-set-zip":
      return { bytes: writeTableSetZip(document), problems: [] };
    case "graphml":
      return { bytes: encodeUtf8(writeGraphml(harnessOf(machine, wanted))), problems: [] };
    case "continuity":
      return { bytes: csvBytes(writeCsv(continuityTable(harnessOf(machine, wanted)))), problems: [] };
    case "svg":
      return {
        bytes: encodeUtf8(writeHarnessSvg(harnessOf(machine, wanted), { lit: wanted.lit ?? [] })),
        problems: [],
      };
    default:
      return unreachable(wanted.format);
  }
}

function writeCsvTable({ document }: Machine, shape: TableShape, { build }: ExportWanted): Written {
  const { content, problems } = writeTableCsv(document, { shape, ...(build === undefined ? {} : { build }) });
  return { bytes: csvBytes(content), problems };
}

/** Both tables in one workbook; whoever reads it back takes the first sheet, the wires, or says which. */
function writeTables({ document }: Machine, { build }: ExportWanted): Written {
  const more = build === undefined ? {} : { build };
  const wires = tableRows(document, { shape: "wire", ...more });
  const pins = tableRows(document, { shape: "pin", ...more });
  const bytes = writeWorkbook([
    { name: "Wires", rows: wires.content },
    { name: "Pins", rows: pins.content },
  ]);
  return { bytes, problems: wires.problems };
}

function harnessOf(machine: Machine, { build = "" }: ExportWanted): Harness {
  const harness = machine.harness(build);
  if (!harness) throw new RangeError(`There is no build "${build}"`);
  return harness;
}

/** A name that every file system takes. */
function plainName(text: string): string {
  const plain = text
    .normalize("NFD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/[^a-z0-9]+/gu, "-");
  return plain.slice(0, 60).replace(/^-+|-+$/gu, "") || "machine";
}

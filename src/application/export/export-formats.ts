/** A form in which a machine can be saved. */
export interface ExportFormat {
  readonly id: string;
  readonly label: string;
  /** End of the file name. */
  readonly ending: string;
  readonly mediaType: string;
  /** `all`: every build is in it. `any`: everything with its options, or one build alone. `one`: one build, which has to be chosen. */
  readonly builds: "all" | "any" | "one";
}

const XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

/** Every form in which a machine can be saved, in the order in which they are named to people. */
export const EXPORT_FORMATS = [
  { id: "json", label: "Harness document", ending: ".ohm.json", mediaType: "application/json", builds: "all" },
  { id: "wire-list-csv", label: "Wire list, CSV", ending: "-wires.csv", mediaType: "text/csv", builds: "any" },
  { id: "pin-table-csv", label: "Pin table, CSV", ending: "-pins.csv", mediaType: "text/csv", builds: "any" },
  { id: "xlsx", label: "Wire list and pin table, XLSX", ending: "-tables.xlsx", mediaType: XLSX, builds: "any" },
  { id: "table-set", label: "Full set of tables, XLSX", ending: "-set.xlsx", mediaType: XLSX, builds: "all" },
  {
    id: "table-set-zip",
    label: "Full set of tables, CSV files in a zip file",
    ending: "-set.zip",
    mediaType: "application/zip",
    builds: "all",
  },
  {
    id: "graphml",
    label: "Graph of one build, GraphML",
    ending: ".graphml",
    mediaType: "application/graphml+xml",
    builds: "one",
  },
  {
    id: "continuity",
    label: "Continuity test sheet of one build, CSV",
    ending: "-continuity.csv",
    mediaType: "text/csv",
    builds: "one",
  },
  { id: "svg", label: "Drawing of one build, SVG", ending: ".svg", mediaType: "image/svg+xml", builds: "one" },
] as const satisfies readonly ExportFormat[];

/** Short name of a form. */
export type ExportFormatId = (typeof EXPORT_FORMATS)[number]["id"];

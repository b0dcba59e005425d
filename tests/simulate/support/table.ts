import type { JobEnd } from "./run-job.ts";

/** One setting with the ends of its jobs. */
export interface TableRow {
  readonly label: string;
  readonly ends: readonly JobEnd[];
  /** Weight of each fault beforehand, as the planner has it. */
  readonly weights: readonly number[];
  /** Faults that set no code and disturb no function: there is no job. */
  readonly unnoticed: number;
  /** Faults whose complaint leads to circuits that they are not in; left out unless the row is about them. */
  readonly elsewhere: number;
}

/** Which faults were simulated. */
export interface TableFacts {
  readonly stride: number;
  /** Start numbers of the chances: what parts are off by, which readings go wrong. */
  readonly seeds: readonly number[];
  readonly faults: number;
}

/** The table of a simulation, in the form of the page it stands in. */
export function makeTable(rows: readonly TableRow[], { stride, seeds, faults }: TableFacts): string {
  const head = [
    "Setting",
    "Jobs",
    "True repair first",
    "Later in the order",
    "Missed",
    "Confidently wrong",
    "No end",
    "First, by weight",
    "Confidently wrong, by weight",
    "Checks",
    "Check min",
    "Repairs",
    "Repair min",
  ];
  const lines = rows.map(({ label, ends, weights }) => {
    const percent = (kind: JobEnd["kind"]): string =>
      `${((100 * ends.filter((end) => end.kind === kind).length) / Math.max(1, ends.length)).toFixed(1)} %`;
    const byWeight = (kind: JobEnd["kind"]): string => {
      const total = weights.reduce((sum, weight) => sum + weight, 0);
      const part = ends.reduce((sum, end, index) => sum + (end.kind === kind ? (weights[index] ?? 0) : 0), 0);
      return `${((100 * part) / (total > 0 ? total : 1)).toFixed(1)} %`;
    };
    const repaired = ends.filter(({ repairs }) => repairs > 0);
    return [
      label,
      String(ends.length),
      percent("first"),
      percent("in-order"),
      percent("missed"),
      percent("wrong"),
      percent("open"),
      byWeight("first"),
      byWeight("wrong"),
      mean(ends.map(({ checks }) => checks)),
      mean(ends.map(({ minutes }) => minutes)),
      mean(repaired.map(({ repairs }) => repairs)),
      mean(repaired.map(({ repairMinutes }) => repairMinutes)),
    ];
  });
  const which = stride === 1 ? `All ${faults} single faults` : `Every ${stride}th of the ${faults} single faults`;
  const { unnoticed = 0, elsewhere = 0 } = rows[0] ?? {};
  const note = `${which} of the base build (each severity counted), ${seeds.length === 1 ? `start number ${seeds.join()}` : `each with start numbers ${seeds.join(", ")}`}; ${unnoticed} of those taken set no code and disturb no function, so there is no job, and ${elsewhere} are noticed by what leads to other circuits; these have a row of their own. By weight: each fault counts as likely as the planner takes it to be beforehand. Repairs and their minutes are means over the jobs that ended with the fault mended.`;
  const widths = head.map((title, column) =>
    Math.max(title.length, ...lines.map((line) => (line[column] ?? "").length)),
  );
  const row = (cells: readonly string[]): string =>
    `| ${cells.map((cell, column) => cell.padEnd(widths[column] ?? 0)).join(" | ")} |`;
  return [note, "", row(head), row(widths.map((width) => "-".repeat(width))), ...lines.map(row), ""].join("\n");
}

function mean(values: readonly number[]): string {
  return values.length === 0 ? "-" : (values.reduce((sum, value) => sum + value, 0) / values.length).toFixed(1);
}

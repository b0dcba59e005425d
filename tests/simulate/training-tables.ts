/** One hunt as it went. */
export interface ExerciseRow {
  readonly id: string;
  readonly level: number;
  readonly mode: string;
  /** Id of the hidden fault. */
  readonly hidden: string;
  readonly repair: string;
  readonly ending: string;
  readonly checks: number;
  readonly repairs: number;
  readonly minutes: number;
  /** Things the planner was stopped from: none, if all its checks are permitted. */
  readonly stopped: number;
  /** What of the complaint the solver does not bear out. */
  readonly wrong: readonly string[];
  readonly planner: number;
  readonly random: number;
}

/** The table of the listed faults, a row each. */
export function listedTable(rows: readonly ExerciseRow[]): string {
  const head = [
    "Fault",
    "What mends it",
    "Found",
    "Checks",
    "Repairs tried",
    "Minutes",
    "Planner's score",
    "At random",
  ];
  return table(head, [
    ...rows.map((row) => [
      row.id,
      row.repair,
      isFound(row) ? "yes" : "no",
      String(row.checks),
      String(row.repairs),
      row.minutes.toFixed(0),
      String(row.planner),
      String(row.random),
    ]),
  ]);
}

/** The table of drawn faults, a row for each way of failing and one for all. */
export function drawnTable(rows: readonly ExerciseRow[]): string {
  const head = [
    "Way of failing",
    "Faults",
    "Found",
    "First repair right",
    "Score 90 or more",
    "Mean score",
    "Mean at random",
    "Random as good",
    "Mean checks",
    "Mean minutes",
  ];
  const modes = [...new Set(rows.map(({ mode }) => mode))].sort();
  const lines = modes.map((mode) =>
    line(
      mode,
      rows.filter((row) => row.mode === mode),
    ),
  );
  return table(head, [...lines, line("all", rows)]);
}

function isFound({ ending }: ExerciseRow): boolean {
  return ending === "sure" || ending === "in-order" || ending === "by-suspicion";
}

function line(name: string, rows: readonly ExerciseRow[]): readonly string[] {
  const count = (is: (row: ExerciseRow) => boolean): string => String(rows.filter(is).length);
  const mean = (of: (row: ExerciseRow) => number): string =>
    rows.length === 0 ? "" : (rows.reduce((sum, row) => sum + of(row), 0) / rows.length).toFixed(1);
  return [
    name,
    String(rows.length),
    count(isFound),
    count((row) => isFound(row) && row.repairs === 1),
    count((row) => row.planner >= 90),
    mean((row) => row.planner),
    mean((row) => row.random),
    count((row) => row.random >= row.planner),
    mean((row) => row.checks),
    mean((row) => row.minutes),
  ];
}

function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const all = [head, head.map(() => "---"), ...rows];
  return `${all.map((cells) => `| ${cells.join(" | ")} |`).join("\n")}\n`;
}

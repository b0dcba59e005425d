/** What version 0.1 called the questions. Its words are understood in links and commands for one version. */
export const OLD_QUESTIONS: Readonly<Record<string, string>> = {
  ...{ trace: "circuit", between: "path", shared: "common", without: "effect" },
  ...{ probe: "test-points", expect: "expected" },
};

/** What version 0.1 called the functions of a meter. */
export const OLD_METERS: Readonly<Record<string, string>> = {
  ...{ volts: "dc-voltage", ohms: "resistance", drop: "voltage-drop" },
  ...{ amps: "dc-current", lamp: "test-lamp", duty: "duty-cycle" },
};

/** What version 0.1 called what a path may include. */
export const OLD_WIDTHS: Readonly<Record<string, string>> = {
  ...{ series: "switches-and-fuses", circuit: "loads", everything: "control-units" },
};

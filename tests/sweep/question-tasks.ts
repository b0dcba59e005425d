import type { SeededRandom } from "ohmward/base";
import {
  Answer,
  ask,
  checkFaults,
  EXPECT_METERS,
  EXPORT_FORMATS,
  ExportReport,
  exportMachine,
  exportReport,
  leadReach,
  readingsAlongPath,
  readQuestionLink,
  writeAnswer,
  writeExportReport,
  writeQuestionLink,
  type Conditions,
  type OpenSetting,
  type Question,
} from "ohmward/application";
import { isDeepStrictEqual } from "node:util";
import { checked } from "./checked.ts";
import { some, type Names } from "./names.ts";
import type { Swept, Task } from "./task.ts";

const THROUGH = ["conductors", "switches-and-fuses", "loads", "control-units", undefined] as const;
const MARKS = ["bad", "good", "unknown"] as const;
const OHMS = [0, 1e-7, 0.25, 1e12, 1e308, -1] as const;

/** Every kind of question about some things of a build. */
export function* questionTasks(swept: Swept): Generator<Task> {
  const { names, random, most } = swept;
  const pick = (): string => random.pick(names.all);
  const point = (): string => random.pick([...some(names.points, 1, random), pick()]);
  const unary: readonly ((item: string) => Question)[] = [
    (item) => ({ kind: "circuit", point: item }),
    (item) => ({ kind: "effect", item }),
    (item) => ({ kind: "test-points", item }),
    (item) => ({ kind: "find", text: item }),
    (item) => ({ kind: "path", from: item, to: pick(), ...withThrough(random) }),
    (item) => ({
      kind: "common",
      items: [item, pick(), pick()].slice(0, random.integer(1, 3)).map((text) => ({ text, mark: random.pick(MARKS) })),
    }),
    (item) => ({ kind: "table", item, ...maybe(random, { black: point() }), ...conditions(names, random) }),
    (item) => ({
      kind: "expected",
      red: random.next() < 0.5 ? item : point(),
      meter: random.pick(EXPECT_METERS),
      calculateOnly: random.next() < 0.7,
      ...maybe(random, { black: point() }),
      ...conditions(names, random),
    }),
  ];
  for (const make of unary) {
    for (const item of some(names.all, most.questions, random)) {
      const question = make(item);
      const state = random.pick(names.states);
      const setting = { build: swept.build, ...(state === undefined ? {} : { state }) };
      yield { name: JSON.stringify({ ...setting, ...question }), run: () => askAndCheck(swept, setting, question) };
    }
  }
}

function askAndCheck({ machine }: Swept, setting: OpenSetting, question: Question): void {
  const answer = ask(machine, setting, question);
  checked(answer, Answer, writeAnswer(answer));
  const link = writeQuestionLink({ setting, question });
  const read = readQuestionLink(link);
  if (read && !isDeepStrictEqual(writeQuestionLink(read), link)) throw new Error(`The link changes: ${link}`);
  // What the screen asks beside it.
  if (answer.kind === "path") readingsAlongPath(machine, setting, { path: answer.path });
  if (question.kind === "expected") {
    leadReach(machine, setting, { point: question.red, meter: question.meter ?? "dc-voltage" });
    checkFaults(machine, setting, question.faults ?? []);
  }
}

function withThrough(random: SeededRandom): Pick<Extract<Question, { kind: "path" }>, "through"> {
  const through = random.pick(THROUGH);
  return through === undefined ? {} : { through };
}

function maybe<Part extends object>(random: SeededRandom, part: Part): Part | Record<string, never> {
  return random.next() < 0.5 ? part : {};
}

function conditions(names: Names, random: SeededRandom): Conditions {
  if (random.next() < 0.4) return {};
  const item = (): string => random.pick(names.all);
  const element = (): string => random.pick([...(names.items.get("element") ?? []), item()]);
  const faults = [
    () => `open:${item()}`,
    () => `high-resistance:${item()}=${random.pick(OHMS)}`,
    () => `short:${item()}=${item()},${random.pick(OHMS)},${random.integer(0, 100)}%`,
    () => `bridge:${item()}=${item()},${random.pick(OHMS)}`,
    () => `blown:${element()}`,
    () => `stuck-${random.pick(["open", "closed", "on", "off"])}:${element()}`,
    () => `drift:${element()}=${random.pick([0, 1e-9, 1.2, 1e6])},${random.pick([0, -1e12, 1e12, 0.5])}`,
    () => `unplugged:${item()}`,
    () => `loose-terminal:${random.pick([...names.wires, "W"])}@${item()}`,
    () => `cross-wired:${item()}=${item()}`,
  ];
  const settings = [
    () => `${element()}=${random.pick(["open", "closed", "on", "off", "0%", "0.001%", "40%", "100%"])}`,
    () => `${random.pick(["temperature", "coolant-temperature", "x"])}=${random.pick([-300, 20, 1e9, 1e300])}`,
  ];
  const several = (makers: readonly (() => string)[]): readonly string[] =>
    Array.from({ length: random.integer(0, 2) }, () => random.pick(makers)());
  return {
    faults: several(faults),
    settings: several(settings),
    unplugged: several([() => random.pick([...(names.items.get("connector") ?? []), item()])]),
    adapters: several([item]),
  };
}

/** Every form that a machine is saved in, for the build and for all of them. */
export function* exportTasks({ machine, build }: Swept): Generator<Task> {
  for (const { id: format } of EXPORT_FORMATS) {
    for (const wanted of [{ format }, { format, build }, { format, build: "no such build" }]) {
      yield {
        name: `export ${JSON.stringify(wanted)}`,
        run: () => {
          const file = exportMachine(machine, wanted);
          if (!file.ok) return checked(file.error, Answer, writeAnswer(file.error));
          if (file.value.bytes.length === 0) throw new Error("The file is empty");
          const report = exportReport(machine.document.about.machine, file.value, "file");
          checked(report, ExportReport, writeExportReport(report));
        },
      };
    }
  }
}

import { unreachable } from "../base/index.ts";
import type { Answer } from "./answer.ts";
import { askBetween } from "./ask-between.ts";
import { askFind } from "./ask-find.ts";
import { askProbe } from "./ask-probe.ts";
import { askShared } from "./ask-shared.ts";
import { askTrace } from "./ask-trace.ts";
import { askWithout } from "./ask-without.ts";
import { askExpect } from "./expect/ask-expect.ts";
import { askTable } from "./expect/ask-table.ts";
import type { Machine } from "./open-machine.ts";
import type { OpenSetting, Question } from "./question.ts";
import { setScene } from "./scene.ts";

/**
 * Answers a question about a machine. Every ordinary "no" is an answer of its own kind: a name that fits nothing or several things, a
 * thing this build does not have, no path, nothing found, a build still to be chosen.
 *
 * @param machine The machine.
 * @param setting Build and state the answer shall hold for.
 * @param question The question, its things as typed.
 * @returns The answer, plain data that fits the schemas of `Answer`.
 * @example
 * ```ts
 * import { ask, machineOf } from "ohmward/workbench";
 * const lamp = machineOf({
 *   format: "ohmward-harness", version: 2, about: { title: "Lamp", machine: "Lamp" },
 *   system: { nominalVolt: 12, wireStandard: "iec-60228-class-5", temperatureC: 20 },
 *   options: [], builds: [], states: [], zones: [], places: [], segments: [], components: [], connectors: [], splices: [],
 *   studs: [], nets: [], wires: [], adapters: [], codes: [], cautions: [],
 * });
 * expect(ask(lamp, { build: "base" }, { kind: "trace", point: "E1" }).kind).toBe("choose-build");
 * ```
 */
export function ask(machine: Machine, setting: OpenSetting, question: Question): Answer {
  const scene = setScene(machine, setting);
  if (!scene.ok) return scene.error;
  switch (question.kind) {
    case "trace":
      return askTrace(scene.value, question);
    case "between":
      return askBetween(scene.value, question);
    case "shared":
      return askShared(scene.value, question);
    case "without":
      return askWithout(scene.value, question);
    case "probe":
      return askProbe(scene.value, question);
    case "find":
      return askFind(scene.value, question);
    case "expect":
      return askExpect(scene.value, question);
    case "table":
      return askTable(scene.value, question);
    default:
      return unreachable(question);
  }
}

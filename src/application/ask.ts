import { unreachable } from "../base/index.ts";
import type { Answer } from "./answer.ts";
import { askPath } from "./ask-path.ts";
import { askFind } from "./ask-find.ts";
import { askTestPoints } from "./ask-test-points.ts";
import { askCommon } from "./ask-common.ts";
import { askCircuit } from "./ask-circuit.ts";
import { askEffect } from "./ask-effect.ts";
import { askExpectedReading } from "./expect/ask-expected.ts";
import { askTable } from "./expect/ask-table.ts";
import type { Machine } from "./open-machine.ts";
import type { OpenSetting, Question } from "./question.ts";
import { resolveContext } from "./machine-context.ts";

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
 * import { ask, machineOf } from "ohmward/application";
 * const lamp = machineOf({
 *   format: "ohmward-harness", version: 3, about: { title: "Lamp", machine: "Lamp" },
 *   system: { nominalVolt: 12, wireStandard: "iec-60228-class-5", temperatureC: 20 },
 *   options: [], builds: [], states: [], zones: [], topologyNodes: [], segments: [], components: [], connectors: [], splices: [],
 *   terminalStuds: [], nets: [], wires: [], adapters: [], codes: [], cautions: [],
 * });
 * expect(ask(lamp, { build: "base" }, { kind: "circuit", point: "E1" }).kind).toBe("choose-build");
 * ```
 */
export function ask(machine: Machine, setting: OpenSetting, question: Question): Answer {
  const context = resolveContext(machine, setting);
  if (!context.ok) return context.error;
  switch (question.kind) {
    case "circuit":
      return askCircuit(context.value, question);
    case "path":
      return askPath(context.value, question);
    case "common":
      return askCommon(context.value, question);
    case "effect":
      return askEffect(context.value, question);
    case "test-points":
      return askTestPoints(context.value, question);
    case "find":
      return askFind(context.value, question);
    case "expected":
      return askExpectedReading(context.value, question);
    case "table":
      return askTable(context.value, question);
    default:
      return unreachable(question);
  }
}

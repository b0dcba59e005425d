import { err, ok, type Result } from "../base/index.ts";
import type { Harness, State } from "../harness-model/index.ts";
import type { ChooseAnswer } from "./answer.ts";
import { chooseBuild } from "./choose-build.ts";
import type { Machine } from "./open-machine.ts";
import type { OpenSetting } from "./question.ts";

/** A machine in one build and one state: what a question is asked of. */
export interface MachineContext {
  readonly machine: Machine;
  readonly harness: Harness;
  /** Absent only where the document has no states. */
  readonly state: State | undefined;
  /** No state was asked for: it is the first one of the document. */
  readonly isStateAssumed: boolean;
  /** What was assumed about build and state. */
  readonly assumptions: readonly string[];
}

/**
 * Sets the scene for a question.
 *
 * @param machine The machine.
 * @param setting Build and state asked for; see {@link chooseBuild} for an absent build. An absent state is the first one.
 * @returns The scene, or an answer that asks for a build or a state.
 */
export function resolveContext(machine: Machine, setting: OpenSetting): Result<MachineContext, ChooseAnswer> {
  const chosen = chooseBuild(machine, setting.build);
  if (!chosen.ok) return chosen;
  const { build, assumptions } = chosen.value;
  const { states } = machine.document;
  const asked = setting.state?.trim().toLowerCase();
  const state = asked === undefined ? states[0] : states.find((each) => each.id.toLowerCase() === asked);
  if (setting.state !== undefined && !state) return err(chooseState(machine, setting.state));
  const harness = machine.harness(build.id);
  if (!harness) throw new RangeError(`Cannot set the scene: build "${build.id}" is of another machine`);
  return ok({ machine, harness, state, isStateAssumed: asked === undefined, assumptions });
}

function chooseState({ document }: Machine, asked: string): ChooseAnswer {
  return {
    kind: "choose-state",
    machine: document.about.machine,
    text: `This machine has no state "${asked}". Choose one of its states.`,
    asked,
    choices: document.states.map(({ id, label }) => ({ id, label })),
  };
}

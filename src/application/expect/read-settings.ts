import { err, ok, type Result } from "../../base/index.ts";
import { ITEM_NAMES } from "../../connectivity/index.ts";
import type { OperatingConditions } from "../../simulation/index.ts";
import type { UnresolvedAnswer } from "../answer.ts";
import { resolveText } from "../resolve-text.ts";
import type { MachineContext } from "../machine-context.ts";
import { formatSetting, parseSetting, type SettingProblem } from "./parse-setting.ts";
import type { WrongQuestionAnswer } from "./wrong-question-answer.ts";
import { wrongQuestion } from "./wrong-question.ts";

/** Settings, understood. */
export interface ReadSettings {
  readonly elementStates: NonNullable<OperatingConditions["settings"]>;
  readonly quantities: NonNullable<OperatingConditions["quantities"]>;
  /** As an answer repeats them, with canonical names. */
  readonly texts: readonly string[];
}

/**
 * Reads what is set by hand in place of what the state says.
 *
 * @param context The machine in its build and state.
 * @param asked The settings as typed.
 * @returns The settings; or the answer that says which of them cannot be read, or names nothing that can be set.
 */
export function readSettings(
  context: MachineContext,
  asked: readonly string[],
): Result<ReadSettings, UnresolvedAnswer | WrongQuestionAnswer> {
  const elementStates: NonNullable<OperatingConditions["settings"]>[number][] = [];
  const quantities: NonNullable<OperatingConditions["quantities"]>[number][] = [];
  const texts: string[] = [];
  const wrong = (of: string, problem: SettingProblem | string): Result<ReadSettings, WrongQuestionAnswer> =>
    err(
      wrongQuestion(context, [
        { code: "wrong-setting", of, ...(typeof problem === "string" ? { text: problem } : problem) },
      ]),
    );
  const unitOf = unitsOfQuantities(context);
  for (const text of asked) {
    const read = parseSetting(text, (name) => unitOf.get(name));
    if (!read.ok) return wrong(text, read.error);
    const setting = read.value;
    if (setting.kind === "quantity") {
      const known = quantityNames(context);
      if (!known.has(setting.name))
        return wrong(text, `There is no quantity "${setting.name}". Known: ${[...known].join(", ") || "none"}.`);
      quantities.push({ name: setting.name, value: setting.value });
      texts.push(formatSetting(setting));
      continue;
    }
    const part = resolveText(context, setting.of);
    if (!part.ok) return part;
    const { type, id } = part.value;
    if (type !== "element")
      return wrong(text, `"${setting.of}" (${ITEM_NAMES[type]}) cannot be set. Only a part such as S1.run can be set.`);
    elementStates.push({ of: id, is: setting.is });
    texts.push(formatSetting({ ...setting, of: id }));
  }
  return ok({ elementStates, quantities, texts });
}

/** Quantities that parts follow or that states give. */
function quantityNames({ machine }: MachineContext): ReadonlySet<string> {
  const { states, components } = machine.document;
  const ofParts = components.flatMap(({ elements }) =>
    elements.flatMap((element) => ("quantity" in element ? [element.quantity] : [])),
  );
  return new Set([...ofParts, ...states.flatMap(({ quantities = [] }) => quantities.map(({ name }) => name))]);
}

function unitsOfQuantities({ machine }: MachineContext): ReadonlyMap<string, string> {
  const given = machine.document.states.flatMap(({ quantities = [] }) => quantities);
  return new Map(given.map(({ name, unit }) => [name, unit]));
}

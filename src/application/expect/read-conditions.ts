import { isGuarded } from "../../measurement-safety/index.ts";
import { err, ok, type Result } from "../../base/index.ts";
import { formatFault, parseFault, type Fault, type OperatingConditions } from "../../simulation/index.ts";
import type { UnresolvedAnswer } from "../answer.ts";
import type { Conditions } from "../question.ts";
import type { MachineContext } from "../machine-context.ts";
import { describeFault } from "./describe-fault.ts";
import type { ExpectedReadingAnswer } from "./expected-answer.ts";
import { readSettings } from "./read-settings.ts";
import { connectorName, resolveFault } from "./resolve-fault.ts";
import { sharedConditions } from "./shared-conditions.ts";
import type { WrongQuestionAnswer } from "./wrong-question-answer.ts";
import { wrongQuestion } from "./wrong-question.ts";

/** The conditions of a question, understood. */
export interface Understood {
  readonly operatingConditions: OperatingConditions;
  /** The same without the faults; undefined where there are none. */
  readonly normal: OperatingConditions | undefined;
  /** Connectors that are unplugged, by condition or by fault. */
  readonly opened: ReadonlySet<string>;
  /** As an answer repeats them. */
  readonly facts: Pick<ExpectedReadingAnswer, "faults" | "unplugged" | "adapters" | "settings">;
}

type QuestionError = UnresolvedAnswer | WrongQuestionAnswer;

/**
 * Reads the conditions of a question: faults, unplugged connectors, adapters, settings.
 *
 * @param context The machine in its build and state.
 * @param conditions As typed.
 * @returns The situation to work out, or the answer that says what is wrong.
 */
export function readConditions(context: MachineContext, conditions: Conditions): Result<Understood, QuestionError> {
  const faults = all(conditions.faults, (text) => readFault(context, text));
  if (!faults.ok) return faults;
  const unplugged = all(conditions.unplugged, (text) => connectorToOpen(context, text));
  if (!unplugged.ok) return unplugged;
  const adapters = all(conditions.adapters, (text) => readAdapter(context, text));
  if (!adapters.ok) return adapters;
  const settings = readSettings(context, conditions.settings ?? []);
  if (!settings.ok) return settings;
  const base: OperatingConditions = {
    ...(context.state && { state: context.state.id }),
    unplugged: unplugged.value,
    adapters: adapters.value,
    settings: settings.value.elementStates,
    quantities: settings.value.quantities,
  };
  const hasFaults = faults.value.length > 0;
  const off = faults.value.flatMap((fault) => (fault.kind === "unplugged" ? [fault.of] : []));
  return ok({
    operatingConditions: sharedConditions(context.harness, hasFaults ? { ...base, faults: faults.value } : base),
    normal: hasFaults ? sharedConditions(context.harness, base) : undefined,
    opened: new Set([...unplugged.value, ...off]),
    facts: {
      faults: faults.value.map((fault) => ({ text: formatFault(fault), label: describeFault(fault) })),
      unplugged: unplugged.value,
      adapters: adapters.value,
      settings: settings.value.texts,
    },
  });
}

function readFault(context: MachineContext, text: string): Result<Fault, QuestionError> {
  const fault = parseFault(text);
  if (!fault.ok) return err(wrongQuestion(context, [{ code: "unknown-fault", of: text, ...fault.error }]));
  return resolveFault(context, fault.value);
}

function readAdapter(context: MachineContext, text: string): Result<string, QuestionError> {
  const { adapters } = context.machine.document;
  const wanted = text.trim().toLowerCase();
  const adapter = adapters.find((each) => each.id.toLowerCase() === wanted);
  const guarded = adapter?.fits.find((id) => isGuardedConnector(context, id));
  if (guarded !== undefined) return err(leftAlone(context, guarded));
  if (adapter) return ok(adapter.id);
  const known = adapters.length === 0 ? "it lists none" : `it lists ${adapters.map((each) => each.id).join(", ")}`;
  const problem = `The document has no adapter "${text}"; ${known}.`;
  return err(wrongQuestion(context, [{ code: "unknown-adapter", of: text, text: problem }]));
}

/** A connector that may be opened for a reading. */
function connectorToOpen(context: MachineContext, text: string): Result<string, QuestionError> {
  const name = connectorName(context, text);
  return name.ok && isGuardedConnector(context, name.value) ? err(leftAlone(context, name.value)) : name;
}

function isGuardedConnector({ harness }: MachineContext, name: string): boolean {
  const id = harness.book.sides.get(name)?.connector.id ?? name;
  return harness.fitted.connectors.has(id) && isGuarded(harness, { type: "connector", id });
}

function leftAlone(context: MachineContext, connector: string): QuestionError {
  const text = `WARNING: do not open or touch ${connector} for a test. It carries an airbag or high-voltage line, or a line whose purpose is not known. Follow the maker's procedure only.`;
  return wrongQuestion(context, [{ code: "left-alone", of: connector, text }]);
}

/** The values of all texts, or the first refusal. */
function all<Value>(
  texts: readonly string[] | undefined,
  read: (text: string) => Result<Value, QuestionError>,
): Result<readonly Value[], QuestionError> {
  const values: Value[] = [];
  for (const text of texts ?? []) {
    const value = read(text);
    if (!value.ok) return value;
    values.push(value.value);
  }
  return ok(values);
}

import { isGuarded } from "../../safety/index.ts";
import { err, ok, type Result } from "../../base/index.ts";
import { formatFault, parseFault, type Fault, type Situation } from "../../electrics/index.ts";
import type { UnresolvedAnswer } from "../answer.ts";
import type { Conditions } from "../question.ts";
import type { Scene } from "../scene.ts";
import { describeFault } from "./describe-fault.ts";
import type { ExpectAnswer } from "./expect-answer.ts";
import { readSettings } from "./read-settings.ts";
import { connectorName, resolveFault } from "./resolve-fault.ts";
import { sharedSituation } from "./shared-situation.ts";
import type { WrongQuestionAnswer } from "./wrong-question-answer.ts";
import { wrongQuestion } from "./wrong-question.ts";

/** The conditions of a question, understood. */
export interface Understood {
  readonly situation: Situation;
  /** The same without the faults; undefined where there are none. */
  readonly healthy: Situation | undefined;
  /** Connectors that are unplugged, by condition or by fault. */
  readonly opened: ReadonlySet<string>;
  /** As an answer repeats them. */
  readonly facts: Pick<ExpectAnswer, "faults" | "unplugged" | "adapters" | "settings">;
}

type Refusal = UnresolvedAnswer | WrongQuestionAnswer;

/**
 * Reads the conditions of a question: faults, unplugged connectors, adapters, settings.
 *
 * @param scene The machine in its build and state.
 * @param conditions As typed.
 * @returns The situation to work out, or the answer that says what is wrong.
 */
export function readConditions(scene: Scene, conditions: Conditions): Result<Understood, Refusal> {
  const faults = all(conditions.faults, (text) => readFault(scene, text));
  if (!faults.ok) return faults;
  const unplugged = all(conditions.unplugged, (text) => connectorToOpen(scene, text));
  if (!unplugged.ok) return unplugged;
  const adapters = all(conditions.adapters, (text) => readAdapter(scene, text));
  if (!adapters.ok) return adapters;
  const settings = readSettings(scene, conditions.settings ?? []);
  if (!settings.ok) return settings;
  const base: Situation = {
    ...(scene.state && { state: scene.state.id }),
    unplugged: unplugged.value,
    adapters: adapters.value,
    settings: settings.value.stands,
    quantities: settings.value.quantities,
  };
  const hasFaults = faults.value.length > 0;
  const off = faults.value.flatMap((fault) => (fault.kind === "unplugged" ? [fault.of] : []));
  return ok({
    situation: sharedSituation(scene.harness, hasFaults ? { ...base, faults: faults.value } : base),
    healthy: hasFaults ? sharedSituation(scene.harness, base) : undefined,
    opened: new Set([...unplugged.value, ...off]),
    facts: {
      faults: faults.value.map((fault) => ({ text: formatFault(fault), label: describeFault(fault) })),
      unplugged: unplugged.value,
      adapters: adapters.value,
      settings: settings.value.texts,
    },
  });
}

function readFault(scene: Scene, text: string): Result<Fault, Refusal> {
  const fault = parseFault(text);
  if (!fault.ok) return err(wrongQuestion(scene, [{ code: "unknown-fault", of: text, ...fault.error }]));
  return resolveFault(scene, fault.value);
}

function readAdapter(scene: Scene, text: string): Result<string, Refusal> {
  const { adapters } = scene.machine.document;
  const wanted = text.trim().toLowerCase();
  const adapter = adapters.find((each) => each.id.toLowerCase() === wanted);
  const guarded = adapter?.fits.find((id) => isGuardedConnector(scene, id));
  if (guarded !== undefined) return err(leftAlone(scene, guarded));
  if (adapter) return ok(adapter.id);
  const known = adapters.length === 0 ? "it lists none" : `it lists ${adapters.map((each) => each.id).join(", ")}`;
  const problem = `The document has no adapter "${text}"; ${known}.`;
  return err(wrongQuestion(scene, [{ code: "unknown-adapter", of: text, text: problem }]));
}

/** A connector that may be opened for a reading. */
function connectorToOpen(scene: Scene, text: string): Result<string, Refusal> {
  const name = connectorName(scene, text);
  return name.ok && isGuardedConnector(scene, name.value) ? err(leftAlone(scene, name.value)) : name;
}

function isGuardedConnector({ harness }: Scene, name: string): boolean {
  const id = harness.book.halves.get(name)?.connector.id ?? name;
  return harness.fitted.connectors.has(id) && isGuarded(harness, { type: "connector", id });
}

function leftAlone(scene: Scene, connector: string): Refusal {
  const text = `${connector} is neither opened nor touched for a check: it carries an airbag or high-voltage line, or one of which nothing is known. Only the maker's own procedure applies.`;
  return wrongQuestion(scene, [{ code: "left-alone", of: connector, text }]);
}

/** The values of all texts, or the first refusal. */
function all<Value>(
  texts: readonly string[] | undefined,
  read: (text: string) => Result<Value, Refusal>,
): Result<readonly Value[], Refusal> {
  const values: Value[] = [];
  for (const text of texts ?? []) {
    const value = read(text);
    if (!value.ok) return value;
    values.push(value.value);
  }
  return ok(values);
}

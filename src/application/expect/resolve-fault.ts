import { err, ok, unreachable, type Result } from "../../base/index.ts";
import type { Fault } from "../../simulation/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import type { UnresolvedAnswer } from "../answer.ts";
import type { MachineContext } from "../machine-context.ts";
import { nameInQuestion } from "./name-in-question.ts";
import type { WrongQuestionAnswer } from "./wrong-question-answer.ts";
import { wrongQuestion } from "./wrong-question.ts";

type QuestionError = UnresolvedAnswer | WrongQuestionAnswer;
type Named = Result<string, QuestionError>;

/** Sorts of thing that are more than one wire, contact, part or point. */
const TOO_WIDE: ReadonlySet<string> = new Set(["component", "connector", "net", "segment", "zone", "code"]);

/**
 * Replaces the names in a fault by canonical ids, as everywhere names are resolved.
 *
 * @param context The machine in its build and state.
 * @param fault The fault as read from its text.
 * @returns The fault with ids; or the answer that says which name fits nothing, several things, or a thing of the wrong sort.
 */
export function resolveFault(context: MachineContext, fault: Fault): Result<Fault, QuestionError> {
  const pair = (names: readonly [string, string]): Result<readonly [string, string], QuestionError> => {
    const first = placeName(context, names[0]);
    if (!first.ok) return first;
    const second = placeName(context, names[1]);
    return second.ok ? ok([first.value, second.value]) : second;
  };
  switch (fault.kind) {
    case "bridge": {
      const between = pair(fault.between);
      return between.ok ? ok({ ...fault, between: between.value }) : between;
    }
    case "cross-wired": {
      const cavities = pair(fault.cavities);
      return cavities.ok ? ok({ ...fault, cavities: cavities.value }) : cavities;
    }
    case "short": {
      const ends = pair([fault.of, fault.to]);
      return ends.ok ? ok({ ...fault, of: ends.value[0], to: ends.value[1] }) : ends;
    }
    case "unplugged":
      return withTarget(fault, connectorName(context, fault.of));
    case "open":
    case "high-resistance":
    case "blown":
    case "stuck-open":
    case "stuck-closed":
    case "stuck-on":
    case "stuck-off":
    case "drift":
    case "loose-terminal":
      return withTarget(fault, placeName(context, fault.of));
    default:
      return unreachable(fault);
  }
}

function withTarget(fault: Extract<Fault, { readonly of: string }>, of: Named): Result<Fault, QuestionError> {
  return of.ok ? ok({ ...fault, of: of.value }) : of;
}

/** The id of a wire, contact, part, point or wire's end. */
function placeName(context: MachineContext, text: string): Named {
  const named = nameInQuestion(context, text);
  if (!named.ok) return named;
  const { type, id } = named.value;
  if (!TOO_WIDE.has(type)) return ok(id);
  const parts = type === "component" ? elementsOf(context.harness, id) : [];
  const choice = parts.length === 0 ? "" : ` Its parts: ${parts.join(", ")}.`;
  const problem = `"${text}" is more than one part. Name the wire, contact or part that you mean.${choice}`;
  return err(wrongQuestion(context, [{ code: "wrong-target", of: text, text: problem }]));
}

/**
 * The id of a connector that is to be unplugged.
 *
 * @param context The machine in its build and state.
 * @param text A connector or half of one, as typed.
 */
export function connectorName(context: MachineContext, text: string): Named {
  const named = nameInQuestion(context, text);
  if (!named.ok) return named;
  const { type, id } = named.value;
  if (type === "connector") return ok(id);
  const own = [...context.harness.fitted.connectors.values()].filter((each) => each.component === id);
  const choice = own.length === 0 ? "" : ` Connectors there: ${own.map((each) => each.id).join(", ")}.`;
  const problem = `"${text}" is not a connector. Only a connector can be disconnected.${choice}`;
  return err(wrongQuestion(context, [{ code: "wrong-target", of: text, text: problem }]));
}

function elementsOf({ fitted }: Harness, component: string): readonly string[] {
  return fitted.components.get(component)?.elements.map((element) => `${component}.${element.id}`) ?? [];
}

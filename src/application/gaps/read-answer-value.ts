import { err, ok, type Result } from "../../base/index.ts";
import { HarnessDocument, NetKind, type Permit } from "../../harness-model/index.ts";
import type { AnswerTarget } from "./answer-target.ts";
import { ADAPTERS, type AdapterName } from "./part-library.ts";
import { readInside, type Inside } from "./read-inside.ts";

/** What can be answered with one value. */
export const ANSWERABLE = [
  "sealed",
  "permits",
  "terminal-size",
  "access",
  "zone",
  "hazards",
  "conditions",
  "net-kind",
  "harmless",
  "inside",
  "adapter",
] as const;
/** What an answer says. */
export type AnswerWhat = (typeof ANSWERABLE)[number];

/** An answer that was understood. */
export type AnswerValue =
  | { readonly what: "harmless" }
  | { readonly what: "sealed"; readonly sealed: boolean }
  | { readonly what: "permits"; readonly permits: readonly Permit[] }
  | { readonly what: "terminal-size"; readonly terminalMm: number }
  | {
      readonly what: "access";
      readonly access: { readonly minutes: number; readonly states: string | readonly string[] };
    }
  | { readonly what: "zone"; readonly zone: string }
  | { readonly what: "hazards"; readonly hazards: readonly { readonly kind: string; readonly text: string }[] }
  | { readonly what: "conditions"; readonly conditions: readonly string[] }
  | { readonly what: "net-kind"; readonly kind: NetKind }
  | { readonly what: "inside"; readonly inside: Inside }
  | { readonly what: "adapter"; readonly adapter: AdapterName };

/** Why a value is no answer. */
interface ValueProblem {
  readonly message: string;
  readonly hint: string;
}

type Read = Result<AnswerValue, ValueProblem>;

/** To which sorts of item each answer belongs. */
const BELONGS: Readonly<Record<AnswerWhat, readonly AnswerTarget["sort"][]>> = {
  sealed: ["connector", "cavity"],
  permits: ["connector"],
  "terminal-size": ["connector", "cavity"],
  access: ["machine", "connector", "stud"],
  zone: ["connector", "stud", "splice", "component", "segment"],
  hazards: ["zone"],
  conditions: ["state"],
  "net-kind": ["net"],
  harmless: ["wire", "cavity", "connector"],
  inside: ["component"],
  adapter: ["connector"],
};

const { connectors, states, zones } = HarnessDocument.shape;
const PERMITS = connectors.element.shape.permits.unwrap().element.options;
const CONDITIONS = states.element.shape.conditions.element.options;
const HAZARDS = zones.element.shape.hazards.unwrap().element.shape.kind.options;

/**
 * Understands the value of an answer.
 *
 * @param document The document.
 * @param target What it is about.
 * @param answer What is answered, and the value as typed.
 * @returns The value, or why it is none, with what may be given.
 */
export function readAnswerValue(
  document: HarnessDocument,
  target: AnswerTarget,
  answer: { readonly what: string; readonly value: string },
): Read {
  const what = ANSWERABLE.find((each) => each === answer.what);
  if (!what) return fault(`"${answer.what}" has no single value.`, `It is one of ${ANSWERABLE.join(", ")}.`);
  if (!BELONGS[what].includes(target.sort))
    return fault(`A ${target.sort} has no value "${what}".`, `It belongs to: ${BELONGS[what].join(", ")}.`);
  const value = answer.value.trim();
  switch (what) {
    case "harmless":
      if (isYes(value)) return ok({ what });
      return fault(`"${value}" is not possible here.`, "Write harmless=yes. For another line, write nothing.");
    case "sealed":
      return isYes(value) || value === "no"
        ? ok({ what, sealed: isYes(value) })
        : fault(`"${value}" is not yes or no.`, "Write sealed=yes or sealed=no.");
    case "permits": {
      const permits = value === "none" ? [] : optionsOf(value, PERMITS);
      return permits
        ? ok({ what, permits })
        : fault(`"${value}" is no list of permits.`, `They are ${PERMITS.join(", ")}, or none.`);
    }
    case "terminal-size":
      return readTerminalSize(value);
    case "access":
      return readAccess(document, value);
    case "zone":
      return readZone(value);
    case "hazards":
      return readHazards(value);
    case "conditions": {
      const conditions = optionsOf(value, CONDITIONS);
      return conditions
        ? ok({ what, conditions })
        : fault(`"${value}" is no list of conditions.`, `They are ${CONDITIONS.join(", ")}.`);
    }
    case "net-kind": {
      const kind = NetKind.safeParse(value);
      return kind.success
        ? ok({ what, kind: kind.data })
        : fault(`"${value}" is no kind of net.`, `It is one of ${NetKind.options.join(", ")}.`);
    }
    case "inside": {
      const inside = readInside(document, target.id, value);
      return inside.ok ? ok({ what, inside: inside.value }) : inside;
    }
    case "adapter": {
      const adapter = ADAPTERS.find(({ name }) => name === value)?.name;
      return adapter
        ? ok({ what, adapter })
        : fault(
            `"${value}" is no adapter of the library.`,
            `It is one of ${ADAPTERS.map(({ name }) => name).join(", ")}.`,
          );
    }
  }
}

function readZone(value: string): Read {
  return /^[\p{L}\p{N}][\p{L}\p{N}._+-]*$/u.test(value)
    ? ok({ what: "zone", zone: value })
    : fault(
        `"${value}" is no id of a zone.`,
        "An id has letters, digits and . _ + - only. A new zone is made if there is none with this id.",
      );
}

function readTerminalSize(value: string): Read {
  const number = Number(value.replace(",", ".").replace(/\s*mm$/u, ""));
  return value !== "" && number > 0 && number <= 100
    ? ok({ what: "terminal-size", terminalMm: number })
    : fault(`"${value}" is no terminal size.`, "Give the width of the terminal in mm, such as 0.64 or 2.8.");
}

function readAccess(document: HarnessDocument, value: string): Read {
  const parts = /^(\d+(?:[.,]\d+)?)\s*min(?:utes)?[\s,]+(.+)$/u.exec(value);
  const hint = `Give minutes and states: "5 min any", or "5 min ${document.states[0]?.id ?? "OFF"}".`;
  if (!parts) return fault(`"${value}" is no time and states.`, hint);
  const states = parts[2] === "any" ? "any" : wordsOf(parts[2] ?? "");
  const known = new Set<string>(document.states.map(({ id }) => id));
  const unknown = states === "any" ? [] : states.filter((id) => !known.has(id));
  if (unknown.length > 0) return fault(`The document has no state ${unknown.join(", ")}.`, hint);
  return ok({ what: "access", access: { minutes: Number((parts[1] ?? "").replace(",", ".")), states } });
}

function readHazards(value: string): Read {
  if (value === "none") return ok({ what: "hazards", hazards: [] });
  const hint = `Write none, or sort and words: "hot: exhaust; wet: spray". Sorts: ${HAZARDS.join(", ")}.`;
  const hazards = value.split(";").flatMap((text) => {
    const [, word = "", words = ""] = /^\s*([a-z-]+)\s*:\s*(.+?)\s*$/u.exec(text) ?? [];
    const kind = HAZARDS.find((each) => each === word);
    return kind ? [{ kind, text: words }] : [];
  });
  return hazards.length === value.split(";").length
    ? ok({ what: "hazards", hazards })
    : fault(`"${value}" is no list of hazards.`, hint);
}

/** The options that a list of words names; undefined where it names none, or a word is no option. */
function optionsOf<Option extends string>(text: string, options: readonly Option[]): readonly Option[] | undefined {
  const words = wordsOf(text);
  const found = words.flatMap((word) => options.find((each) => each === word) ?? []);
  return words.length > 0 && found.length === words.length ? found : undefined;
}

function wordsOf(text: string): readonly string[] {
  return text.split(/[\s,]+/u).filter((word) => word !== "");
}

function isYes(value: string): boolean {
  return value === "yes";
}

function fault(message: string, hint: string): Result<never, ValueProblem> {
  return err({ message, hint });
}

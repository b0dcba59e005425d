import { err, ok, type Result } from "../base/index.ts";

/** A parsed option expression. */
export type OptionExpression =
  | { readonly kind: "option"; readonly id: string }
  | { readonly kind: "not"; readonly of: OptionExpression }
  | { readonly kind: "and" | "or"; readonly all: readonly OptionExpression[] };

/** Why a text is no option expression; `position` counts characters from 0. */
export interface OptionExpressionFault {
  readonly position: number;
  readonly message: string;
}

interface Token {
  readonly text: string;
  readonly position: number;
}

const TOKEN = /\s*(?:([&|!()])|([\p{L}\p{N}][\p{L}\p{N}._+-]*))/uy;
/** Deepest nesting of brackets and negations: an expression is written by a person, and the parser walks itself down. */
const DEEPEST = 64;

function tokens(text: string): Result<Token[], OptionExpressionFault> {
  const found: Token[] = [];
  let position = 0;
  while (position < text.trimEnd().length) {
    TOKEN.lastIndex = position;
    const match = TOKEN.exec(text);
    const token = match?.[1] ?? match?.[2];
    if (!match || token === undefined) {
      const rest = text.slice(position).trimStart();
      const [character = ""] = rest;
      return err({ position: text.length - rest.length, message: `Unexpected character "${character}"` });
    }
    position = TOKEN.lastIndex;
    found.push({ text: token, position: position - token.length });
  }
  return ok(found);
}

class FaultAt extends Error {
  readonly position: number;
  constructor(position: number, message: string) {
    super(message);
    this.position = position;
  }
}

/**
 * Reads an option expression: option ids joined by `&` (and), `|` (or), `!` (not) and brackets; `&` binds closer than `|`.
 *
 * @param text The expression, such as `A & (B | !C)`.
 * @returns The parsed expression, or the first fault with its position.
 * @example
 * ```ts
 * import { evaluateOptionExpression, parseOptionExpression } from "ohmward/harness-model";
 * const parsed = parseOptionExpression("A & (B | !C)");
 * if (!parsed.ok) throw new Error(parsed.error.message);
 * expect(evaluateOptionExpression(parsed.value, new Set(["A"]))).toBe(true);
 * expect(evaluateOptionExpression(parsed.value, new Set(["A", "C"]))).toBe(false);
 * ```
 */
export function parseOptionExpression(text: string): Result<OptionExpression, OptionExpressionFault> {
  const list = tokens(text);
  if (!list.ok) return list;
  let next = 0;
  const peek = (): string | undefined => list.value[next]?.text;
  const here = (): number => list.value[next]?.position ?? text.length;
  const series = (
    kind: "and" | "or",
    sign: string,
    part: (depth: number) => OptionExpression,
    depth: number,
  ): OptionExpression => {
    const first = part(depth);
    const all = [first];
    while (peek() === sign) {
      next++;
      all.push(part(depth));
    }
    return all.length === 1 ? first : { kind, all };
  };
  const either = (depth: number): OptionExpression => series("or", "|", both, depth);
  const both = (depth: number): OptionExpression => series("and", "&", single, depth);
  const single = (depth: number): OptionExpression => {
    const position = here();
    const token = peek();
    if (depth > DEEPEST) throw new FaultAt(position, `Nested deeper than ${DEEPEST} levels`);
    if (token === undefined) throw new FaultAt(position, "An option id is missing at the end");
    next++;
    if (token === "!") return { kind: "not", of: single(depth + 1) };
    if (token === "(") {
      const inner = either(depth + 1);
      if (peek() !== ")") throw new FaultAt(here(), "A closing bracket is missing");
      next++;
      return inner;
    }
    if (token === "&" || token === "|" || token === ")")
      throw new FaultAt(position, `An option id is missing before "${token}"`);
    return { kind: "option", id: token };
  };
  try {
    const expression = either(0);
    if (next < list.value.length)
      return err({ position: here(), message: `An operator is missing before "${peek() ?? ""}"` });
    return ok(expression);
  } catch (fault) {
    if (fault instanceof FaultAt) return err({ position: fault.position, message: fault.message });
    throw fault;
  }
}

/**
 * Says whether an expression holds for a set of fitted options.
 *
 * @param expression A parsed expression.
 * @param fitted Ids of the fitted options.
 */
export function evaluateOptionExpression(expression: OptionExpression, fitted: ReadonlySet<string>): boolean {
  switch (expression.kind) {
    case "option":
      return fitted.has(expression.id);
    case "not":
      return !evaluateOptionExpression(expression.of, fitted);
    case "and":
      return expression.all.every((part) => evaluateOptionExpression(part, fitted));
    case "or":
      return expression.all.some((part) => evaluateOptionExpression(part, fitted));
  }
}

/** Option ids an expression names, in order of appearance, each once. */
export function optionsNamed(expression: OptionExpression): readonly string[] {
  const named = new Set<string>();
  const visit = (part: OptionExpression): void => {
    if (part.kind === "option") named.add(part.id);
    else if (part.kind === "not") visit(part.of);
    else part.all.forEach(visit);
  };
  visit(expression);
  return [...named];
}

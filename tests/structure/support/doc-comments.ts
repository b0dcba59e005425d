import ts from "typescript";
import type { ProjectFile } from "./project-files.ts";

/** One fault of a doc comment: "path:line what is wrong". */
export type DocFault = string;

/** A runnable example of a doc comment. */
export interface DocExample {
  readonly path: string;
  /** Line of the comment, from 1. */
  readonly line: number;
  readonly code: string;
}

/** What the doc comments of one file hold and lack. */
export interface DocReport {
  readonly faults: readonly DocFault[];
  readonly examples: readonly DocExample[];
}

/**
 * Reads the doc comments of one TypeScript file. A fault is: an export without a comment, or whose comment has no words before its
 * tags; a `@param` that names no parameter; an `@example` without a fenced `ts` block, or whose block asserts nothing.
 */
export function readDocComments(file: ProjectFile): DocReport {
  const source = ts.createSourceFile(file.path, file.text, ts.ScriptTarget.Latest, true);
  const faults: DocFault[] = [];
  const examples: DocExample[] = [];
  const lineOf = (node: ts.Node): number => source.getLineAndCharacterOfPosition(node.getStart(source)).line + 1;
  const fault = (node: ts.Node, text: string): void => void faults.push(`${file.path}:${lineOf(node)} ${text}`);

  // One name, one comment: overloads share one, and so do a schema and the type inferred from it under the same name.
  const firstOf = new Map(exportsOf(source).toReversed());
  for (const [name, node] of exportsOf(source)) {
    if (ts.getJSDocCommentsAndTags(node).filter(ts.isJSDoc).some(hasWords)) firstOf.delete(name);
  }
  for (const [name, node] of firstOf) fault(node, `export ${name} has no doc comment`);
  const visit = (node: ts.Node): void => {
    for (const comment of ts.getJSDocCommentsAndTags(node).filter(ts.isJSDoc)) {
      if (comment.parent !== node) continue;
      for (const name of strayParameters(comment, node)) fault(comment, `@param ${name} names no parameter`);
      for (const text of exampleTexts(comment.getText(source))) {
        const code = /```ts\n([\s\S]*?)```/u.exec(text)?.[1];
        if (code === undefined) fault(comment, "@example has no fenced ts block");
        else if (!/\bexpect\(/u.test(code)) fault(comment, "@example asserts nothing");
        else examples.push({ path: file.path, line: lineOf(comment), code });
      }
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return { faults, examples };
}

/** Name and declaration of everything a file exports of its own. */
function exportsOf(source: ts.SourceFile): readonly (readonly [string, ts.Node])[] {
  const listed = new Set(source.statements.flatMap(namesListedForExport));
  return source.statements.flatMap((statement) => {
    const isExported =
      ts.canHaveModifiers(statement) &&
      (ts.getModifiers(statement) ?? []).some((modifier) => modifier.kind === ts.SyntaxKind.ExportKeyword);
    if (ts.isExportAssignment(statement)) return [["default", statement] as const];
    return declaredNames(statement)
      .filter((name) => isExported || listed.has(name))
      .map((name) => [name, statement] as const);
  });
}

function namesListedForExport(statement: ts.Statement): readonly string[] {
  if (!ts.isExportDeclaration(statement) || statement.moduleSpecifier !== undefined) return [];
  const clause = statement.exportClause;
  if (clause === undefined || !ts.isNamedExports(clause)) return [];
  return clause.elements.map((element) => (element.propertyName ?? element.name).text);
}

function declaredNames(statement: ts.Statement): readonly string[] {
  if (ts.isVariableStatement(statement)) {
    return statement.declarationList.declarations.map((declaration) => declaration.name.getText());
  }
  const isNamed =
    ts.isFunctionDeclaration(statement) ||
    ts.isClassDeclaration(statement) ||
    ts.isInterfaceDeclaration(statement) ||
    ts.isTypeAliasDeclaration(statement) ||
    ts.isEnumDeclaration(statement);
  return isNamed ? [statement.name?.text ?? "default"] : [];
}

function hasWords(comment: ts.JSDoc): boolean {
  return (ts.getTextOfJSDocComment(comment.comment) ?? "").trim() !== "";
}

function strayParameters(comment: ts.JSDoc, node: ts.Node): readonly string[] {
  const tags: readonly ts.JSDocTag[] = comment.tags ?? [];
  const named = tags.flatMap((tag) => (ts.isJSDocParameterTag(tag) ? [tag.name.getText().split(".")[0] ?? ""] : []));
  const parameters = parametersOf(node);
  const real = new Set(parameters.map((parameter) => parameter.name.getText()));
  const stray = [...new Set(named)].filter((name) => !real.has(name));
  // A parameter that is taken apart on the spot has no name of its own; its comment gives it one.
  const nameless = parameters.filter((parameter) => !ts.isIdentifier(parameter.name)).length;
  return stray.slice(nameless);
}

function parametersOf(node: ts.Node): readonly ts.ParameterDeclaration[] {
  if (ts.isFunctionLike(node)) return node.parameters.filter((parameter) => ts.isParameter(parameter));
  if (ts.isVariableStatement(node))
    return node.declarationList.declarations.flatMap((item) => functionParameters(item));
  if (ts.isPropertySignature(node) || ts.isPropertyDeclaration(node) || ts.isPropertyAssignment(node)) {
    return functionParameters(node);
  }
  return ts.isTypeAliasDeclaration(node) ? parametersOf(node.type) : [];
}

interface MayHoldFunction {
  readonly initializer?: ts.Node | undefined;
  readonly type?: ts.Node | undefined;
}

function functionParameters({ initializer, type }: MayHoldFunction): readonly ts.ParameterDeclaration[] {
  if (initializer !== undefined && ts.isFunctionLike(initializer)) return parametersOf(initializer);
  return type !== undefined && ts.isFunctionLike(type) ? parametersOf(type) : [];
}

/** The text of each `@example`, without the stars at the start of lines. Read by hand: code may hold an `@` of its own. */
function exampleTexts(comment: string): readonly string[] {
  const texts: string[] = [];
  let isInExample = false;
  let isInFence = false;
  const body = comment.replace(/^\/\*\*/u, "").replace(/\*\/$/u, "");
  for (const rawLine of body.split("\n")) {
    const line = rawLine.replace(/^\s*\* ?/u, "");
    const tag = isInFence ? undefined : /^\s*@(\w+)/u.exec(line)?.[1];
    if (line.trimStart().startsWith("```")) isInFence = !isInFence;
    if (tag !== undefined) {
      isInExample = tag === "example";
      if (isInExample) texts.push("");
    } else if (isInExample) {
      texts.push(`${texts.pop() ?? ""}${line}\n`);
    }
  }
  return texts;
}

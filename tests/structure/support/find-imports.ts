import ts from "typescript";
import type { ProjectFile } from "./project-files.ts";

/** One place where a file names another file or a package. */
export interface Import {
  readonly target: string;
  /** Line in the file, from 1. */
  readonly line: number;
  /** Names of the values that are imported; empty where only types are, undefined where it cannot be told. */
  readonly values?: readonly string[];
}

/**
 * Lists everything a file imports: `import`, `export ... from`, `import()` of values and of types, `require()`,
 * `new URL(..., import.meta.url)` and reference comments. Of a component all script blocks and the markup are read.
 */
export function findImports(file: ProjectFile): readonly Import[] {
  const isComponent = file.path.endsWith(".svelte");
  const source = ts.createSourceFile(
    file.path,
    isComponent ? scriptsOf(file.text) : file.text,
    ts.ScriptTarget.Latest,
    true,
  );
  const found: Import[] = [];
  const visit = (node: ts.Node): void => {
    const target = targetOf(node);
    if (target !== undefined && ts.isStringLiteralLike(target)) {
      const values = valuesOf(node);
      found.push({ target: target.text, line: lineOf(source, node.getStart(source)), ...(values && { values }) });
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  for (const { fileName, pos } of [...source.referencedFiles, ...source.typeReferenceDirectives]) {
    found.push({ target: fileName, line: lineOf(source, pos) });
  }
  return isComponent ? [...found, ...importsOfMarkup(file.text)] : found;
}

function targetOf(node: ts.Node): ts.Node | undefined {
  if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node)) return node.moduleSpecifier;
  if (ts.isExternalModuleReference(node)) return node.expression;
  if (ts.isImportTypeNode(node)) return ts.isLiteralTypeNode(node.argument) ? node.argument.literal : undefined;
  if (ts.isCallExpression(node)) {
    const isRequire = ts.isIdentifier(node.expression) && node.expression.text === "require";
    return isRequire || node.expression.kind === ts.SyntaxKind.ImportKeyword ? node.arguments[0] : undefined;
  }
  if (ts.isNewExpression(node) && node.arguments?.[1]?.getText() === "import.meta.url") return node.arguments[0];
  return undefined;
}

/** The values that an import or export names; types are none. */
function valuesOf(node: ts.Node): readonly string[] | undefined {
  if (ts.isImportTypeNode(node)) return [];
  if (ts.isExportDeclaration(node)) return node.isTypeOnly ? [] : undefined;
  if (!ts.isImportDeclaration(node)) return undefined;
  const { importClause } = node;
  if (!importClause) return undefined;
  if (importClause.phaseModifier === ts.SyntaxKind.TypeKeyword) return [];
  const { namedBindings } = importClause;
  if (!namedBindings || !ts.isNamedImports(namedBindings)) return undefined;
  return namedBindings.elements
    .filter(({ isTypeOnly }) => !isTypeOnly)
    .map(({ propertyName, name }) => (propertyName ?? name).text);
}

const scriptBlock = /(<script\b[^>]*>)([\s\S]*?)(<\/script>)/gu;

/** The script blocks alone, each on the line where it stands. */
function scriptsOf(text: string): string {
  let end = 0;
  let scripts = "";
  for (const match of text.matchAll(scriptBlock)) {
    const start = match.index + (match[1] ?? "").length;
    scripts += lineEndsOf(text.slice(end, start)) + (match[2] ?? "");
    end = start + (match[2] ?? "").length;
  }
  return scripts;
}

function importsOfMarkup(text: string): readonly Import[] {
  const markup = text.replace(scriptBlock, lineEndsOf);
  return [...markup.matchAll(/\bimport\(\s*["'`]([^"'`]+)/gu)].map((match) => ({
    target: match[1] ?? "",
    line: markup.slice(0, match.index).split("\n").length,
  }));
}

function lineEndsOf(text: string): string {
  return text.replace(/[^\n]/gu, "");
}

function lineOf(source: ts.SourceFile, position: number): number {
  return source.getLineAndCharacterOfPosition(position).line + 1;
}

import ts from "typescript";
import type { ProjectFile } from "./project-files.ts";

/** One place where a file names another file or a package. */
export interface Import {
  readonly target: string;
  /** Line in the file, from 1. */
  readonly line: number;
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
  const add = (target: ts.Node | undefined, at: number): void => {
    if (target !== undefined && ts.isStringLiteralLike(target))
      found.push({ target: target.text, line: lineOf(source, at) });
  };
  const visit = (node: ts.Node): void => {
    add(targetOf(node), node.getStart(source));
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

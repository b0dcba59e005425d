import { parse } from "svelte/compiler";
import ts from "typescript";

/** A text of a source file that a person may read, with its line. */
export interface ShownText {
  readonly line: number;
  readonly text: string;
}

/** The texts of a TypeScript or Svelte file: its strings, parts of templates and markup; paths of imports and comments are none. */
export function shownTexts(path: string, source: string): readonly ShownText[] {
  const lineAt = (position: number): number => source.slice(0, position).split("\n").length;
  if (!path.endsWith(".svelte")) return textsOfScript(source).map(({ at, text }) => ({ line: lineAt(at), text }));
  const found: ShownText[] = [];
  const walk = (node: unknown): void => {
    if (Array.isArray(node)) node.forEach(walk);
    if (typeof node !== "object" || node === null || Array.isArray(node)) return;
    const { type, start, data, value } = node as Record<string, unknown>;
    if (typeof start === "number" && type === "Text" && typeof data === "string")
      found.push({ line: lineAt(start), text: data });
    if (typeof start === "number" && type === "Literal" && typeof value === "string")
      found.push({ line: lineAt(start), text: value });
    const cooked = type === "TemplateElement" ? (value as { readonly cooked?: unknown }).cooked : undefined;
    if (typeof start === "number" && typeof cooked === "string") found.push({ line: lineAt(start), text: cooked });
    for (const [key, part] of Object.entries(node)) if (key !== "css" && key !== "source") walk(part);
  };
  walk(parse(source, { modern: true }));
  return found;
}

function textsOfScript(source: string): readonly { readonly at: number; readonly text: string }[] {
  const file = ts.createSourceFile("a.ts", source, ts.ScriptTarget.Latest, true);
  const found: { at: number; text: string }[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node)) return;
    if (ts.isStringLiteralLike(node) || ts.isTemplateHead(node) || ts.isTemplateMiddle(node) || ts.isTemplateTail(node))
      found.push({ at: node.getStart(file), text: node.text });
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}

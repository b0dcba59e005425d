import { afterAll, beforeAll, describe, expect, test, vi } from "vitest";
import { readDocComments } from "./support/doc-comments.ts";
import { projectFiles } from "./support/project-files.ts";
import { removeExamples, runExample } from "./support/run-example.ts";

const read = (text: string): ReturnType<typeof readDocComments> => readDocComments({ path: "src/x/a.ts", text });

beforeAll(() => {
  vi.stubGlobal("expect", expect);
});
afterAll(removeExamples);

describe("readDocComments() on planted comments", () => {
  test.each([
    ["a function", `export function a(): void {}`, "src/x/a.ts:1 export a has no doc comment"],
    ["a constant", `export const a = 1;`, "src/x/a.ts:1 export a has no doc comment"],
    ["an interface", `\nexport interface A { readonly b: number }`, "src/x/a.ts:2 export A has no doc comment"],
    ["a type", `export type A = string;`, "src/x/a.ts:1 export A has no doc comment"],
    ["a class", `export class A {}`, "src/x/a.ts:1 export A has no doc comment"],
    ["an export by list", `const a = 1;\nexport { a as b };`, "src/x/a.ts:1 export a has no doc comment"],
    ["a default export", `export default 5;`, "src/x/a.ts:1 export default has no doc comment"],
    ["an ordinary comment", `// Words.\nexport const a = 1;`, "src/x/a.ts:2 export a has no doc comment"],
    [
      "tags without words",
      `/** @returns one */\nexport const a = (): number => 1;`,
      "src/x/a.ts:2 export a has no doc comment",
    ],
    [
      "a wrong @param",
      `/** W. @param b x */\nexport function a(c: number): number { return c; }`,
      "@param b names no parameter",
    ],
    [
      "a wrong @param of an arrow",
      `/**\n * W.\n * @param b x\n */\nexport const a = (c: number): number => c;`,
      "@param b",
    ],
    [
      "a wrong @param of a member",
      `interface A {\n/**\n * W.\n * @param b x\n */\nf(c: number): void }`,
      "@param b names",
    ],
    [
      "one name too many",
      `/**\n * W.\n * @param o x\n * @param p x\n */\nfunction a({ c }: T): T { return c; }`,
      "@param p",
    ],
    [
      "an example without code",
      `/**\n * W.\n * @example none\n */\nexport const a = 1;`,
      "@example has no fenced ts block",
    ],
    [
      "an example of nothing",
      `/**\n * W.\n * @example\n * \`\`\`ts\n * a();\n * \`\`\`\n */\nexport const a = 1;`,
      "asserts nothing",
    ],
  ])("finds fault with %s", (_label, text, fault) => {
    const { faults, examples } = read(text);
    expect(faults).toEqual([expect.stringContaining(fault)]);
    expect(examples).toEqual([]);
  });

  test.each([
    ["a comment with words", `/** Words. */\nexport const a = 1;`],
    [
      "names that are real",
      `/**\n * W.\n * @param b x\n * @param c.d y\n */\nexport function a(b: T, c: T): T { return b; }`,
    ],
    ["a parameter taken apart", `/**\n * W.\n * @param options x\n */\nexport function a({ b }: T): T { return b; }`],
    ["one comment for one name", `/** W. */\nexport const A = z.string();\nexport type A = z.infer<typeof A>;`],
    [
      "one comment for overloads",
      `/** W. */\nexport function a(b: 1): 1;\nexport function a(b: 2): 2 {\n  return b;\n}`,
    ],
    ["what is not exported", `const a = 1;\nfunction b(): void {}`],
    ["what is only passed on", `export { a } from "./a.ts";\nexport * from "./b.ts";`],
  ])("is content with %s", (_label, text) => {
    expect(read(text)).toEqual({ faults: [], examples: [] });
  });

  test("takes an example out as it was written", () => {
    const text = `/**\n * Words.\n *\n * @example A title\n * \`\`\`ts\n * // @see nothing\n * expect(1 * 2).toBe(2);\n * \`\`\`\n * @returns x\n */\nexport const a = 1;`;
    expect(read(text).examples).toEqual([
      { path: "src/x/a.ts", line: 1, code: "// @see nothing\nexpect(1 * 2).toBe(2);\n" },
    ]);
  });

  test("runExample() throws when an example does not hold or does not run", async () => {
    await runExample("planted-right", `import { ok } from "ohmward/base";\nexpect(ok(1 as number).value).toBe(1);`);
    await expect(runExample("planted-wrong", `expect(1 + 1).toBe(3);`)).rejects.toThrow(/expected 2 to be 3/u);
    await expect(
      runExample("planted-unknown", `import { x } from "ohmward/base";\nexpect(x()).toBe(1);`),
    ).rejects.toThrow();
    await expect(
      runExample("planted-no-room", `import { x } from "ohmward/attic";\nexpect(x).toBe(1);`),
    ).rejects.toThrow();
  });
});

describe("the doc comments of the house", () => {
  const reports = projectFiles(/^src\/[a-z]+\/.*\.ts$/u).map(readDocComments);
  const examples = reports.flatMap((report) => report.examples);

  test("leave no export out and name real parameters", () => {
    expect(reports.length).toBeGreaterThan(0);
    expect(reports.flatMap((report) => report.faults)).toEqual([]);
  });

  test.each(examples.map((example, index) => ({ ...example, name: `${example.path}-${example.line}-${index}` })))(
    "example of $path:$line holds",
    async ({ name, code }) => {
      expect.hasAssertions();
      await runExample(name, code);
    },
  );
});

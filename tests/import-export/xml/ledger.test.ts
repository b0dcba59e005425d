import { describe, expect, test } from "vitest";
import type { Ledger } from "../../../src/import-export/format-reader.ts";
import { classNames, Account } from "../../../src/import-export/xml/source-facts.ts";
import { KBL_CLASSES } from "../../../src/import-export/kbl/kbl-facts.ts";
import { VEC_CLASSES } from "../../../src/import-export/vec/vec-classes.ts";
import { bytesOf } from "./support/edit-text.ts";
import { demoFile, must, readHarness, readTree } from "./support/harness-files.ts";

const excerpts = ["firnlark-excerpt.kbl", "firnlark-excerpt.vec"] as const;
const textOf = (name: string): string => new TextDecoder().decode(demoFile(name));

function ledgerOf(text: string): Ledger {
  const result = readHarness(bytesOf(text));
  if (!result.ok) throw new Error(result.error.map((problem) => problem.message).join("\n"));
  return must(result.value.ledgers?.[0]);
}

function counts({ rows }: Ledger): ReadonlyMap<string, readonly [found: number, sum: number]> {
  return new Map(
    rows.map((row) => [
      row.class,
      [row.found, [...row.kept, ...row.leftOut].reduce((total, { count }) => total + count, 0)],
    ]),
  );
}

describe.each(excerpts)("the ledger of %s", (name) => {
  const text = textOf(name);
  const before = counts(ledgerOf(text));

  test("counts every start tag that stands for a thing: one with an id, a type or parts", () => {
    // Counted in the text itself, without a tree: a tag that is followed by its own end holds no parts.
    const plain = text.replace(/<!--[\s\S]*?-->/gu, "");
    const tags = [...plain.matchAll(/<([\w:]+)((?:\s[^<>]*)?)>(?=\s*(<)?(\/)?)/gu)];
    const items = tags.filter(([, , attributes = "", open, end]) => {
      return /\s(?:id|\w+:type)=/u.test(attributes) || (open !== undefined && end === undefined);
    });
    expect([...before.values()].reduce((sum, [found]) => sum + found, 0)).toBe(items.length);
  });

  test("gives every element of a class away once, kept or left out with a reason", () => {
    for (const [found, sum] of before.values()) expect(sum).toBe(found);
    const reasons = ledgerOf(text).rows.flatMap((row) => [...row.leftOut, ...row.kept].map((share) => share.what));
    expect(reasons.length).toBeGreaterThan(before.size);
    expect(reasons).not.toContain("");
  });

  test("finds one more of a class when an element of it is put in twice, whatever the class", () => {
    const classOf = name.endsWith("kbl") ? KBL_CLASSES : VEC_CLASSES;
    const tried = new Set<string>();
    const tree = readTree(bytesOf(text));
    const classes = new Map<string, string>();
    const visit = (element: typeof tree.root, around: string): void => {
      const own = classOf(element, around);
      if (element.id !== undefined) classes.set(element.id, own);
      element.children.forEach((child) => {
        visit(child, own);
      });
    };
    visit(tree.root, "");
    for (const [id, own] of classes) {
      if (tried.has(own) || id === tree.root.id || own === "Harness") continue;
      const copy = copyOf(text, id);
      if (copy === undefined) continue;
      tried.add(own);
      const result = readHarness(bytesOf(copy));
      // A copy may make the file one that is refused; then every problem is said instead.
      if (!result.ok) {
        expect([own, result.error.length > 0]).toEqual([own, true]);
        continue;
      }
      const after = counts(must(result.value.ledgers?.[0]));
      const [found, sum] = must(after.get(own));
      expect([own, found, sum]).toEqual([own, must(before.get(own))[0] + 1, must(before.get(own))[0] + 1]);
    }
    expect(tried.size).toBeGreaterThan(25);
  }, 120_000);
});

/** The file with an element put in twice, the copy and what is in it under ids of their own; undefined where it holds its own kind. */
function copyOf(text: string, id: string): string | undefined {
  const start = text.lastIndexOf("<", text.indexOf(` id="${id}"`));
  const tag = /^<([\w:]+)/u.exec(text.slice(start))?.[1] ?? "";
  const end = text.indexOf(`</${tag}>`, start) + tag.length + 3;
  const element = text.slice(start, end);
  if (element.split(`<${tag}`).length > 2 && !/^<Cavities|^<Slots/u.test(element)) return undefined;
  const ids = new Set([...element.matchAll(/ id="([^"]+)"/gu)].map((match) => match[1] ?? ""));
  let copy = element;
  for (const each of ids) copy = copy.replace(` id="${each}"`, ` id="${each}_copy"`);
  return text.slice(0, end) + copy + text.slice(end);
}

describe("the account of a file", () => {
  const tree = readTree(bytesOf('<a id="1"><b id="2"><c id="3"/></b><b id="4"><c id="5"/></b><d>plain</d></a>'));
  const [first, second] = tree.root.children;

  test("counts what nobody speaks of as not read, and what is in a thing that was left out as left out with it", () => {
    const account = new Account();
    account.keep([tree.root, undefined], "head");
    account.leaveOut([first], "no use");
    const { rows } = account.ledger(tree, "a.xml", classNames("inner: c"));
    expect(rows).toEqual([
      { class: "a", found: 1, kept: [{ what: "head", count: 1 }], leftOut: [] },
      {
        class: "b",
        found: 2,
        kept: [],
        leftOut: [
          { what: "no use", count: 1 },
          { what: "not read", count: 1 },
        ],
      },
      {
        class: "inner",
        found: 2,
        kept: [],
        leftOut: [
          { what: "its b was left out", count: 1 },
          { what: "not read (c)", count: 1 },
        ],
      },
    ]);
  });

  test("keeps what was left out once and kept another time, under its first name", () => {
    const account = new Account();
    account.leaveOut([second], "no use");
    account.keep([second], "wire");
    account.keep([second], "place");
    const row = account.ledger(tree, "a.xml", classNames("")).rows.find((each) => each.class === "b");
    expect(row?.kept).toEqual([{ what: "wire", count: 1 }]);
  });
});

import { describe, expect, test } from "vitest";
import { z } from "zod";
import { projectFiles } from "./support/project-files.ts";
import { fieldsWithoutDescription } from "./support/schema-fields.ts";

describe("fieldsWithoutDescription() on planted schemas", () => {
  const text = { type: "string", description: "Words" };

  test.each([
    ["a field", { properties: { a: { type: "string" } } }, [".a"]],
    ["an empty description", { properties: { a: { type: "string", description: " " } } }, [".a"]],
    ["a field of a field", { properties: { a: { ...text, properties: { b: {}, c: text } } } }, [".a.b"]],
    ["a field of an entry", { properties: { a: { ...text, items: { properties: { b: {} } } } } }, [".a[].b"]],
    ["a field of a choice", { anyOf: [{ properties: { b: {} } }] }, ["|anyOf|0.b"]],
    ["a definition", { $defs: { D: { properties: { b: {} } } } }, [".b"]],
    ["a reference to nothing described", { $defs: { D: {} }, properties: { a: { $ref: "#/$defs/D" } } }, [".a"]],
    ["a field that is named properties", { properties: { properties: {} } }, [".properties"]],
  ])("finds %s", (_name, schema, paths) => {
    expect(fieldsWithoutDescription(schema)).toEqual(paths);
  });

  test("is content where each has one, also in its definition", () => {
    expect(fieldsWithoutDescription({ $defs: { D: text }, properties: { a: text, b: { $ref: "#/$defs/D" } } })).toEqual(
      [],
    );
  });
});

describe("the schemas of data-schemas", () => {
  const files = projectFiles(/^data-schemas\/.*\.schema\.json$/u).map(({ path, text }) => ({
    path,
    schema: z.looseObject({ $id: z.string(), title: z.string() }).parse(JSON.parse(text)),
  }));

  test("have a name of their own, which is no address of the web", () => {
    expect(files.length).toBeGreaterThan(0);
    const ids = files.map(({ schema }) => schema.$id);
    expect(ids.filter((id) => !/^urn:ohmward:schema:[a-z-]+(?::\d+)?$/u.test(id))).toEqual([]);
    expect(new Set(ids).size).toBe(files.length);
  });

  test.each(files)("$path describes every field", ({ schema }) => {
    expect(fieldsWithoutDescription(schema)).toEqual([]);
  });
});

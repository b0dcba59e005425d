import { schemaFile } from "ohmward/harness-model";
import { describe, expect, test } from "vitest";
import { z } from "zod";
import { fieldsWithoutDescription } from "../structure/support/schema-fields.ts";

const head = { name: "lamp", title: "lamp", madeFrom: "src/lamp" };
const Lamp = z.object({ watt: z.number().describe("Rated power in W") });

describe("schemaFile()", () => {
  test("names the schema by a URN, with the version where there is one", () => {
    const ids = [schemaFile(Lamp, head), schemaFile(Lamp, { ...head, version: 3 })].map(({ fileName, text }) => {
      const { $id, title } = z.object({ $id: z.string(), title: z.string() }).parse(JSON.parse(text));
      return [fileName, $id, title];
    });
    expect(ids).toEqual([
      ["lamp.schema.json", "urn:ohmward:schema:lamp", "Ohmward lamp"],
      ["lamp.schema.json", "urn:ohmward:schema:lamp:3", "Ohmward lamp, version 3"],
    ]);
  });

  test("carries the descriptions of the zod schema", () => {
    expect(fieldsWithoutDescription(JSON.parse(schemaFile(Lamp, head).text))).toEqual([]);
    const bare = z.object({ watt: z.number() });
    expect(fieldsWithoutDescription(JSON.parse(schemaFile(bare, head).text))).toEqual([".watt"]);
  });
});

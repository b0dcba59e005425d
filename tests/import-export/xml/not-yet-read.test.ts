import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { projectFiles, root } from "../../structure/support/project-files.ts";
import { childrenOf } from "../../../src/import-export/xml/xml-element.ts";
import { NEEDS_FILES, publishedFile, publishedPath, readTree } from "./support/harness-files.ts";

// Known gaps are lines of a file, so that one that is closed has to leave it, and a new class of a standard has to be put somewhere.
const formats = [
  { name: "kbl", schemas: ["kbl23_sr1.xsd", "kbl24_sr1.xsd", "kbl2.5-sr1.xsd"] },
  { name: "vec", schemas: ["vec_1.2.2-ud.xsd", "vec_2.1.0-ud.xsd"] },
];

describe.each(formats)("the classes of $name that are not read", ({ name, schemas }) => {
  const lines = readFileSync(join(root, "tests", "import-export", name, "not-yet-read.txt"), "utf8").split("\n");
  const unread = lines.filter((line) => line !== "" && !line.startsWith("#"));
  const page = readFileSync(join(root, "docs", "formats", `${name}.md`), "utf8");
  const read = [...(page.split("\nRead:\n")[1]?.split("\nEverything else")[0] ?? "").matchAll(/`(\w+)`/gu)].map(
    (match) => match[1] ?? "",
  );

  test("are listed once, by what is lost, and none of them is told to be read", () => {
    expect(unread.length).toBeGreaterThan(10);
    expect(read.length).toBeGreaterThan(50);
    expect(new Set(unread).size).toBe(unread.length);
    expect(unread.filter((each) => read.includes(each))).toEqual([]);
    expect(lines.filter((line) => line.startsWith("# ")).length).toBeGreaterThan(3);
  });

  test("are not named in the reader", () => {
    const source = projectFiles(new RegExp(`^src/import-export/${name}/(?!reference-fields).*\\.ts$`, "u"))
      .map((file) => file.text)
      .join("\n");
    // The class of a bundle's section has the name of the element that holds the section of a wire.
    const named = unread.filter((each) => source.includes(`"${each}"`) && each !== "Cross_section_area");
    expect(named).toEqual([]);
  });

  // Source: the schemas of prostep-ivip-e-V/vec, MIT.
  test.skipIf(publishedPath(`xsd/${schemas[0] ?? ""}`) === undefined)(
    `are all there is beside those that are read ${NEEDS_FILES}`,
    () => {
      const classes = new Set<string>();
      for (const schema of schemas) {
        const types = childrenOf(readTree(publishedFile(`xsd/${schema}`)).root, "complexType");
        for (const type of types) classes.add(type.attributes.get("name") ?? "");
      }
      expect([...classes].filter((each) => !read.includes(each) && !unread.includes(each))).toEqual([]);
      expect([...read, ...unread].filter((each) => !classes.has(each))).toEqual([]);
    },
  );
});

import { describe, expect, test } from "vitest";
import { runReading } from "../../../src/import-export/format-reader.ts";
import { findXmlEncoding, looksLikeXml, readXml } from "../../../src/import-export/xml/read-xml.ts";
import { childOf, childrenOf, elementPath } from "../../../src/import-export/xml/xml-element.ts";
import { bytesOf } from "./support/edit-text.ts";
import { readTree } from "./support/harness-files.ts";

describe("readXml()", () => {
  const tree = readTree(
    bytesOf(`<?xml version="1.0"?>
<!-- a comment --><?and an instruction?>
<k:root xmlns:k="urn:k" xmlns:x="http://www.w3.org/2001/XMLSchema-instance" id="r" version="2">
  <part id="p1" x:type="k:Fuse"> 7.5 &#65;&amp;<![CDATA[<]]> </part>
  <part/>
  <other><part id="p3">
    text</part></other>
</k:root>`),
  );

  test("keeps names, namespaces, types, ids, attributes, texts and lines", () => {
    const { root } = tree;
    expect([root.name, root.namespace, root.id, root.attributes.get("version"), root.line]).toEqual([
      "root",
      "urn:k",
      "r",
      "2",
      3,
    ]);
    const [first, second] = childrenOf(root, "part");
    expect([first?.namespace, first?.type, first?.text, first?.line]).toEqual([undefined, "Fuse", "7.5 A&<", 4]);
    expect([second?.id, second?.text, second?.attributes.size]).toEqual([undefined, "", 0]);
    expect(childOf(root, "none")).toBeUndefined();
    expect([...tree.ids.keys()]).toEqual(["r", "p1", "p3"]);
    expect(tree.elementCount).toBe(5);
  });

  test("tells the way to an element, with positions only where there are several", () => {
    const [, second] = childrenOf(tree.root, "part");
    expect([tree.root, second, tree.ids.get("p3")].map((element) => element && elementPath(element))).toEqual([
      "root",
      "part[2]",
      "other/part",
    ]);
  });

  test("goes step by step, can be stopped, and does not depend on where its pieces end", () => {
    const text = `<a>${Array.from({ length: 60_000 }, (_, at) => `<b id="i${at}">grün 電 🜚 ${at}</b>`).join("\n")}</a>`;
    const bytes = bytesOf(text);
    const shares: number[] = [];
    const whole = runReading(readXml(bytes), ({ share }) => void shares.push(share));
    expect(shares.length).toBeGreaterThan(3);
    expect(shares).toEqual(shares.toSorted((a, b) => a - b));
    if (!whole?.ok) throw new Error("refused");
    const texts = whole.value.root.children.map((child) => child.text);
    expect(texts).toEqual(Array.from({ length: 60_000 }, (_, at) => `grün 電 🜚 ${at}`));
    expect(runReading(readXml(bytes), () => false)).toBeUndefined();
  });
});

describe("looksLikeXml()", () => {
  test.each([
    [`<VecContent/>`, true],
    [`<v:VecContent xmlns:v="x">`, true],
    [`\uFEFF<?xml version="1.0"?>\n<!-- <Other> -->\n<?pi <a>?><VecContent `, true],
    [`<Other><VecContent/></Other>`, false],
    [`<VecContents/>`, false],
    [`VecContent`, false],
    [`text <VecContent/>`, false],
    [`<!-- never closed <VecContent/>`, false],
    [`<!DOCTYPE x><VecContent/>`, false],
    [``, false],
  ])("of %j is %s", (text, expected) => {
    expect(looksLikeXml(bytesOf(text), "VecContent")).toBe(expected);
  });
});

describe("findXmlEncoding()", () => {
  const latin1 = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));
  test.each([
    [`<a/>`, "utf-8"],
    [`<?xml version="1.0"?>`, "utf-8"],
    [`<?xml version='1.0' encoding='ISO-8859-1'?>`, "windows-1252"],
    [`<?xml version="1.0" encoding = "utf-8"?>`, "utf-8"],
    [`<?xml version="1.0" encoding="US-ASCII" standalone="yes"?>`, "utf-8"],
    [`\xEF\xBB\xBF<a/>`, "utf-8"],
    [`\xFF\xFE<\0`, "utf-16le"],
    [`\xFE\xFF\0<`, "utf-16be"],
    [`<\0?\0`, "utf-16le"],
    [`\0<\0?`, "utf-16be"],
  ])("of %j is %s", (text, encoding) => {
    expect(findXmlEncoding(latin1(text))).toMatchObject({ kind: "known", encoding });
  });
});

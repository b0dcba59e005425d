import { describe, expect, test } from "vitest";
import { runReading } from "../../../src/import-export/format-reader.ts";
import { XML_LIMITS, readXml } from "../../../src/import-export/xml/read-xml.ts";

// Cases after the XML 1.0 recommendation (well-formedness constraints, sections 2 to 4) and the known kinds of entity attacks.

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);
const latin1 = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));

function utf16(text: string, isLittle: boolean, mark = true): Uint8Array {
  const units = [...(mark ? "\uFEFF" : ""), ...text].map((letter) => letter.charCodeAt(0));
  return Uint8Array.from(units.flatMap((unit) => (isLittle ? [unit & 255, unit >> 8] : [unit >> 8, unit & 255])));
}

const laughs = Array.from({ length: 9 }, (_, at) => `<!ENTITY l${at + 1} "${`&l${at};`.repeat(10)}">`).join("");
const manyAttributes = Array.from({ length: 200_000 }, (_, at) => ` a${at}="1"`).join("");

const cases: readonly (readonly [what: string, file: Uint8Array, code: string, line: number | undefined])[] = [
  ["an empty file", utf8(""), "file-empty", undefined],
  ["a document type declaration", utf8("<!DOCTYPE a>\n<a/>"), "xml-doctype", 1],
  ["one after a comment", utf8("<!-- c -->\n<!DOCTYPE a [<!ELEMENT a ANY>]>\n<a/>"), "xml-doctype", 2],
  ["a billion laughs", utf8(`<!DOCTYPE a [<!ENTITY l0 "ha">${laughs}]><a>&l9;</a>`), "xml-doctype", 1],
  [
    "quadratic blow-up",
    utf8(`<!DOCTYPE a [<!ENTITY x "${"x".repeat(50_000)}">]><a>${"&x;".repeat(50_000)}</a>`),
    "xml-doctype",
    1,
  ],
  [
    "an entity from a file",
    utf8(`<!DOCTYPE a [<!ENTITY x SYSTEM "file:///etc/hostname">]><a>&x;</a>`),
    "xml-doctype",
    1,
  ],
  ["an entity from the net", utf8(`<!DOCTYPE a SYSTEM "http://127.0.0.1:9/x.dtd"><a/>`), "xml-doctype", 1],
  ["a parameter entity", utf8(`<!DOCTYPE a [<!ENTITY % x SYSTEM "x"> %x;]><a/>`), "xml-doctype", 1],
  ["a declaration without end", utf8(`<!DOCTYPE a [${"<!ENTITY b 'c'>".repeat(200_000)}`), "xml-text-too-long", 1],
  ["an entity that nothing defines", utf8("<a>\n&nbsp;</a>"), "xml-not-well-formed", 2],
  ["an entity in an attribute", utf8(`<a b="&x;"/>`), "xml-not-well-formed", 1],
  ["elements 100,000 deep", utf8(`${"<a>".repeat(100_000)}${"</a>".repeat(100_000)}`), "xml-too-deep", 1],
  ["elements 65 deep", utf8(`${"<a>".repeat(65)}${"</a>".repeat(65)}`), "xml-too-deep", 1],
  ["200,000 attributes", utf8(`<a${manyAttributes}/>`), "xml-too-many-attributes", 1],
  ["an attribute twice", utf8(`<a b="1" b="2"/>`), "xml-not-well-formed", 1],
  ["an attribute without quotes", utf8("<a b=1/>"), "xml-not-well-formed", 1],
  ["a < in an attribute", utf8(`<a b="<"/>`), "xml-not-well-formed", 1],
  ["NUL", utf8("<a>\u0000</a>"), "xml-not-well-formed", 1],
  ["NUL as a character reference", utf8("<a>&#0;</a>"), "xml-not-well-formed", 1],
  ["a control character", utf8("<a>\u0008</a>"), "xml-not-well-formed", 1],
  ["half a surrogate as a reference", utf8("<a>&#xD800;</a>"), "xml-not-well-formed", 1],
  ["a reference beyond the last character", utf8("<a>&#x110000;</a>"), "xml-not-well-formed", 1],
  ["two roots", utf8("<a/>\n<b/>"), "xml-not-well-formed", 2],
  ["text after the root", utf8("<a/>\ntext"), "xml-not-well-formed", 2],
  ["text before the root", utf8("text<a/>"), "xml-not-well-formed", 1],
  ["plain text", utf8("Lorem ipsum dolor sit amet"), "xml-not-well-formed", 1],
  ["a comment only", utf8("<!-- nothing -->"), "xml-not-well-formed", 1],
  ["tags that cross", utf8("<a><b>\n</a></b>"), "xml-not-well-formed", 2],
  ["a tag too many at the end", utf8("<a></a></b>"), "xml-not-well-formed", 1],
  ["an element cut off", utf8("<a>\n<b>\n<c"), "xml-not-well-formed", 3],
  ["a file cut off in a text", utf8("<a>\n<b>text"), "xml-not-well-formed", 2],
  ["a comment cut off", utf8("<a><!-- "), "xml-not-well-formed", 1],
  ["two hyphens in a comment", utf8("<a><!-- -- --></a>"), "xml-not-well-formed", 1],
  ["a declaration that is not first", utf8(`\n<?xml version="1.0"?><a/>`), "xml-not-well-formed", 2],
  ["the end of character data in a text", utf8("<a>]]></a>"), "xml-not-well-formed", 1],
  ["a prefix that nothing declares", utf8("<a>\n<x:b/></a>"), "xml-prefix-unknown", 2],
  [
    "such a prefix in xsi:type",
    utf8(`<a xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance" xsi:type="x:b"/>`),
    "xml-prefix-unknown",
    1,
  ],
  ["a name of 5 MB", utf8(`<${"n".repeat(5_000_000)}/>`), "xml-text-too-long", 1],
  ["an attribute of 5 MB", utf8(`<a b="${"v".repeat(5_000_000)}"/>`), "xml-text-too-long", 1],
  ["a text of 5 MB", utf8(`<a>${"t".repeat(5_000_000)}</a>`), "xml-text-too-long", 1],
  ["a comment of 5 MB", utf8(`<a><!--${"c".repeat(5_000_000)}--></a>`), "xml-text-too-long", 1],
  ["a text of 2 MB in pieces", utf8(`<a>${`${"t".repeat(999)}<!-- -->`.repeat(2000)}</a>`), "xml-text-too-long", 1],
  ["2 million character references", utf8(`<a>${"&#65;".repeat(2_000_000)}</a>`), "xml-text-too-long", 1],
  [
    "UTF-16 said, one byte a character",
    utf8(`<?xml version="1.0" encoding="UTF-16"?><a/>`),
    "xml-encoding-contradiction",
    1,
  ],
  [
    "UTF-8 said, two bytes a character",
    utf16(`<?xml version="1.0" encoding="UTF-8"?><a/>`, true),
    "xml-encoding-contradiction",
    1,
  ],
  [
    "ISO 8859-1 said, a UTF-8 mark",
    utf8(`\uFEFF<?xml version="1.0" encoding="ISO-8859-1"?><a/>`),
    "xml-encoding-contradiction",
    1,
  ],
  [
    "UTF-8 said, Latin letters in one byte",
    latin1(`<?xml version="1.0" encoding="UTF-8"?>\n<a>gr\u00fcn</a>`),
    "xml-encoding-broken",
    2,
  ],
  ["nothing said, Latin letters in one byte", latin1("<a>gr\u00fcn</a>"), "xml-encoding-broken", 1],
  ["an overlong form of /", Uint8Array.from([60, 97, 62, 0xc0, 0xaf, 60, 47, 97, 62]), "xml-encoding-broken", 1],
  ["UTF-16 with half a character", utf16("<a/>", true).subarray(0, -1), "xml-encoding-broken", 1],
  ["UTF-32", Uint8Array.from([0, 0, 0xfe, 0xff, 0, 0, 0, 60]), "encoding-unknown", undefined],
  [
    "an encoding nobody knows",
    utf8(`<?xml version="1.0" encoding="EBCDIC-CP-US"?><a/>`),
    "encoding-unknown",
    undefined,
  ],
];

describe("readXml() refuses", () => {
  test.each(cases)("%s", (_what, file, code, line) => {
    const result = runReading(readXml(file));
    expect(result?.ok === false && [result.error.code, result.error.at.line]).toEqual([code, line]);
    expect(result?.ok === false && result.error.message.length).toBeLessThan(600);
  });

  test("a file above the size limit without reading it", () => {
    const result = runReading(readXml(utf8("<a>no end"), { ...XML_LIMITS, mostBytes: 8 }));
    expect(result?.ok === false && result.error.code).toBe("file-too-large");
  });

  test("more elements than the limit", () => {
    const result = runReading(readXml(utf8(`<a>${"<b/>".repeat(10)}</a>`), { ...XML_LIMITS, mostElements: 10 }));
    expect(result?.ok === false && result.error.code).toBe("xml-too-many-elements");
  });
});

describe("readXml() keeps what is odd but right", () => {
  test.each([
    ["elements 64 deep", `${"<a>".repeat(64)}${"</a>".repeat(64)}`],
    ["64 attributes", `<a${Array.from({ length: 64 }, (_, at) => ` a${at}="1"`).join("")}/>`],
    ["a text of 1 MiB", `<a>${"t".repeat(1024 * 1024)}</a>`],
    ["a prefix declared on the element itself", `<x:a xmlns:x="y"/>`],
    ["a default namespace taken back", `<a xmlns="y"><b xmlns=""/></a>`],
    ["character data with markup in it", "<a><![CDATA[<b>&nope;</b>]]></a>"],
  ])("%s", (_what, text) => {
    expect(runReading(readXml(utf8(text)))?.ok).toBe(true);
  });

  test("names and ids of the language's own objects", () => {
    const names = ["__proto__", "constructor", "prototype", "toString", "hasOwnProperty"];
    const text = `<a>${names.map((name) => `<${name} id="${name}" ${name}="1"/>`).join("")}</a>`;
    const result = runReading(readXml(utf8(text)));
    if (!result?.ok) throw new Error("refused");
    expect([...result.value.ids.keys()]).toEqual(names);
    expect(result.value.root.children.map((child) => child.attributes.get(child.name))).toEqual(names.map(() => "1"));
    expect(Object.keys(Object.prototype)).toEqual([]);
    expect(result.value.ids.get("valueOf")).toBeUndefined();
  });

  test("ids used twice: the first stands, the others are listed", () => {
    const result = runReading(readXml(utf8(`<a><b id="x"/>\n<c id="x"/></a>`)));
    if (!result?.ok) throw new Error("refused");
    expect(result.value.ids.get("x")?.name).toBe("b");
    expect(result.value.duplicates.map((element) => [element.name, element.line])).toEqual([["c", 2]]);
  });
});

import { afterEach, describe, expect, test } from "vitest";
import { openHarness, parseOptionExpression } from "ohmward/harness-model";
import { changed, codesOf, problemsOf } from "./hostile-support.ts";
import { at, baseDocument, fitted } from "./support.ts";

/** Time a hostile text may take, in ms: generous, so that only growth beyond reason fails. */
const BOUNDED = 30_000;

const own = (of: object): string => Reflect.ownKeys(of).map(String).sort().join(" ");
const prototypes = [Object.prototype, Array.prototype, String.prototype, Map.prototype];
const before = prototypes.map(own);

afterEach(() => {
  expect(prototypes.map(own)).toEqual(before);
  expect(Reflect.get({}, "polluted")).toBeUndefined();
});

/** The text of the base document with one piece of text replaced, for what JSON.stringify cannot write. */
function replaced(from: string, to: string): string {
  const text = JSON.stringify(baseDocument());
  if (!text.includes(from)) throw new Error(`The base document has no ${from}`);
  return text.replace(from, () => to);
}

describe("openHarness() on a text that is no document", () => {
  test.each<[string, string, readonly string[]]>([
    ["nothing", "", ["not-json"]],
    ["a byte order mark", "\uFEFF", ["not-json"]],
    ["two byte order marks", `\uFEFF\uFEFF${JSON.stringify(baseDocument())}`, ["not-json"]],
    ["NUL", "\0", ["not-json"]],
    ["NUL after the end", `${JSON.stringify(baseDocument())}\0`, ["not-json"]],
    ["words", "<!doctype html><img src=x onerror=alert(1)>", ["not-json"]],
    ["NaN", replaced('"nominalVolt":12', '"nominalVolt":NaN'), ["not-json"]],
    ["Infinity", replaced('"nominalVolt":12', '"nominalVolt":Infinity'), ["not-json"]],
    ["a comment", `// note\n${JSON.stringify(baseDocument())}`, ["not-json"]],
    ["a list", "[]", ["wrong-format"]],
    ["a format of 10 MB", JSON.stringify({ format: "x".repeat(1e7) }), ["wrong-format"]],
    ["a format that is an object", '{"format":{"toString":"x"}}', ["wrong-format"]],
    ["a number too large to be one", replaced('"nominalVolt":12', '"nominalVolt":1e999'), ["shape"]],
    ["a version too large to be one", replaced('"version":3', '"version":1e999'), ["newer-version"]],
  ])("%s", (_, text, codes) => {
    expect(codesOf(text)).toEqual(codes);
  });

  test("a file cut off at any of 300 places", () => {
    const text = JSON.stringify(baseDocument(), undefined, 1);
    for (let part = 0; part < 300; part++) {
      expect(codesOf(text.slice(0, Math.floor((text.length * part) / 300)))).toEqual(["not-json"]);
    }
  });

  test.each<[string, string, string]>([
    ["lists", "[", "]"],
    ["objects", '{"a":', "}"],
    ["components", '{"components":[', "]}"],
  ])(
    "100,000 levels of %s, closed or not, alone or inside a document",
    (_, open, close) => {
      const deep = `${open.repeat(100_000)}1${close.repeat(100_000)}`;
      expect(["not-json", "wrong-format"]).toContain(at(problemsOf(deep), 0).code);
      expect(codesOf(open.repeat(100_000))).toEqual(["not-json"]);
      for (const place of ['"options":[', '"about":', '"label":"Cold package"']) {
        const text = replaced(
          place,
          place.endsWith("[") ? `${place}${deep},` : `${place.split(":")[0] ?? ""}:${deep},"x":`,
        );
        expect(["shape", "not-json"]).toContain(at(problemsOf(text), 0).code);
      }
    },
    BOUNDED,
  );
});

describe("openHarness() on wrong kinds of values", () => {
  const fields = Object.keys(baseDocument()).filter((name) => name !== "format" && name !== "version");

  test.each(fields)("%s as anything else is a problem at its place", (field) => {
    for (const value of [null, 1, "x", true, [[]], [null], { 0: {} }, [1, 2], { length: 1e9 }, [{ __proto__: null }]]) {
      const problems = problemsOf(JSON.stringify({ ...baseDocument(), [field]: value }));
      expect(problems.length).toBeGreaterThan(0);
      for (const { code, at: place } of problems) {
        expect(code).toBe("shape");
        expect(place.path.startsWith(field)).toBe(true);
      }
    }
  });

  test("numbers, lists and objects as ids are refused where they stand", () => {
    for (const id of [
      1,
      ["W1"],
      { toString: "W1" },
      null,
      true,
      "",
      " ",
      "a b",
      "a:b",
      "a#b",
      "x".repeat(65),
      "\uD83D",
      "e\u0301",
      "W1\n",
    ]) {
      const problems = problemsOf(JSON.stringify({ ...baseDocument(), wires: [{ id, ends: ["G1+", "SP1"] }] }));
      expect(problems.map((problem) => [problem.code, problem.at.path])).toEqual([["shape", "wires[0].id"]]);
    }
  });

  test("a key given twice counts as it stands last, as in every JSON reader", () => {
    const text = replaced('"title":"Smallest harness with one of each thing"', '"title":"first","title":"second"');
    const opened = openHarness(text);
    expect(opened.ok && opened.value.document.about.title).toBe("second");
  });
});

describe("openHarness() on names every object has", () => {
  const names = ["constructor", "toString", "hasOwnProperty", "valueOf", "prototype"];

  test.each(names)("%s is an id like any other, for every kind of thing", (name) => {
    for (const old of [
      "W1",
      "SP1",
      "G1+",
      "A3",
      "A3.X1",
      "XC1m",
      "SG1",
      "P1",
      "Z1",
      "OPT-COLD",
      "base",
      "OFF",
      "BATT",
    ]) {
      const text = JSON.stringify(baseDocument()).replaceAll(
        new RegExp(`"${old.replace(/[+.]/g, "\\$&")}([:."]|$)`, "g"),
        `"${name}$1`,
      );
      const codes = codesOf(text);
      expect([old, codes.filter((code) => code !== "dangling-end")]).toEqual([old, []]);
    }
    const document = baseDocument();
    for (const wire of document.wires) if (wire.id === "W1") wire.id = name;
    expect(fitted(document, "base").edgeNumbers.get(name)).toBe(0);
  });

  test.each(names)("%s is not found where it was not given", (name) => {
    const text = changed((document) => {
      at(document.wires, 0).ends = [name, `${name}:1`];
      at(document.wires, 1).colour = name;
      at(document.wires, 2).net = name;
      at(document.segments, 0).zone = name;
      at(document.builds, 0).options = [name];
    });
    const found = problemsOf(text).map((problem) => `${problem.code} ${problem.at.path}`);
    expect(found).toEqual([
      "unknown-reference builds[0].options[0]",
      "unknown-reference segments[0].zone",
      "dangling-end wires[0].ends[0]",
      "dangling-end wires[0].ends[1]",
      "unknown-colour wires[1].colour",
      "unknown-reference wires[2].net",
    ]);
  });

  test.each([
    ["an id", '"id":"W1"', '"id":"__proto__"'],
    ["a key at the top", '"format"', '"__proto__":{"polluted":1},"format"'],
    ["a key inside", '"id":"W1"', '"__proto__":{"polluted":1},"id":"W1"'],
    ["a key of an element", '"id":"K1"', '"__proto__":{"polluted":1},"id":"K1"'],
    ["constructor as a key", '"id":"W1"', '"constructor":{"prototype":{"polluted":1}},"id":"W1"'],
  ])("__proto__ and its like as %s is refused or harmless", (_, from, to) => {
    const opened = openHarness(replaced(from, to));
    if (!opened.ok) expect(opened.error.map((problem) => problem.code)).toEqual(["shape"]);
    else expect(JSON.stringify(opened.value.document)).not.toContain("polluted");
  });
});

describe("openHarness() on strange text inside a document", () => {
  test.each([
    ["markup", "<img src=x onerror=alert(1)>"],
    ["a script", "</script><script>alert(1)</script>"],
    ["a template", "${process.exit()} {{7*7}} {@html x}"],
    ["a half character", "\uD83D"],
    ["NUL", "a\0b"],
    ["reversed writing", "\u202Etxet"],
    ["line ends", "a\r\nb\u2028c"],
  ])("%s in a label stays the same text", (_, label) => {
    const text = changed((document) => {
      at(document.components, 0).label = label;
      document.about.title = label;
    });
    const opened = openHarness(text);
    expect(opened.ok && [opened.value.document.about.title, opened.value.document.components[0]?.label]).toEqual([
      label,
      label,
    ]);
  });

  test("markup in a message stays text", () => {
    const text = changed((document) => {
      at(document.wires, 0).ends = ["<img src=x>", "G1+"];
    });
    expect(problemsOf(text)[0]?.message).toBe(
      '"<img src=x>" is no point of the harness: no cavity, splice or terminal stud has this address',
    );
  });

  test(
    "a label, an id, a key or an expression of 10 MB is a problem of a few words",
    () => {
      const huge = "x".repeat(1e7);
      const texts = [
        changed((document) => void (document.about.title = huge)),
        changed((document) => void (at(document.wires, 0).id = huge)),
        changed((document) => void (at(document.wires, 0).ends = [huge, huge])),
        changed((document) => void (at(document.wires, 0).when = `${huge} &`)),
        changed((document) => void Object.assign(document, { [huge]: 1 })),
        changed(
          (document) =>
            void Object.assign(
              document.about,
              Object.fromEntries(Array.from({ length: 1e5 }, (_, key) => [`k${key}`, 1])),
            ),
        ),
      ];
      for (const text of texts) {
        const problems = problemsOf(text);
        expect(problems.map((problem) => problem.code)).toContain("shape");
        for (const problem of problems) expect(problem.message.length).toBeLessThan(1000);
      }
    },
    BOUNDED,
  );
});

describe("openHarness() on references that go in circles", () => {
  test("a segment from a place to itself, a wire from a contact to itself, a splice to itself", () => {
    const text = changed((document) => {
      at(document.segments, 0).to = at(document.segments, 0).from;
      at(document.wires, 0).ends = ["A3.X1:1", "A3.X1:1"];
      document.splices.push({ id: "SP2" });
      document.wires.push({ id: "W10", ends: ["SP2", "SP2"] }, { id: "W11", ends: ["G1+", "G1+"] });
    });
    expect(codesOf(text)).toEqual(["joins-itself", "route-broken"]);
  });

  test("relays that switch each other and themselves, elements in a ring and on one point", () => {
    const document = baseDocument();
    at(document.components, 1).elements = [
      { id: "K1", kind: "coil", between: ["#a", "#b"], resistanceOhm: 90 },
      { id: "K2", kind: "coil", between: ["#b", "#a"], resistanceOhm: 90 },
      { id: "k1", kind: "contact", of: "K1", form: "break", between: ["#a", "#b"], resistanceOhm: 0 },
      { id: "k2", kind: "contact", of: "K2", form: "make", between: ["#a", "#a"], resistanceOhm: 0 },
      {
        id: "d",
        kind: "divider",
        between: ["#a", "#a"],
        tap: "#a",
        quantity: "x",
        ratio: [
          [0, 0],
          [1, 1],
        ],
        sourceOhm: 0,
      },
      { id: "S1", kind: "switch", between: ["A3.X1:1", "A3.X1:1"], resistanceOhm: 0, rest: "open" },
    ];
    expect(fitted(document, "base").edges.filter((edge) => edge.key.startsWith("A3.d"))).toHaveLength(2);
  });

  test("an element named like the half of a divider is a problem, not a fault when the graph is made", () => {
    const text = changed((document) => {
      at(document.components, 2).elements.push({ id: "p.bottom", kind: "bar", between: ["#a", "#b"] });
      document.wires.push({ id: "B3.p.top", ends: ["G1+", "G1-"] });
    });
    expect(problemsOf(text).map((problem) => problem.code)).toEqual(["duplicate-id", "duplicate-id"]);
  });

  test("a route of 100,000 steps to and fro", { timeout: BOUNDED }, () => {
    const text = changed((document) => {
      at(document.wires, 1).route = Array.from({ length: 100_001 }, () => "SG1");
    });
    expect(codesOf(text)).toEqual(["length-below-route"]);
  });
});

describe("parseOptionExpression() on hostile text", () => {
  test.each([
    ["10,000 brackets", "(".repeat(10_000)],
    ["10,000 closed brackets", `${"(".repeat(10_000)}A${")".repeat(10_000)}`],
    ["10,000 negations", "!".repeat(10_000)],
    ["10,000 spaces and a wrong sign", `${" ".repeat(10_000)}?`],
    ["10,000 ids without an operator", "A ".repeat(10_000)],
    ["10,000 operators", "&".repeat(10_000)],
  ])("refuses %s in bounded time", (_, text) => {
    expect(parseOptionExpression(text).ok).toBe(false);
  });

  test("reads 10,000 characters of options, and an id of 10,000", () => {
    expect(parseOptionExpression(Array.from({ length: 2500 }, () => "A").join(" & ")).ok).toBe(true);
    expect(parseOptionExpression("A".repeat(10_000)).ok).toBe(true);
  });

  test("a document may hold 600 characters of it", () => {
    for (const [length, codes] of [
      [600, ["unknown-reference"]],
      [601, ["shape"]],
    ] as const) {
      expect(codesOf(changed((document) => void (at(document.wires, 0).when = "A".repeat(length))))).toEqual(codes);
    }
  });
});

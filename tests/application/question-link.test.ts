import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  EXPECT_METERS,
  FIND_GROUPS,
  readQuestionLink,
  writeQuestionLink,
  type LinkedQuestion,
} from "ohmward/application";

// Whole characters only: half a surrogate pair is no text that a link can carry.
const text = fc.string({ unit: "binary", maxLength: 40 });
const mark = fc.constantFrom("bad" as const, "good" as const, "unknown" as const);
const through = fc.constantFrom(
  "conductors" as const,
  "switches-and-fuses" as const,
  "loads" as const,
  "control-units" as const,
);
const texts = fc.array(text, { minLength: 1, maxLength: 4 });
const conditions = { black: text, faults: texts, unplugged: texts, adapters: texts, settings: texts };
const meter = fc.constantFrom(...EXPECT_METERS);
const question: fc.Arbitrary<LinkedQuestion["question"]> = fc.oneof(
  fc.record({ kind: fc.constant("circuit" as const), point: text }),
  fc.record(
    { kind: fc.constant("path" as const), from: text, to: text, through },
    { requiredKeys: ["kind", "from", "to"] },
  ),
  fc.record({ kind: fc.constant("common" as const), items: fc.array(fc.record({ text, mark }), { maxLength: 12 }) }),
  fc.record({ kind: fc.constant("effect" as const), item: text }),
  fc.record({ kind: fc.constant("test-points" as const), item: text }),
  fc.record(
    { kind: fc.constant("find" as const), text, group: fc.constantFrom(...FIND_GROUPS) },
    { requiredKeys: ["kind", "text"] },
  ),
  fc.record(
    { kind: fc.constant("expected" as const), red: text, meter, ...conditions },
    { requiredKeys: ["kind", "red"] },
  ),
  fc.record({ kind: fc.constant("table" as const), item: text, ...conditions }, { requiredKeys: ["kind", "item"] }),
);
const linked = fc.record({ setting: fc.record({ build: text, state: text }, { requiredKeys: [] }), question });

describe("writeQuestionLink() and readQuestionLink()", () => {
  test("read back what was written (law)", () => {
    fc.assert(
      fc.property(linked, (each) => {
        const link = writeQuestionLink(each);
        expect(readQuestionLink(link)).toEqual(each);
        expect(readQuestionLink(`?${link}`)).toEqual(each);
        expect(link).toMatch(/^[\w.~!*'()%=&:/,@-]*$/u);
      }),
      { seed: 4501, numRuns: 500 },
    );
  });

  test("agree with the form reader of the platform (law)", () => {
    // Source: WHATWG URL Standard, application/x-www-form-urlencoded parsing, as Node implements it.
    fc.assert(
      fc.property(text, (point) => {
        const link = writeQuestionLink({ setting: { build: "base" }, question: { kind: "circuit", point } });
        expect([...new URLSearchParams(link)]).toEqual([
          ["build", "base"],
          ["ask", "circuit"],
          ["point", point],
        ]);
        const theirs = new URLSearchParams([
          ["ask", "circuit"],
          ["point", point],
        ]).toString();
        expect(readQuestionLink(theirs)?.question).toEqual({ kind: "circuit", point });
      }),
      { seed: 4502, numRuns: 300 },
    );
  });

  test.each([
    ["ask=trace&point=B3", "ask=circuit&point=B3"],
    ["ask=between&from=A1&to=B3&through=series", "ask=path&from=A1&to=B3&through=switches-and-fuses"],
    ["ask=shared&bad=B3&good=B5", "ask=common&bad=B3&good=B5"],
    ["ask=without&thing=XT1", "ask=effect&item=XT1"],
    ["ask=probe&thing=B3.X:3", "ask=test-points&item=B3.X:3"],
    ["ask=expect&red=SP11&meter=ohms", "ask=expected&red=SP11&meter=resistance"],
  ])("of version 0.1 ask the same: %s", (former, today) => {
    expect(readQuestionLink(former)).toEqual(readQuestionLink(today));
    expect(readQuestionLink(today)).toBeDefined();
  });

  test("stay readable and pass over keys of others", () => {
    const each: LinkedQuestion = {
      setting: { build: "base" },
      question: { kind: "path", from: "A1.X1:36", to: "B3" },
    };
    const link = "build=base&ask=path&from=A1.X1:36&to=B3";
    expect(writeQuestionLink(each)).toBe(link);
    expect(readQuestionLink(`view=drawing&${link}&zoom=2&&x`)).toEqual(each);
    expect(readQuestionLink("ask=trace&point=G2%2B&%E0%A4%A=1")).toEqual({
      setting: {},
      question: { kind: "circuit", point: "G2+" },
    });
  });

  test.each([
    ["nothing", ""],
    ["no question", "build=base&point=B3"],
    ["an unknown question", "ask=guess&point=B3"],
    ["a missing part", "ask=path&from=B3"],
    ["an unknown width", "ask=path&from=B3&to=B4&through=walls"],
    ["a red lead that is missing", "ask=expected&black=G2-"],
    ["an unknown meter", "ask=expected&red=G2%2B&meter=nose"],
    ["a lead given twice", "ask=expected&red=A&red=B"],
    ["a table of nothing", "ask=table&fault=open:W78"],
    ["a part given twice", "ask=trace&point=B3&point=B4"],
    ["two questions", "ask=trace&ask=find&point=B3"],
    ["a broken escape", "ask=trace&point=%E0%A4%A"],
    ["half a character", "ask=trace&point=%ED%A0%80"],
    ["a name of the language", "ask=constructor&point=B3"],
    ["an endless text", `ask=trace&point=${"a".repeat(20_000)}`],
  ])("hold no question where there is %s", (_label, link) => {
    expect(readQuestionLink(link)).toBeUndefined();
  });

  test("repeat faults, connectors, adapters and settings in their order, and leave empty lists out", () => {
    const each: LinkedQuestion = {
      setting: { state: "KOEO" },
      question: {
        kind: "expected",
        red: "XE1e:1",
        meter: "voltage-drop",
        faults: ["open:W78", "short:W74=GND-E1,0.5,30%"],
      },
    };
    const link =
      "state=KOEO&ask=expected&red=XE1e:1&meter=voltage-drop&fault=open:W78&fault=short:W74%3DGND-E1,0.5,30%25";
    expect(writeQuestionLink(each)).toBe(link);
    expect(readQuestionLink(link)).toEqual(each);
    const empty = { setting: {}, question: { kind: "table", item: "B3", faults: [], unplugged: [] } } as const;
    expect(readQuestionLink(writeQuestionLink(empty))?.question).toEqual({ kind: "table", item: "B3" });
  });

  test("never throw, whatever comes (law)", () => {
    const hostile = fc.oneof(
      fc.string({ unit: "binary", maxLength: 200 }),
      fc.stringMatching(/^(?:(?:ask|point|from|bad|build|red|fault|meter)(?:=[%a-z0-9]{0,6})?&?){0,8}$/),
    );
    fc.assert(
      fc.property(hostile, (link) => {
        const read = readQuestionLink(link);
        if (read) expect(readQuestionLink(writeQuestionLink(read))).toEqual(read);
      }),
      { seed: 4503, numRuns: 500 },
    );
  });

  test("half a surrogate pair is replaced, not thrown at", () => {
    const link = writeQuestionLink({ setting: {}, question: { kind: "find", text: "a\uD800b" } });
    expect(readQuestionLink(link)?.question).toEqual({ kind: "find", text: "a\uFFFDb" });
  });
});

import { describe, expect, test } from "vitest";
import { cleanId, HarnessDraft, type ImportProblem, type ReadResult } from "ohmward/import-export";
import { fitBuild } from "ohmward/harness-model";
import { isGuarded } from "ohmward/measurement-safety";
import { layOutCavities } from "../../../src/import-export/draft/finish-draft.ts";

function documentOf(result: ReadResult) {
  if (!result.ok) throw new Error(result.error.map((problem) => problem.message).join("\n"));
  return result.value.document;
}

const problemsOf = (result: ReadResult): readonly ImportProblem[] => (result.ok ? result.value.warnings : result.error);
const codesOf = (result: ReadResult): readonly string[] => problemsOf(result).map((problem) => problem.code);

/** A draft with one wire between two connectors. */
function small(net?: string): HarnessDraft {
  const draft = new HarnessDraft({
    file: "a.csv",
    system: { nominalVolt: 24, wireStandard: "iso-6722", temperatureC: 20 },
  });
  const ends: [string, string] = [
    draft.contact(draft.addConnector({ id: "A1.X1" }), "1"),
    draft.contact(draft.addConnector({ id: "B3" }), "2"),
  ];
  draft.addWire({ id: "W1", ends, ...(net === undefined ? {} : { net }) }, { row: 2 });
  return draft;
}

describe("a draft", () => {
  test("completes components, halves, faces and builds, and says so once each", () => {
    const made = small().finish();
    const document = documentOf(made);
    expect(document.components.map(({ id, elements }) => [id, elements])).toEqual([
      ["A1", []],
      ["B3-unit", []],
    ]);
    expect(
      document.connectors.map(({ id, component, kind, sides }) => [id, component, kind, sides.map((side) => side.id)]),
    ).toEqual([
      ["A1.X1", "A1", "component", ["harness", "device"]],
      ["B3", "B3-unit", "component", ["harness", "device"]],
    ]);
    expect(document.connectors[0]?.note).toContain("Face not known");
    expect(document.builds).toEqual([{ id: "base", label: "Without any option", options: [] }]);
    expect(document.states.map((state) => state.conditions)).toEqual([["battery-disconnected"], ["key-on"]]);
    expect(codesOf(made)).toEqual(["layout-assumed", "component-assumed", "insides-unknown"]);
  });

  test("says that it took 12 V where nobody stated the voltage", () => {
    const draft = new HarnessDraft({ file: "a.csv" });
    draft.addWire({
      id: "W1",
      ends: [draft.contact(draft.addConnector({ id: "X1" }), "1"), draft.addTerminalStud({ id: "G1", role: "ground" })],
    });
    const made = draft.finish();
    expect(documentOf(made).system.nominalVolt).toBe(12);
    expect(codesOf(made)).toContain("system-assumed");
  });

  test("keeps own ids, mends those that cannot be, and tells two things of one name apart", () => {
    const draft = small();
    expect([draft.addSplice({ id: "W1" }), draft.addSplice({ id: "-SP 4" }), draft.addZone({ id: "" })]).toEqual([
      "W1-2",
      "SP-4",
      "Z1",
    ]);
    expect(draft.idOf("splice", "-SP 4")).toBe("SP-4");
    expect(draft.parts.problems.map((problem) => problem.code)).toEqual(["id-changed", "id-changed"]);
  });

  test("tells the ids of several files apart", () => {
    const draft = new HarnessDraft({ file: "main.kbl" });
    const first = draft.addConnector({ id: "X1" });
    draft.beginFile("engine.kbl", "engine-");
    expect(draft.idOf("connector", "X1")).toBeUndefined();
    expect([first, draft.addConnector({ id: "X1" }), draft.idOf("connector", "X1")]).toEqual([
      "X1",
      "engine-X1",
      "engine-X1",
    ]);
  });

  test("gives no thing the name of a half", () => {
    const draft = new HarnessDraft({ file: "a.csv" });
    draft.addConnector({
      id: "XC1",
      kind: "inline",
      sides: [
        { id: "m", name: "XC1m" },
        { id: "c", name: "XC1c" },
      ],
    });
    expect(draft.addSplice({ id: "XC1m" })).toBe("XC1m-2");
    expect(draft.addSplice({ id: "XC1.c" })).toBe("XC1.c-2");
  });

  test("gives cavities legal ids, and knows them by what the file calls them", () => {
    const draft = new HarnessDraft({ file: "a.csv" });
    const plug = draft.addConnector({ id: "X1" });
    expect([
      draft.contact(plug, "+"),
      draft.contact(plug, "+"),
      draft.contact(plug, "1/2"),
      draft.contact(plug, "1-2"),
    ]).toEqual(["X1:plus", "X1:plus", "X1:1-2", "X1:1-2-2"]);
  });

  test("carries a problem of the document over to the row it comes from", () => {
    const draft = small("FEED");
    draft.addWire(
      { id: "W2", ends: [draft.contact("A1.X1", "1"), draft.contact("B3", "9")], net: "BACK" },
      { row: 7, column: "Pin" },
    );
    expect(problemsOf(draft.finish()).find((problem) => problem.code === "nets-joined")).toMatchObject({
      at: { file: "a.csv", row: 7, column: "Pin", path: "wires[1].ends[0]" },
    });
  });

  test("makes builds that fit every expression", () => {
    const draft = small();
    for (const [at, when] of ["A", "!A", "A & B", "C | D", "(E | F) & !G", "H &"].entries()) {
      draft.addWire({
        id: `V${at}`,
        ends: [draft.contact("A1.X1", `${at + 10}`), draft.contact("B3", `${at + 10}`)],
        when,
      });
    }
    const made = draft.finish();
    expect(codesOf(made).filter((code) => code === "option-expression")).toHaveLength(1);
    const good = small();
    good.addWire({ id: "V1", ends: [good.contact("A1.X1", "5"), good.contact("B3", "5")], when: "A & B" });
    expect(documentOf(good.finish()).builds.map((build) => build.options)).toEqual([[], ["A", "B"]]);
  });

  test("leaves open what a net is for where the file does not say it, also where the file lists others", () => {
    expect(documentOf(small("Airbag squib driver").finish()).nets).toEqual([]);
    const draft = small("Airbag squib driver");
    draft.addNet({ id: "30", kind: "battery-power" });
    const made = draft.finish();
    expect(documentOf(made).nets).toEqual([{ id: "30", kind: "battery-power" }, { id: "Airbag squib driver" }]);
    expect(codesOf(made)).toContain("net-kinds-missing");
  });

  test("a line of an imported machine is guarded by its name or by that of the part it ends at", () => {
    const draft = new HarnessDraft({ file: "a.csv" });
    const module = draft.addConnector({ id: "A9.X1", label: "Airbag module" });
    const lines = [
      { id: "W1", ends: [draft.contact(module, "1"), draft.contact(draft.addConnector({ id: "X2" }), "1")], net: "5" },
      {
        id: "W2",
        ends: [draft.contact("X2", "2"), draft.contact(draft.addConnector({ id: "X3" }), "1")],
        net: "LIGHT",
      },
      {
        id: "W3",
        ends: [draft.contact("X3", "2"), draft.contact(draft.addConnector({ id: "X4" }), "1")],
        net: "Hochvolt+",
      },
    ] as const;
    for (const line of lines) draft.addWire({ ...line, ends: [...line.ends] });
    const harness = fitBuild(documentOf(draft.finish()), "base");
    if (!harness) throw new Error("no build");
    expect(lines.map(({ id }) => isGuarded(harness, { type: "wire", id }))).toEqual([true, false, true]);
  });

  test("lets what the file says of a net stand", () => {
    const draft = small("Airbag lamp");
    draft.addNet({ id: "Airbag lamp", kind: "supply" });
    expect(documentOf(draft.finish()).nets).toEqual([{ id: "Airbag lamp", kind: "supply" }]);
  });

  test("throws for a connector it does not have", () => {
    expect(() => small().contact("nowhere", "1")).toThrow(RangeError);
  });
});

test.each([
  ["A1.X1", "A1.X1"],
  ["-X1", "X1"],
  ["=A1+B2-X1", "A1+B2-X1"],
  ["Plug 4 / left", "Plug-4-left"],
  ["G2-", "G2-"],
  ["Ω1", "Ω1"],
  ["(?)", undefined],
  ["", undefined],
  ["+", "plus"],
])("cleanId(%j) is %j", (text, id) => {
  expect(cleanId(text)).toBe(id);
});

test("cleanId() gives an id of at most 64 characters, without half a character at its end", () => {
  expect(cleanId("W".repeat(100))).toHaveLength(64);
  expect(cleanId(`${"W".repeat(63)}\u{20000}`)).toBe("W".repeat(63));
});

describe("layOutCavities()", () => {
  const ids = (count: number) => Array.from({ length: count }, (_, at) => ({ id: `${at + 1}` }));

  test.each([
    [4, 1],
    [6, 2],
    [40, 2],
    [60, 3],
  ])("lays %d cavities out in %d rows, each in a place of its own", (count, rows) => {
    const { cavities, isAssumed } = layOutCavities(ids(count).reverse());
    expect(isAssumed).toBe(true);
    expect(new Set(cavities.map(({ y }) => y)).size).toBe(rows);
    expect(new Set(cavities.map(({ x, y }) => `${x} ${y}`)).size).toBe(count);
    expect(cavities.map(({ id }) => id)).toEqual(ids(count).map(({ id }) => id));
  });

  test("lets places stand that the file gives for all, and only then", () => {
    const placed = [
      { id: "2", x: 5, y: 1 },
      { id: "1", x: 4, y: 0 },
    ];
    expect(layOutCavities(placed)).toEqual({ cavities: placed, isAssumed: false });
    expect(layOutCavities([...placed, { id: "3" }]).isAssumed).toBe(true);
  });
});
